import { standSize as size } from './to-stand.js';

/** Normal equations of a fit. */
export interface System {
  /** `size * size` numbers, of which those below the diagonal are left out: it is symmetric. */
  readonly normal: Float64Array;
  /** `size` numbers. */
  readonly right: Float64Array;
}

/**
 * Add one thing seen to a fit.
 *
 * @param row - How it changes with each number that is fitted.
 * @param trust - One over its variance.
 * @param off - How far it lies from where the numbers have it, so far.
 * @param system - Added to.
 */
export function addRow(row: Float64Array, trust: number, off: number, system: System): void {
  const { normal, right } = system;
  for (let p = 0; p < size; p++) {
    const pull = trust * row[p]!;
    if (pull === 0) continue;
    right[p] = right[p]! + pull * off;
    for (let q = p; q < size; q++) {
      const at = p * size + q;
      normal[at] = normal[at]! + pull * row[q]!;
    }
  }
}
