import type { ColoursCompared } from '../../colour/compare-colours.js';
import type { PictureLie, PicturePlan, PicturePlans } from '../../drawing/slim/plan-picture.js';
import type { PerAxis, PixelSize } from '../../drawing/slim/plan-spans.js';
import { decodeWindow } from '../../read/decode-window.js';
import type { LookedAtPicture } from '../../read/look-at-picture.js';
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
    return { ...lie, spots: spreadSpots(window, lie, mostSpots / lies.length), before: null };
  });
  const old = { bytes, size: look, grey };
  return async ({ bytes: file, plan, isMean }, most) => {
    const size = { width: plan.x.count, height: plan.y.count };
    const verdicts: Verdict[] = [];
    for (const view of views) {
      view.before ??= await showFile(old, view.spots, view.perDot);
      const now = await showFile(
        { bytes: file, size, grey },
        moveSpots(view.spots, plan.x, plan.y),
        { x: view.perDot.x / plan.x.pitch, y: view.perDot.y / plan.y.pitch },
      );
      verdicts.push(toVerdict(view.spots, compareShown(view.before, now, isMean ? most : null)));
    }
    const [worst] = verdicts.toSorted((a, b) => b.worst - a.worst);
    if (worst === undefined) throw new Error('a picture of no places');
    return { ...worst, mean: Math.max(...verdicts.map(({ mean }) => mean)) };
  };
}

interface View extends PictureLie {
  readonly spots: Float64Array;
  // What shows of the old one.
  before: Shown | null;
}

function toVerdict(spots: Float64Array, { mean, worst, at }: ColoursCompared): Verdict {
  const first = 2 * at * spotsPerBlock;
  return { mean, worst, at: { x: spots[first] ?? 0, y: spots[first + 1] ?? 0 } };
}

interface ShownFile {
  readonly bytes: Buffer;
  readonly size: PixelSize;
  readonly grey: boolean;
}

// Decoded from the top each time, which takes a little longer and much less memory.
const bandPixels = 8e6;
const mostBands = 4;

async function showFile(file: ShownFile, spots: Float64Array, perDot: PerAxis): Promise<Shown> {
  const { bytes, size, grey } = file;
  const blocks = spots.length / 2 / spotsPerBlock;
  const wanted = Math.min(mostBands, blocks, Math.ceil((size.width * size.height) / bandPixels));
  const coarse = coarseOf(perDot);
  const parts: Shown[] = [];
  for (let band = 0; band < wanted; band++) {
    const [from, to] = [band, band + 1].map(
      (one) => 2 * spotsPerBlock * Math.round((one * blocks) / wanted),
    );
    const here = spots.subarray(from, to);
    const across = reachOf(...extentOf(here, 0), { coarse, length: size.width });
    const down = reachOf(...extentOf(here, 1), { coarse, length: size.height });
    const samples = await decodeWindow('it', bytes, {
      window: { left: across.from, top: down.from, width: across.length, height: down.length },
      bits: 8,
      grey,
    });
    const moved = here.map((spot, i) => spot - (i % 2 === 0 ? across.from : down.from));
    parts.push(showSamples(samples, { spots: moved, ...perDot }));
  }
  return joinShown(parts);
}

function extentOf(spots: Float64Array, axis: 0 | 1): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = axis; i < spots.length; i += 2) {
    low = Math.min(low, spots[i]!);
    high = Math.max(high, spots[i]!);
  }
  return [low, high];
}
