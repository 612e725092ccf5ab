import type { ReliefMark, ShadeStop } from '../../page/relief-mark.js';

/**
 * Make a mark weaker or stronger; bare paper stays bare.
 *
 * @param mark - As it is.
 * @param to - From a shade, -1, black, to 1, white, to another on the same side.
 * @returns The mark, or nothing where nothing is left of it.
 */
export function mapShades(mark: ReliefMark, to: (shade: number) => number): readonly ReliefMark[] {
  if (mark.kind === 'disc') {
    const opacity = to(mark.opacity);
    return opacity === 0 ? [] : [{ ...mark, opacity }];
  }
  if (mark.kind === 'band') {
    if (mark.tone === 'paper') return [mark];
    const sign = mark.tone === 'light' ? 1 : -1;
    const [top, foot] = [mark.top, mark.foot].map((opacity) => Math.abs(to(sign * opacity)));
    return top || foot ? [{ ...mark, top: top ?? 0, foot: foot ?? 0 }] : [];
  }
  const pieces = mark.pieces
    .map((piece) => ({
      ...piece,
      stops: parted(piece.stops).map(({ at, shade }) => ({ at, shade: to(shade) })),
    }))
    .filter(({ stops }) => stops.some(({ shade }) => shade !== 0));
  return pieces.length === 0 ? [] : [{ ...mark, pieces }];
}

// At what is neither light nor dark as well: on either side of it shades go their own way.
function parted(stops: readonly ShadeStop[]): readonly ShadeStop[] {
  return stops.flatMap((stop, i) => {
    const before = stops[i - 1];
    if (before === undefined || before.shade * stop.shade >= 0) return [stop];
    const share = before.shade / (before.shade - stop.shade);
    return [{ at: before.at + share * (stop.at - before.at), shade: 0 }, stop];
  });
}
