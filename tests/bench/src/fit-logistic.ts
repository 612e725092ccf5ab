/** One case of a logistic regression. */
export interface Case {
  /** Its terms, the constant first. */
  readonly terms: readonly number[];
  /** What happened. */
  readonly right: boolean;
}

/** Pull of every weight but the constant towards 0: keeps weights finite where cases part cleanly. */
const pull = 0.02;

/**
 * Fit a logistic regression by Newton's steps (iteratively reweighted least squares).
 *
 * @param cases - All with as many terms.
 * @returns A weight for each term.
 * @see McCullagh and Nelder, Generalized Linear Models, 2nd edition (1989), section 2.5
 */
export function fitLogistic(cases: readonly Case[]): number[] {
  const size = cases[0]?.terms.length ?? 0;
  let weights = new Array<number>(size).fill(0);
  for (let round = 0; round < 40; round++) {
    const slope = weights.map((weight, i) => (i === 0 ? 0 : -pull * weight));
    const bend = Array.from({ length: size }, (_, i) =>
      Array.from({ length: size }, (_, j) => (i === j && i > 0 ? pull : 0)),
    );
    for (const { terms, right } of cases) {
      const p = chanceOf(weights, terms);
      const w = Math.max(1e-6, p * (1 - p));
      terms.forEach((a, i) => {
        slope[i]! += ((right ? 1 : 0) - p) * a;
        terms.forEach((b, j) => {
          bend[i]![j]! += w * a * b;
        });
      });
    }
    const step = solve(bend, slope);
    weights = weights.map((weight, i) => weight + Math.max(-3, Math.min(3, step[i]!)));
  }
  return weights;
}

/**
 * Say how likely a case is.
 *
 * @param weights - From {@link fitLogistic}.
 * @param terms - Its terms.
 * @returns 0 to 1.
 */
export function chanceOf(weights: readonly number[], terms: readonly number[]): number {
  const score = terms.reduce((sum, term, i) => sum + term * weights[i]!, 0);
  return 1 / (1 + Math.exp(-score));
}

// Gauss and Jordan with the largest pivot; a dozen unknowns.
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  for (let column = 0; column < rows.length; column++) {
    let pivot = column;
    for (let row = column + 1; row < rows.length; row++) {
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    }
    const lead = rows[pivot]!;
    rows[pivot] = rows[column]!;
    rows[column] = lead;
    for (const row of rows) {
      if (row === lead) continue;
      const times = row[column]! / lead[column]!;
      for (let k = column; k < row.length; k++) row[k]! -= times * lead[k]!;
    }
  }
  return rows.map((row, i) => row[rows.length]! / row[i]!);
}
