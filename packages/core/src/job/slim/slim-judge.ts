import type { ColoursCompared } from '../../colour/compare-colours.js';
import type { PicturePlan, PicturePlans } from '../../drawing/slim/plan-picture.js';
import type { PerAxis } from '../../drawing/slim/plan-spans.js';
import type { LookedAtPicture } from '../../read/look-at-picture.js';
import { type BandedFile, bandOf, bandsOf, decodePart } from './slim-bands.js';
import {
  compareShown,
  joinShown,
  type MostDifference,
  type Shown,
  showSamples,
} from './slim-shown.js';
import {
  coarseOf,
  insideOf,
  moveSpots,
  reachOf,
  spotsPerBlock,
  spreadSpots,
} from './slim-spots.js';

/** A picture made smaller. */
export interface SmallerPicture {
  /** Its new file. */
  readonly bytes: Buffer;
  /** Of which kind. */
  readonly format: 'png' | 'jpeg';
  /** What it shows of the old pixels. */
  readonly plan: PicturePlan;
  /** Whether its pixels are the means of what lay under them, whatever programs show that halve. */
  readonly isMean: boolean;
}

/** How different a finished picture shows from the one that it stands for. */
export interface Verdict {
  /** Mean CIEDE2000 over all that shows. */
  readonly mean: number;
  /** Of the block of dots where it is largest. */
  readonly worst: number;
  /** Where that begins, in pixels of the old picture. */
  readonly at: PerAxis;
}

// A second of work, twice.
const mostSpots = 400_000;

/**
 * Look at all that shows of a picture, to hold smaller ones against it.
 *
 * @param bytes - Its file.
 * @param look - What its head says.
 * @param plans - What may become of it: the last keeps all that shows.
 * @returns What judges a finished file.
 */
export function judgeOf(
  bytes: Buffer,
  look: LookedAtPicture,
  plans: PicturePlans,
): (made: SmallerPicture, most: MostDifference) => Promise<Verdict> {
  const { lies } = plans;
  const plain = plans.plans.at(-1);
  if (plain === undefined) throw new Error('a picture of no plans');
  const grey = look.channels <= 2;
  const views = lies.map((lie): View => {
    const window = {
      x: insideOf(plain.x, lie.perDot.x, look.width),
      y: insideOf(plain.y, lie.perDot.y, look.height),
    };
    return { spots: spreadSpots(window, lie, mostSpots / lies.length), perDot: lie.perDot };
  });
  let before: readonly Shown[] | null = null;
  return async ({ bytes: file, plan: { x, y }, isMean }, most) => {
    const was = (before ??= await showFile({ bytes, size: look, grey }, views));
    const now = await showFile(
      { bytes: file, size: { width: x.count, height: y.count }, grey },
      views.map(({ spots, perDot }) => ({
        spots: moveSpots(spots, x, y),
        perDot: { x: perDot.x / x.pitch, y: perDot.y / y.pitch },
      })),
    );
    const verdicts = views.map(({ spots }, i) =>
      toVerdict(spots, compareShown(was[i]!, now[i]!, isMean ? most : null)),
    );
    const [worst] = verdicts.toSorted((a, b) => b.worst - a.worst);
    if (worst === undefined) throw new Error('a picture of no places');
    return { ...worst, mean: Math.max(...verdicts.map(({ mean }) => mean)) };
  };
}

// The dots that are looked at, of a size in which it shows.
interface View {
  readonly spots: Float64Array;
  readonly perDot: PerAxis;
}

function toVerdict(spots: Float64Array, { mean, worst, at }: ColoursCompared): Verdict {
  const first = 2 * at * spotsPerBlock;
  return { mean, worst, at: { x: spots[first] ?? 0, y: spots[first + 1] ?? 0 } };
}

// Each band is decoded once, for all sizes.
async function showFile(file: BandedFile, views: readonly View[]): Promise<Shown[]> {
  const { size } = file;
  const coarse = Math.max(...views.map(({ perDot }) => coarseOf(perDot)));
  const fewest = Math.min(...views.map(({ spots }) => blocksIn(spots)));
  const parts: Shown[][] = views.map(() => []);
  const bands = bandsOf(size, fewest);
  for (let band = 0; band < bands; band++) {
    const here = views.map(({ spots }) => {
      const { from, length } = bandOf(band, bands, blocksIn(spots));
      return spots.subarray(2 * spotsPerBlock * from, 2 * spotsPerBlock * (from + length));
    });
    const x = reachOf(...extentOf(here, 0), { coarse, length: size.width });
    const y = reachOf(...extentOf(here, 1), { coarse, length: size.height });
    const samples = await decodePart(file, { x, y });
    for (const [i, { perDot }] of views.entries()) {
      const spots = here[i]!.map((spot, at) => spot - (at % 2 === 0 ? x : y).from);
      parts[i]!.push(showSamples(samples, { spots, ...perDot }));
    }
  }
  return parts.map(joinShown);
}

function blocksIn(spots: Float64Array): number {
  return spots.length / 2 / spotsPerBlock;
}

function extentOf(parts: readonly Float64Array[], axis: 0 | 1): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const spots of parts) {
    for (let i = axis; i < spots.length; i += 2) {
      low = Math.min(low, spots[i]!);
      high = Math.max(high, spots[i]!);
    }
  }
  return [low, high];
}
