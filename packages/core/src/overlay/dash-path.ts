import type { Path } from './trace-path.js';

/**
 * Cut a line into dashes.
 *
 * @param path - The line.
 * @param dash - Length of a dash.
 * @param gap - Length between two.
 * @returns Dash by dash; the first begins where the line does.
 */
export function dashPath(path: Path, dash: number, gap: number): Path[] {
  const dashes: number[][] = [];
  let walked = 0;
  for (let i = 0; i + 3 < path.length; i += 2) {
    const [ax, ay] = [path[i]!, path[i + 1]!];
    const [dx, dy] = [path[i + 2]! - ax, path[i + 3]! - ay];
    const length = Math.hypot(dx, dy);
    for (let at = 0; at < length;) {
      const into = (walked + at) % (dash + gap);
      const on = into < dash;
      // A hair further, lest rounding stop short of the end of a dash for ever.
      const next = Math.min(length, at + (on ? dash : dash + gap) - into + 1e-9);
      if (on) {
        const from = [ax + (dx * at) / length, ay + (dy * at) / length] as const;
        const to = [ax + (dx * next) / length, ay + (dy * next) / length] as const;
        const last = dashes.at(-1);
        if (at === 0 && into > 0 && last) last.push(...to);
        else dashes.push([...from, ...to]);
      }
      at = next;
    }
    walked += length;
  }
  return dashes;
}
