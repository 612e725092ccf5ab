import type { PaintKey } from '../../drawing/dress/paint-key.js';
import type { LightSide } from '../../finish/relief/light-side.js';
import type { ProfileId } from '../../finish/relief/profiles/profile.js';
import type { ReliefMark } from '../../page/relief-mark.js';
import type { ReliefFittings, ReliefJoinery, ReliefSizes } from '../relief/relief-options.js';

/** What covered outlines are, in relief: as long and as deep as they are drawn. */
export interface DressRelief
  extends
    Omit<ReliefSizes, 'depth'>,
    Omit<ReliefFittings, 'covers'>,
    Pick<ReliefJoinery, 'boardLength' | 'isUpright' | 'panes' | 'isSunk'> {
  /** Where the light comes from, as a piece lies; `above` unless told. */
  readonly light?: LightSide;
  /** How strong relief is, 0 to 1; 0.7 unless told. */
  readonly strength?: number;
}

/** Which covered outlines are in relief. */
export interface DressReliefWish {
  /** Which outlines. */
  readonly key: PaintKey;
  /** What they are. */
  readonly relief: DressRelief;
}

/** Relief on an outline. */
export interface PlacedRelief {
  /** What it is drawn as. */
  readonly profile: ProfileId;
  /** Mm of paper from the datum, along its courses and down. */
  readonly marks: readonly ReliefMark[];
}
