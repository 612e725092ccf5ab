/**
 * Word a length of paper with what it stands for, as the user gave it.
 *
 * @param paper - Mm of paper.
 * @param ratio - Real over model.
 * @returns `148 mm (1 mm of paper)`.
 */
export function inBoth(paper: number, ratio: number): string {
  return `${Number((paper * ratio).toPrecision(4))} mm (${Number(paper.toPrecision(3))} mm of paper)`;
}

/**
 * The same of the least length that would do, rounded up.
 *
 * @param paper - Mm of paper.
 * @param ratio - Real over model.
 * @returns `148 mm (1 mm of paper)`.
 */
export function leastInBoth(paper: number, ratio: number): string {
  const real = Math.ceil(paper * ratio * 10 - 1e-6) / 10;
  return `${real} mm (${Number(paper.toPrecision(3))} mm of paper)`;
}
