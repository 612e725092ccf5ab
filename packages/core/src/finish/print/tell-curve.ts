import { fromSrgb, toSrgb } from '../../colour/srgb.js';
import type { Box } from '../../page/page.js';
import { invertMatrix } from '../../numeric/invert-matrix.js';
import { fitLight } from './fit-light.js';
import { measureBends } from './fit-print.js';
import { labOfLight } from './lab-of.js';
import { patchBox, whiteCentres } from './strip-layout.js';
import { stripPatches } from './strip-patches.js';

/** What a camera did to light of its own accord, such as adding contrast. */
export interface CameraCurve {
  /** Whether the strip shows beyond chance that it did something. */
  readonly isTold: boolean;
  /** Light as it fell, of linear light as the picture's levels say; the same light where nothing is told. */
  readonly undo: (light: number) => number;
  /** How much lighter or darker it makes the patches: root of the mean square, CIE 1976 lightness; 0 where not told. */
  readonly much: number;
  /** One standard deviation of that. */
  readonly unsure: number;
}

/** What a picture shows of a strip, in linear light as its levels say: red, green and blue of each place. */
export interface StripLights {
  /** In the middle of each patch. */
  readonly patches: Float64Array;
  /** Of the white between them. */
  readonly paper: Float64Array;
}

interface Patch {
  // Levels that are seen, 0 to 1 as encoded: of it, of bare paper about it, and of paper in the strip's mean light.
  readonly seen: readonly number[];
  readonly paper: readonly number[];
  readonly usual: readonly number[];
}

// How far a camera's curve lies from the standard's, in levels of 0 to 1: one standard deviation of each half-wave that
// it is made of. Twice the second is an S that bends greys by 25 of 255 levels.
const deviations = [0.02, 0.05, 0.015, 0.015];
const count = deviations.length;
const none: readonly number[] = deviations.map(() => 0);
const rounds = 4;
const step = 1e-3;
// A third of a level in all of a patch, as JPEG leaves it: with less, its colours pass for what the light did.
const slack = 8e-4;
// Chance makes as much of nothing once in a thousand strips: chi square of 4 degrees of freedom.
const beyondChance = 18.5;
// In light so even that no more is known of the curve than that, what is found is chance's: a scanner's, say.
const mostUnsure = 1.5;

const centres = stripPatches.map((_, i) => middleOf(patchBox(i)));
const sent = Float64Array.from(stripPatches.flat(), (level) => level / 255);

/**
 * Tell what a camera did to light of its own accord from what its printer did: the one follows from how bright a place
 * is, the other from what was sent there. Where light falls off over a strip, colours that are alike are seen at several
 * levels, beside white that is; how unlike they come out tells the curve between. It cannot tell one power of light from
 * another, which changes all of them alike, nor anything in light that is even: of curves that do as well, the one
 * nearest to the standard's is taken.
 *
 * @param lights - What the picture shows.
 * @returns What it did.
 * @see C. E. Rasmussen and C. K. I. Williams 2006, Gaussian Processes for Machine Learning, 2.7: how much of known curves
 *   a smooth surface of unknown form holds beside itself
 */
export function tellCurve(lights: StripLights): CameraCurve {
  const patches = listPatches(lights);
  const bends = measureBends(sent, slack);
  let amounts = none;
  let trust = new Float64Array(count * count);
  for (let round = 0; round < rounds; round++) {
    const normal = weigh(patches, amounts, bends);
    trust = normal.trust;
    const inverse = invertMatrix(trust, count);
    amounts = amounts.map((amount, j) => {
      let sum = amount;
      for (let k = 0; k < count; k++) sum += inverse[j * count + k]! * normal.pull[k]!;
      return sum;
    });
  }
  const changes = patches.map((patch) => waves((k) => slopeOf(patch, amounts, k)));
  const unsure = rootOf(changes, invertMatrix(trust, count));
  const isTold = unsure <= mostUnsure && times(amounts, trust, amounts) > beyondChance;
  if (!isTold) return { isTold, undo: (light) => light, much: 0, unsure };
  const much = rootOf(
    changes,
    Float64Array.from(amounts.flatMap((a) => amounts.map((b) => a * b))),
  );
  return { isTold, undo: (light) => lightOf(toSrgb(light), amounts), much, unsure };
}

function listPatches({ patches, paper }: StripLights): readonly Patch[] {
  const light = fitLight(whiteCentres, paper.map(toSrgb));
  const papers = centres.map((centre) => light.at(centre));
  const usual = [0, 1, 2].map(
    (channel) => papers.reduce((sum, levels) => sum + levels[channel]!, 0) / papers.length,
  );
  return papers.map((levels, i) => ({
    seen: Array.from(patches.subarray(3 * i, 3 * i + 3), toSrgb),
    paper: levels,
    usual,
  }));
}

function middleOf({ x, y, width, height }: Box): { readonly x: number; readonly y: number } {
  return { x: x + width / 2, y: y + height / 2 };
}

function waves<Value>(of: (k: number) => Value): Value[] {
  return deviations.map((_, k) => of(k));
}

// Half-waves over all levels: black and white stay.
function bend(level: number, amounts: readonly number[]): number {
  const at = Math.PI * Math.min(1, level);
  return amounts.reduce((sum, amount, k) => sum + amount * Math.sin((k + 1) * at), 0);
}

function lightOf(level: number, amounts: readonly number[]): number {
  return fromSrgb(Math.max(0, level + bend(level, amounts)));
}

type Levels = readonly number[];

function labAt(seen: Levels, paper: Levels, amounts: Levels): readonly number[] {
  return labOfLight(
    seen.map((level, channel) => lightOf(level, amounts) / lightOf(paper[channel]!, amounts)),
  );
}

function moreOf(amounts: Levels, k: number): Levels {
  return amounts.map((amount, j) => (j === k ? amount + step : amount));
}

// How much lighter a patch becomes with more of a half-wave.
function slopeOf({ seen, paper }: Patch, amounts: Levels, k: number): number {
  const before = labAt(seen, paper, amounts)[0]!;
  return (labAt(seen, paper, moreOf(amounts, k))[0]! - before) / step;
}

// What it would be seen as in the strip's mean light, if the curve is such.
function inUsualLight({ seen, paper, usual }: Patch, amounts: Levels): Levels {
  return seen.map((level, channel) => {
    const share = lightOf(level, amounts) / lightOf(paper[channel]!, amounts);
    const target = toSrgb(share * lightOf(usual[channel]!, amounts));
    let found = target;
    // Bends are slight: each round leaves a fifth of what was off.
    for (let round = 0; round < 8; round++) found = target - bend(found, amounts);
    return Math.max(0, found);
  });
}

// Normal equations of what is to be added to each half-wave. Of what it does to colours counts only by how much that
// differs with the light: what it does to all alike might be the printer's.
function weigh(
  patches: readonly Patch[],
  amounts: Levels,
  bends: Float64Array,
): { readonly trust: Float64Array<ArrayBuffer>; readonly pull: readonly number[] } {
  const size = patches.length;
  const values = [0, 1, 2].map(() => new Float64Array(size));
  const slopes = waves(() => [0, 1, 2].map(() => new Float64Array(size)));
  patches.forEach((patch, i) => {
    const { seen, paper, usual } = patch;
    const even = inUsualLight(patch, amounts);
    const here = labAt(seen, paper, amounts);
    const there = labAt(even, usual, amounts);
    here.forEach((value, part) => (values[part]![i] = value));
    slopes.forEach((parts, k) => {
      const more = moreOf(amounts, k);
      const [nearer, farther] = [labAt(seen, paper, more), labAt(even, usual, more)];
      parts.forEach((slope, part) => {
        slope[i] = (nearer[part]! - here[part]! - farther[part]! + there[part]!) / step;
      });
    });
  });
  const trust = new Float64Array(count * count);
  deviations.forEach((deviation, k) => (trust[k * count + k] = 1 / deviation ** 2));
  const pull = amounts.map((amount, k) => -amount / deviations[k]! ** 2);
  values.forEach((value, part) => {
    const rough = times(value, bends, value) / size;
    slopes.forEach((one, j) => {
      pull[j]! -= times(one[part]!, bends, value) / rough;
      slopes.forEach((other, k) => {
        trust[j * count + k]! += times(one[part]!, bends, other[part]!) / rough;
      });
    });
  });
  return { trust, pull };
}

function times(one: ArrayLike<number>, matrix: Float64Array, other: ArrayLike<number>): number {
  const size = other.length;
  let sum = 0;
  for (let i = 0; i < one.length; i++) {
    let row = 0;
    for (let k = 0; k < size; k++) row += matrix[i * size + k]! * other[k]!;
    sum += one[i]! * row;
  }
  return sum;
}

function rootOf(changes: readonly (readonly number[])[], matrix: Float64Array): number {
  const sum = changes.reduce((all, change) => all + times(change, matrix, change), 0);
  return Math.sqrt(sum / changes.length);
}
