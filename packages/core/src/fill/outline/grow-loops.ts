// How far corners may be cut where they are rounded, in pixels: bleed is cut away.
const flatness = 0.02;
const mostSkipped = 100;

/**
 * Grow loops by a distance: everything that is no farther than that from what they bound. Corners come
 * out round.
 *
 * @param loops - Running clockwise, of points x, y, x, y… in pixels.
 * @param distance - In pixels, above 0.
 * @returns More loops that run clockwise; all together, by `nonzero`, are what was asked for.
 */
export function growLoops(
  loops: readonly Float64Array[],
  distance: number,
): readonly Float64Array[] {
  const plain = loops.map(withFewerPoints);
  return [...plain, ...plain.flatMap((loop) => [...bandsAlong(loop, distance)])];
}

// A strip along every edge, and a wedge at every corner.
function* bandsAlong(points: Float64Array, distance: number): Generator<Float64Array> {
  const count = points.length / 2;
  if (count < 2) return;
  const turn = (i: number): number => {
    const [a, b] = [2 * (i % count), 2 * ((i + 1) % count)];
    return Math.atan2(points[b + 1]! - points[a + 1]!, points[b]! - points[a]!);
  };
  for (let i = 0; i < count; i++) {
    const [a, b] = [2 * i, 2 * ((i + 1) % count)];
    const angle = turn(i);
    const [nx, ny] = [-Math.sin(angle) * distance, Math.cos(angle) * distance];
    const [ax, ay, bx, by] = [points[a]!, points[a + 1]!, points[b]!, points[b + 1]!];
    yield Float64Array.of(ax - nx, ay - ny, bx - nx, by - ny, bx + nx, by + ny, ax + nx, ay + ny);
    const bend = Math.atan2(Math.sin(turn(i + 1) - angle), Math.cos(turn(i + 1) - angle));
    if (bend !== 0) yield wedge({ x: bx, y: by, distance }, angle, bend);
  }
}

// On the side that the line bends away from.
function wedge(
  { x, y, distance }: { readonly x: number; readonly y: number; readonly distance: number },
  angle: number,
  bend: number,
): Float64Array {
  const finest = 2 * Math.acos(Math.max(0, 1 - flatness / distance));
  const steps = Math.max(1, Math.ceil(Math.abs(bend) / finest));
  const from = angle - (Math.sign(bend) * Math.PI) / 2;
  const points = [x, y];
  for (let i = 0; i <= steps; i++) {
    // Clockwise whichever way it bends.
    const at = from + (bend * (bend > 0 ? i : steps - i)) / steps;
    points.push(x + distance * Math.cos(at), y + distance * Math.sin(at));
  }
  return Float64Array.from(points);
}

// A curve's straight pieces are far shorter than bleed needs them.
function withFewerPoints(loop: Float64Array): Float64Array {
  const count = loop.length / 2;
  const points: number[] = [];
  for (let from = 0; from < count;) {
    points.push(loop[2 * from]!, loop[2 * from + 1]!);
    let to = from + 1;
    while (to + 1 <= count && to + 1 - from <= mostSkipped && isFlat(loop, from, to + 1)) to++;
    from = to;
  }
  return Float64Array.from(points);
}

// Whether the points between two, the first coming after the last, lie on the line from one to the other.
function isFlat(loop: Float64Array, from: number, to: number): boolean {
  const end = (2 * to) % loop.length;
  const [ax, ay] = [loop[2 * from]!, loop[2 * from + 1]!];
  const [dx, dy] = [loop[end]! - ax, loop[end + 1]! - ay];
  const squared = dx * dx + dy * dy;
  for (let i = from + 1; i < to; i++) {
    const [x, y] = [loop[2 * i]! - ax, loop[2 * i + 1]! - ay];
    const along = squared === 0 ? 0 : Math.min(1, Math.max(0, (x * dx + y * dy) / squared));
    if (Math.hypot(x - along * dx, y - along * dy) > flatness) return false;
  }
  return true;
}
