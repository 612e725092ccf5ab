import type { ReliefBand, ReliefMark } from '../../page/relief-mark.js';

/**
 * Join bands of one even shade that meet, so that they are blended as one: where two of them share a dot, each would
 * be laid over what the other leaves of it, and the dot would show as a seam.
 *
 * @param marks - None of the bands over another of its shade.
 * @returns The same, what is joined as shapes where the first band of each stood.
 */
export function joinBands(marks: readonly ReliefMark[]): readonly ReliefMark[] {
  const taken = new Set<ReliefMark>();
  return marks.flatMap((mark): readonly ReliefMark[] => {
    if (taken.has(mark)) return [];
    if (!isEven(mark)) return [mark];
    const joined = [mark];
    taken.add(mark);
    // Grows while it is gone through: what meets any of them is of them.
    for (const one of joined) {
      for (const other of marks) {
        if (taken.has(other) || !isEven(other) || !isAlike(one, other) || !meet(one, other))
          continue;
        taken.add(other);
        joined.push(other);
      }
    }
    return joined.length === 1 ? joined : [toShape(mark, joined)];
  });
}

function isEven(mark: ReliefMark): mark is ReliefBand {
  return mark.kind === 'band' && mark.tone !== 'paper' && mark.top === mark.foot;
}

function isAlike(one: ReliefBand, other: ReliefBand): boolean {
  return one.tone === other.tone && one.top === other.top;
}

// Of rounding, mm.
const near = 1e-6;

// Along a side, not at a corner alone.
function meet(one: ReliefBand, other: ReliefBand): boolean {
  const across = Math.min(one.x1, other.x1) - Math.max(one.x0, other.x0);
  const down = Math.min(one.y1, other.y1) - Math.max(one.y0, other.y0);
  return across > -near && down > -near && Math.max(across, down) > near;
}

function toShape({ tone, top }: ReliefBand, bands: readonly ReliefBand[]): ReliefMark {
  const loops = bands.map(({ x0, x1, y0, y1 }) => Float64Array.of(x0, y0, x1, y0, x1, y1, x0, y1));
  const stops = [{ at: 0, shade: tone === 'light' ? top : -top }];
  return { kind: 'shape', pieces: [{ loops, toward: { x: 0, y: 1 }, stops }], clip: null };
}
