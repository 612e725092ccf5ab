import { invertMatrix } from '../../numeric/invert-matrix.js';

/** Three numbers each: colours one after the other. */
export type Triples = Float64Array;

/** What a printer makes of any colour that it is sent. */
export interface PrintModel {
  /** Colours that were measured, as sent, 0 to 1. */
  readonly places: Triples;
  /** How much each of them says of lightness, a* and b*. */
  readonly weights: Triples;
  /** Lightness, a* and b* as sums of the ten products of the first and second degree. */
  readonly trend: Float64Array;
  /** Root of the mean square by which a colour is missed that the model was not told of, CIE 1976. */
  readonly unsure: number;
}

/** Products of red, green and blue of up to the second degree. */
const terms = 10;
// How much less than wholly each measured colour is believed: which of them fits best is found out.
const slacks = [1e-6, 1e-5, 1e-4, 4e-4, 1.6e-3, 6.4e-3];

/**
 * Learn what a printer makes of colours from those that were measured: a smooth surface through them,
 * as stiff as what they say of one another asks for.
 *
 * @param sent - Colours as sent, 0 to 1, none of them twice; 30 or more, not all in a plane.
 * @param seen - Lightness, a* and b* of each.
 * @returns The model.
 * @see J. Duchon 1977, Splines minimizing rotation-invariant semi-norms in Sobolev spaces; S. Rippa 1999,
 *   Adv. Comput. Math. 11: what each point is missed by that is left out, without leaving it out
 */
export function fitPrint(sent: Triples, seen: Triples): PrintModel {
  const tries = slacks.map((slack) => fitWith(sent, seen, slack));
  return tries.reduce((best, one) => (one.unsure < best.unsure ? one : best));
}

function fitWith(sent: Triples, seen: Triples, slack: number): PrintModel {
  const count = sent.length / 3;
  const size = count + terms;
  const inverse = invertMatrix(systemOf(sent, slack), size);
  const weights = new Float64Array(3 * count);
  const trend = new Float64Array(3 * terms);
  let misses = 0;
  for (let row = 0; row < size; row++) {
    for (let channel = 0; channel < 3; channel++) {
      let sum = 0;
      for (let i = 0; i < count; i++) sum += inverse[row * size + i]! * seen[3 * i + channel]!;
      if (row < count) {
        weights[3 * row + channel] = sum;
        misses += (sum / inverse[row * size + row]!) ** 2;
      } else trend[3 * (row - count) + channel] = sum;
    }
  }
  return { places: sent, weights, trend, unsure: Math.sqrt(misses / count) };
}

/**
 * Make what measures how far values at colours are from any smooth surface over them: of values `y`, `y` times it
 * times `y`.
 *
 * @param sent - Colours as sent, 0 to 1; some may be the same.
 * @param slack - How much less than wholly each value is believed.
 * @returns As many rows and columns as there are colours, row by row.
 */
export function measureBends(sent: Triples, slack: number): Float64Array {
  const count = sent.length / 3;
  const size = count + terms;
  const inverse = invertMatrix(systemOf(sent, slack), size);
  const out = new Float64Array(count * count);
  for (let row = 0; row < count; row++) {
    out.set(inverse.subarray(row * size, row * size + count), row * count);
  }
  return out;
}

// The spline in three dimensions whose second derivatives are least bent: cubes of distances.
function systemOf(sent: Triples, slack: number): Float64Array {
  const count = sent.length / 3;
  const size = count + terms;
  const system = new Float64Array(size * size);
  const products = new Float64Array(terms);
  for (let i = 0; i < count; i++) {
    const [r, g, b] = [sent[3 * i]!, sent[3 * i + 1]!, sent[3 * i + 2]!];
    for (let k = 0; k < count; k++) {
      const [dr, dg, db] = [r - sent[3 * k]!, g - sent[3 * k + 1]!, b - sent[3 * k + 2]!];
      system[i * size + k] = Math.sqrt(dr * dr + dg * dg + db * db) ** 3;
    }
    system[i * size + i]! += slack;
    fillProducts(products, r, g, b);
    for (let k = 0; k < terms; k++) {
      system[i * size + count + k] = products[k]!;
      system[(count + k) * size + i] = products[k]!;
    }
  }
  return system;
}

function fillProducts(out: Float64Array, r: number, g: number, b: number): void {
  out[0] = 1;
  out[1] = r;
  out[2] = g;
  out[3] = b;
  out[4] = r * r;
  out[5] = g * g;
  out[6] = b * b;
  out[7] = r * g;
  out[8] = g * b;
  out[9] = b * r;
}

/**
 * Foretell what a printer makes of a colour, and which way that changes with it.
 *
 * @param model - Of the printer.
 * @param sent - The colour as sent, 0 to 1.
 * @param out - Filled with lightness, a* and b*, and then with the change of each with red, with green and
 * with blue: 12 numbers.
 */
export function foretell(
  model: PrintModel,
  sent: readonly [number, number, number],
  out: Float64Array,
): void {
  const { places, weights, trend } = model;
  const [r, g, b] = sent;
  out.fill(0);
  for (let i = 0; i < places.length; i += 3) {
    const [dr, dg, db] = [r - places[i]!, g - places[i + 1]!, b - places[i + 2]!];
    const far = Math.sqrt(dr * dr + dg * dg + db * db);
    const cube = far * far * far;
    for (let channel = 0; channel < 3; channel++) {
      const weight = weights[i + channel]!;
      const slope = 3 * far * weight;
      out[channel]! += weight * cube;
      out[3 + 3 * channel]! += slope * dr;
      out[4 + 3 * channel]! += slope * dg;
      out[5 + 3 * channel]! += slope * db;
    }
  }
  for (let channel = 0; channel < 3; channel++) {
    const of = (term: number): number => trend[3 * term + channel]!;
    out[channel]! +=
      of(0) +
      r * (of(1) + of(4) * r + of(7) * g) +
      g * (of(2) + of(5) * g + of(8) * b) +
      b * (of(3) + of(6) * b + of(9) * r);
    out[3 + 3 * channel]! += of(1) + 2 * of(4) * r + of(7) * g + of(9) * b;
    out[4 + 3 * channel]! += of(2) + 2 * of(5) * g + of(7) * r + of(8) * b;
    out[5 + 3 * channel]! += of(3) + 2 * of(6) * b + of(8) * g + of(9) * r;
  }
}
