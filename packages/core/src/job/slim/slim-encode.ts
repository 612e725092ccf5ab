import type { PicturePlan, PicturePlans } from '../../drawing/slim/plan-picture.js';
import { endOf, type PlannedSpan } from '../../drawing/slim/plan-spans.js';
import type { Samples } from '../../raster/average-samples.js';
import type { LookedAtPicture } from '../../read/look-at-picture.js';
import {
  type EncodedSamples,
  type EncodeSamplesOptions,
  encodeSamples,
  encodeWindow,
} from '../../write/encode-samples.js';
import { bandOf, bandsOf, decodePart } from './slim-bands.js';
import { narrowSamples } from './slim-narrow.js';
import { coarseOf, reachOf, type Stretch } from './slim-spots.js';

/** How a new picture is encoded. */
export type Coding = Omit<EncodeSamplesOptions, 'quick'>;

/** A picture of which another is made. */
export interface OldFile {
  /** Its file. */
  readonly bytes: Buffer;
  /** What its head says. */
  readonly look: LookedAtPicture;
  /** What may become of it. */
  readonly all: PicturePlans;
  /** What the new file says of itself. */
  readonly note: string;
}

/**
 * Make a plan's file. Pixels that are kept go from file to file and are never held.
 *
 * @param old - The picture.
 * @param plan - What is to become of its pixels.
 * @param coding - How they are encoded.
 * @returns The file.
 * @throws TextureError `damaged-picture`.
 */
export async function encodePlan(old: OldFile, plan: PicturePlan, coding: Coding): Promise<Buffer> {
  const { bytes, look, note } = old;
  if (plan.dpi !== null || look.bits !== 8) {
    return encodeSamples({ ...(await takePixels(old, plan)), note }, coding);
  }
  const [x, y] = [wholePixels(plan.x, look.width), wholePixels(plan.y, look.height)];
  const window = { left: x.from, top: y.from, width: x.length, height: y.length };
  const { profile, channels } = look;
  return encodeWindow({ bytes, window, grey: channels <= 2, profile, note }, coding);
}

async function takePixels(
  { bytes, look, all }: OldFile,
  { x, y, dpi, isOnDots }: PicturePlan,
): Promise<EncodedSamples> {
  const { profile, bits } = look;
  const file = { bytes, grey: look.channels <= 2 };
  if (dpi === null) {
    const window = { x: wholePixels(x, look.width), y: wholePixels(y, look.height) };
    return { ...(await decodePart(file, window, bits)), bits, profile };
  }
  const bands = bandsOf(look, y.count);
  const coarse = coarseOf(all.lies[0].perDot);
  const across = reachOf(x.start, endOf(x), { coarse, length: look.width });
  const left = { ...x, start: x.start - across.from };
  let made: Samples | undefined;
  for (let band = 0; band < bands; band++) {
    const { from, length } = bandOf(band, bands, y.count);
    const rows = { ...y, start: y.start + from * y.pitch, count: length };
    const down = reachOf(rows.start, endOf(rows), { coarse, length: look.height });
    const window = await decodePart(file, { x: across, y: down });
    const { channels } = window;
    const row = x.count * channels;
    made ??= { width: x.count, height: y.count, channels, data: new Uint8Array(row * y.count) };
    const plan = { x: left, y: { ...rows, start: rows.start - down.from }, isOnDots };
    const out = made.data.subarray(from * row, (from + length) * row);
    narrowSamples(window, plan, all.lies[0].perDot, out);
  }
  if (made === undefined) throw new Error('a picture of no rows');
  return { ...made, bits: 8, profile };
}

// Under a span, inside the picture.
function wholePixels(span: PlannedSpan, size: number): Stretch {
  const from = Math.min(size - 1, Math.max(0, Math.floor(span.start)));
  const to = Math.min(size, Math.ceil(endOf(span) - 1e-6));
  return { from, length: Math.max(1, to - from) };
}
