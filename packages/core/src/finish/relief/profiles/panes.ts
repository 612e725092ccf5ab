import { outOfRange } from '../../../errors/out-of-range.js';
import { leastLine } from '../pens.js';
import { rectangle } from './flat-face.js';
import type { FigureSizes } from './profile.js';

/** The least that a bar or a rail is drawn, mm of paper: a light line and a dark one. */
export const narrowestBar: number = 2 * leastLine;

/**
 * Part what lies within a frame into panes, all of one size.
 *
 * @param sizes - The frame, its rails and bars.
 * @returns A rectangle each, clockwise.
 * @throws RangeError where rails and bars leave no room for them.
 */
export function layPanes(sizes: FigureSizes): readonly Float64Array[] {
  const { length, panes, card } = sizes;
  const { depth, rail, bar } = sizes.sizes;
  const around = Math.max(narrowestBar, card ?? 0, rail ?? 0);
  const between = Math.max(narrowestBar, card ?? 0, bar ?? 0);
  const width = (length - 2 * around - (panes.x - 1) * between) / panes.x;
  const height = (depth - 2 * around - (panes.y - 1) * between) / panes.y;
  const least = Math.max(3 * leastLine, card ?? 0);
  const most = (Math.min(length, depth) - least) / 2;
  if (around > most) {
    const wanted = `up to ${Number(Math.max(0, most).toPrecision(3))} mm of paper, so that it leaves room for a pane,`;
    throw outOfRange(wanted, 'rail', `${Number(around.toPrecision(3))} mm of paper`);
  }
  if (!(Math.min(width, height) >= least)) {
    const wanted = `as many as leave each pane ${least.toFixed(1)} mm of paper or more`;
    throw outOfRange(wanted, 'panes', `${panes.x}x${panes.y}`);
  }
  return Array.from({ length: panes.x * panes.y }, (_, i) => {
    const [column, row] = [i % panes.x, Math.floor(i / panes.x)];
    const x = around + column * (width + between);
    const y = around + row * (height + between);
    return rectangle(x, y, width, height);
  });
}
