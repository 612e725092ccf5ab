// What is other work is one patch that lies whole, so many courses and lengths of one each way; joints
// that show too little are lost here and there, in patches full of holes.
const leastSide = 3;
const leastFull = 0.75;
// Where more of the picture is lost, it is the courses that do not show.
const mostLost = 0.35;
// Of a stretch as long as a course is high, so much is unsound.
const leastUnsound = 0.7;

interface Patch {
  readonly cells: readonly number[];
  readonly wide: number;
  readonly high: number;
}

/**
 * Keep of what is not sound in courses only what lies together as a window, a plinth or a pipe does.
 *
 * @param unsound - Course by course, for each column how many columns up to it are unsound.
 * @param course - Height of a course, in columns.
 * @returns The same, all else taken as sound.
 */
export function onlySolid(unsound: readonly Int32Array[], course: number): readonly Int32Array[] {
  const width = unsound[0]?.length ?? 0;
  const step = Math.max(1, Math.round(course));
  const columns = Math.floor(width / step);
  const lost = new Uint8Array(columns * unsound.length);
  for (const [row, line] of unsound.entries()) {
    for (let column = 0; column < columns; column++) {
      const before = column === 0 ? 0 : line[column * step - 1]!;
      const share = (line[(column + 1) * step - 1]! - before) / step;
      lost[row * columns + column] = share > leastUnsound ? 1 : 0;
    }
  }
  const all = lost.reduce((sum, one) => sum + one, 0);
  const kept = new Uint8Array(lost.length);
  if (all <= mostLost * lost.length) {
    for (const patch of patchesOf(lost, columns)) {
      if (isSolid(patch)) for (const cell of patch.cells) kept[cell] = 1;
    }
  }
  return unsound.map((line, row) => {
    let count = 0;
    return line.map((value, x) => {
      const cell = row * columns + Math.min(columns - 1, Math.floor(x / step));
      if (kept[cell] === 1 && value > (x === 0 ? 0 : line[x - 1]!)) count++;
      return count;
    });
  });
}

function isSolid({ cells, wide, high }: Patch): boolean {
  return Math.min(wide, high) >= leastSide && cells.length >= leastFull * wide * high;
}

function patchesOf(lost: Uint8Array, columns: number): Patch[] {
  const seen = lost.map((one) => 1 - one);
  const patches: Patch[] = [];
  for (const first of seen.keys()) {
    if (seen[first] === 1) continue;
    const cells = [first];
    seen[first] = 1;
    let [left, right, top, foot] = [columns, 0, Infinity, 0];
    // Grown as it is walked.
    for (const cell of cells) {
      const [x, y] = [cell % columns, Math.floor(cell / columns)];
      [left, right] = [Math.min(left, x), Math.max(right, x)];
      [top, foot] = [Math.min(top, y), Math.max(foot, y)];
      const beside = [
        ...(x > 0 ? [cell - 1] : []),
        ...(x + 1 < columns ? [cell + 1] : []),
        cell - columns,
        cell + columns,
      ];
      for (const next of beside) {
        if (seen[next] !== 0) continue;
        seen[next] = 1;
        cells.push(next);
      }
    }
    patches.push({ cells, wide: right - left + 1, high: foot - top + 1 });
  }
  return patches;
}
