import type { Face } from '../../catalogue/bonds/bond.js';
import type { PatternBrick } from './lay-pattern.js';

/** A place in a tile for one brick. */
export interface Place {
  /** Which face goes there. */
  readonly face: Face;
  /** Its course, from 0 at the top. */
  readonly course: number;
  /** Left perpend as the bond has it, in pixels of the tile, 0 up to its width. */
  readonly left: number;
  /** Length with one joint. */
  readonly length: number;
  /** Number of the place left of it; the first's is the last of its course. */
  readonly before: number;
  /** Number of the place right of it. */
  readonly after: number;
  /** What lies above its left half and its right half. */
  readonly above: readonly [Half, Half];
  /** What lies below them. */
  readonly below: readonly [Half, Half];
}

// Half of another place.
interface Half {
  /** Number of the place. */
  readonly place: number;
  /** 0 its left half, 1 its right. */
  readonly half: 0 | 1;
}

/** How large a tile of whole bricks is. */
export interface BondedPlan {
  /** Columns, whole. */
  readonly width: number;
  /** Bond repeats along x and y. */
  readonly repeats: { readonly x: number; readonly y: number };
}

interface Row {
  readonly first: number;
  readonly bricks: readonly { readonly brick: PatternBrick; readonly left: number }[];
}

/**
 * Lay out every brick of a tile by the bond, around its edges too.
 *
 * @param pattern - The bond's courses.
 * @param plan - The tile.
 * @returns From left to right, course by course; the first perpend of course 0 is at 0.
 */
export function layPlaces(
  pattern: readonly (readonly PatternBrick[])[],
  plan: BondedPlan,
): readonly Place[] {
  const { width, repeats } = plan;
  const repeat = width / repeats.x;
  const courses = repeats.y * pattern.length;
  const rows: Row[] = [];
  let first = 0;
  for (let course = 0; course < courses; course++) {
    const laid = pattern[course % pattern.length]!;
    const bricks = Array.from({ length: repeats.x }, (_, times) =>
      laid.map((brick) => ({ brick, left: (times + brick.at) * repeat })),
    ).flat();
    rows.push({ first, bricks });
    first += bricks.length;
  }
  return rows.flatMap((row, course) =>
    row.bricks.map(({ brick, left }, i) => {
      const length = brick.length * repeat;
      const count = row.bricks.length;
      const halves = (other: Row): [Half, Half] => [
        halfAt(other, left + length / 4, width),
        halfAt(other, left + (3 * length) / 4, width),
      ];
      return {
        face: brick.face,
        course,
        left,
        length,
        before: row.first + ((i + count - 1) % count),
        after: row.first + ((i + 1) % count),
        above: halves(rows[(course + courses - 1) % courses]!),
        below: halves(rows[(course + 1) % courses]!),
      };
    }),
  );
}

function halfAt({ first, bricks }: Row, at: number, width: number): Half {
  const x = at % width;
  let found = bricks.length - 1;
  for (let i = 0; i < bricks.length && bricks[i]!.left <= x; i++) found = i;
  const { left } = bricks[found]!;
  const next = found + 1 < bricks.length ? bricks[found + 1]!.left : bricks[0]!.left + width;
  const past = x < left ? x + width : x;
  return { place: first + found, half: past < (left + next) / 2 ? 0 : 1 };
}
