import { type ColourTable, makeTable } from './colour-table.js';
import { foretell, type PrintModel } from './fit-print.js';
import { type Lab, labOf } from './lab-of.js';

/** What is to be sent to a printer so that colours come out as they are meant. */
export interface InvertedPrint {
  /** What to send, of what is meant. */
  readonly table: ColourTable;
  /** The darkest grey that the printer makes: CIE 1976 lightness, paper being 100. */
  readonly darkest: number;
  /** Ink past which it grows no darker: the sum of what red, green and blue fall short of white, 0 to 3. */
  readonly inkLimit: number;
}

// Fine enough that between its corners no printer bends by what can be seen.
const corners = 17;
// Up to so many times the lightness of its black a printer's darks are spread, so that none of them drown.
const toe = 2;
// Darkening that nobody sees.
const unseen = 0.5;
const rounds = 60;
// CIE 1976 difference up to which a colour counts as met.
const met = 3;
const softening = 6;
// What a way to print a colour costs for each step, of 0 to 1, away from the one that greys go: of two that differ by
// less than shows it is the nearer one, so that neighbours are printed alike.
const stray = 3;
const steps = 240;

/**
 * Find what to send to a printer for each colour. What it cannot print becomes the nearest colour that it can;
 * white stays bare paper, and what is darker than its black is spread over the darks that it has.
 *
 * @param model - What it makes of what it is sent.
 * @returns A table from colours meant to colours to send, in which more light of a channel never asks for less of it.
 */
export function invertPrint(model: PrintModel): InvertedPrint {
  const seen = new Float64Array(12);
  foretell(model, [0, 0, 0], seen);
  const black = [Math.max(0, seen[0]!), seen[1]!, seen[2]!] as const;
  const greys = Float64Array.from({ length: steps + 1 }, (_, i) => {
    foretell(model, [i / steps, i / steps, i / steps], seen);
    return seen[0]!;
  });
  const inkLimit = findInkLimit(greys);
  const guess = new Float64Array(3);
  const usual = new Float64Array(3);
  const curve = Float64Array.from({ length: corners }, (_, i) => {
    const grey = i / (corners - 1);
    const [light] = wantedOf([grey, grey, grey], black);
    return Math.max(1 - inkLimit / 3, levelOf(greys, light));
  });
  const misses: number[] = [];
  const table = makeTable(corners, (colour) => {
    const wanted = wantedOf(colour, black);
    colour.forEach((level, i) => (usual[i] = curve[Math.round(level * (corners - 1))]!));
    guess.set(usual);
    approach(model, { wanted, usual, guess, seen });
    misses.push(Math.hypot(...wanted.map((value, i) => seen[i]! - value)));
    limitInk(guess, inkLimit);
    colour.set(guess);
  });
  soften(table, misses);
  level(table);
  table.values.fill(1, table.values.length - 3);
  return { table, darkest: black[0], inkLimit };
}

function wantedOf(colour: ArrayLike<number>, [darkest, a, b]: Lab): Lab {
  const [light, greenRed, blueYellow] = labOf(colour);
  const end = toe * darkest;
  if (light >= end) return [light, greenRed, blueYellow];
  // A parabola from black to where nothing is changed, which it meets without a bend.
  const lifted = darkest + (1 - 2 / toe) * light + (light * light) / (toe * toe * darkest);
  const share = (lifted - light) / darkest;
  return [lifted, greenRed + share * a, blueYellow + share * b];
}

// Where greys reach a lightness, on their way from black.
function levelOf(greys: Float64Array, light: number): number {
  let most = greys[0]!;
  for (let i = 1; i <= steps; i++) {
    const here = Math.max(most, greys[i]!);
    if (here >= light) return (i - (here > most ? (here - light) / (here - most) : 0)) / steps;
    most = here;
  }
  return 1;
}

interface Approach {
  readonly wanted: Lab;
  // As a grey of each channel's level would be sent.
  readonly usual: Float64Array;
  // Where to begin, and what was found.
  readonly guess: Float64Array;
  readonly seen: Float64Array;
}

// Levenberg and Marquardt's steps within 0 to 1: a channel at its end that would leave stays there.
function approach(model: PrintModel, { wanted, usual, guess, seen }: Approach): void {
  let damping = 100;
  let miss = missOf(model, { wanted, usual, guess, seen });
  const trial = new Float64Array(3);
  const step = new Float64Array(3);
  for (let round = 0; round < rounds; round++) {
    fillStep(step, { wanted, usual, guess, seen }, damping);
    let moved = 0;
    for (let i = 0; i < 3; i++) {
      trial[i] = Math.min(1, Math.max(0, guess[i]! + step[i]!));
      moved += Math.abs(trial[i]! - guess[i]!);
    }
    if (moved < 1e-4) break;
    const before = seen.slice();
    const after = missOf(model, { wanted, usual, guess: trial, seen });
    if (after < miss) {
      guess.set(trial);
      miss = after;
      damping *= 0.3;
    } else {
      seen.set(before);
      damping *= 6;
    }
  }
}

function missOf(model: PrintModel, { wanted, usual, guess, seen }: Approach): number {
  foretell(model, [guess[0]!, guess[1]!, guess[2]!], seen);
  let miss = 0;
  for (let i = 0; i < 3; i++) {
    miss += (seen[i]! - wanted[i]!) ** 2 + stray * (usual[i]! - guess[i]!) ** 2;
  }
  return miss;
}

function fillStep(
  out: Float64Array,
  { wanted, usual, guess, seen }: Approach,
  damping: number,
): void {
  const slope = (row: number, channel: number): number => seen[3 + 3 * row + channel]!;
  const pull = [0, 1, 2].map((channel) => {
    let sum = stray * (usual[channel]! - guess[channel]!);
    for (let row = 0; row < 3; row++) sum += slope(row, channel) * (wanted[row]! - seen[row]!);
    return sum;
  });
  const free = pull.map(
    (force, i) => !(guess[i]! <= 0 && force < 0) && !(guess[i]! >= 1 && force > 0),
  );
  const rows = [0, 1, 2].map((one) => {
    if (!free[one]) return [...[0, 1, 2].map((k) => (k === one ? 1 : 0)), 0];
    const products = [0, 1, 2].map((other) => {
      if (!free[other]) return 0;
      let sum = one === other ? stray + damping : 0;
      for (let row = 0; row < 3; row++) sum += slope(row, one) * slope(row, other);
      return sum;
    });
    return [...products, pull[one]!];
  });
  solveThree(out, rows);
}

// Positive and symmetric: pivots need not be looked for.
function solveThree(out: Float64Array, rows: readonly number[][]): void {
  for (const [i, pivot] of rows.entries()) {
    for (const [k, row] of rows.entries()) {
      if (k === i) continue;
      const times = row[i]! / pivot[i]!;
      for (let j = i; j < 4; j++) row[j]! -= times * pivot[j]!;
    }
  }
  rows.forEach((row, i) => (out[i] = row[3]! / row[i]!));
}

// From black on, the last that is as dark as makes no difference.
function findInkLimit(greys: Float64Array): number {
  const darkest = Math.min(...greys);
  const last = greys.findLastIndex((light) => light <= darkest + unseen);
  return 3 * (1 - last / steps);
}

function limitInk(colour: Float64Array, limit: number): void {
  const ink = 3 - colour[0]! - colour[1]! - colour[2]!;
  if (ink <= limit) return;
  for (let i = 0; i < 3; i++) colour[i] = 1 - ((1 - colour[i]!) * limit) / ink;
}

// Where colours cannot be printed, neighbours may be sent far apart for next to nothing: they are brought nearer to
// their mean, the more the less can be met.
function soften({ size, values }: ColourTable, misses: readonly number[]): void {
  for (let round = 0; round < softening; round++) {
    const before = values.slice();
    misses.forEach((miss, corner) => {
      const share = Math.min(1, (miss - met) / met);
      if (!(share > 0)) return;
      const around = [size * size, size, 1].flatMap((apart) => {
        const place = Math.floor(corner / apart) % size;
        return [
          ...(place > 0 ? [corner - apart] : []),
          ...(place < size - 1 ? [corner + apart] : []),
        ];
      });
      for (let i = 0; i < 3; i++) {
        const sum = around.reduce((total, other) => total + before[3 * other + i]!, 0);
        values[3 * corner + i]! += (share / 2) * (sum / around.length - before[3 * corner + i]!);
      }
    });
  }
}

// Along each channel's own axis nothing may fall: what does is brought to its mean.
function level({ size, values }: ColourTable): void {
  const line = new Float64Array(size);
  [size * size, size, 1].forEach((apart, channel) => {
    for (let corner = 0; corner < size ** 3; corner++) {
      if (Math.floor(corner / apart) % size !== 0) continue;
      for (let i = 0; i < size; i++) line[i] = values[3 * (corner + i * apart) + channel]!;
      raise(line);
      for (let i = 0; i < size; i++) values[3 * (corner + i * apart) + channel] = line[i]!;
    }
  });
}

// Pool adjacent violators: Ayer, Brunk, Ewing, Reid, Silverman 1955, Ann. Math. Statist. 26.
function raise(line: Float64Array): void {
  const pools: { sum: number; count: number }[] = [];
  for (const value of line) {
    let pool = { sum: value, count: 1 };
    for (
      let before = pools.at(-1);
      before && before.sum * pool.count > pool.sum * before.count;
      before = pools.at(-1)
    ) {
      pool = { sum: before.sum + pool.sum, count: before.count + pool.count };
      pools.pop();
    }
    pools.push(pool);
  }
  let at = 0;
  for (const { sum, count } of pools) {
    line.fill(sum / count, at, at + count);
    at += count;
  }
}
