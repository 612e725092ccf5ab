import { fitPencil, type Pencil, type PencilPoint } from './fit-pencil.js';
import type { Stand } from './lay-plane.js';
import type { Direction, Directions } from './see-directions.js';
import type { Size } from '../../units/parse-size.js';

/** Directions in units of half the picture's diagonal from its middle. */
export interface Sight {
  /** The wall, as far as directions tell. */
  readonly stand: Stand;
  /** Perpends that bear it out. */
  readonly perpends: readonly PerpendSight[];
}

/** A direction of perpends somewhere. */
export interface PerpendSight {
  /** To the right. */
  readonly u: number;
  /** Down. */
  readonly v: number;
  /** To the right for each step down. */
  readonly slope: number;
  /** How far it stands out. */
  readonly weight: number;
}

/** Share of all strength that must lead to one point for a pencil to count. */
const leastShare = 0.3;
/** Perpends lean this far from square to the beds, at most. */
const mostLean = 0.18;

/**
 * Guess how a wall lies before the camera from the directions of its joints: where beds meet, and
 * where perpends do, is its horizon.
 *
 * @param directions - As seen.
 * @param size - The photo they were seen in.
 * @param focal - Focal length taken, in units of half the diagonal.
 * @returns How it lies, or null where no direction stands out.
 */
export function guessStand(
  directions: Directions,
  size: Size<number>,
  focal: number,
): Sight | null {
  const radius = Math.hypot(size.width, size.height) / 2;
  const place = ({ x, y }: Direction): { u: number; v: number } => ({
    u: (x - size.width / 2) / radius,
    v: (y - size.height / 2) / radius,
  });
  const beds = directions.beds.map((seen): PencilPoint => ({ ...seen, ...place(seen) }));
  const bed = fitPencil(beds);
  if (bed === null || bed.share < leastShare) return null;
  const upright = directions.perpends.map((seen): PencilPoint => {
    const { u, v } = place(seen);
    return { ...seen, u: v, v: u };
  });
  const perpend = judgePerpends(fitPencil(upright), bed);
  const { a, b } = perpend ?? { a: -bed.a, b: 0 };
  const last = 1 - bed.a * a;
  const stand = {
    slope: bed.a,
    across: (bed.a * b - bed.b) / last,
    down: (bed.b * a - b) / last,
    focal,
    ahead: { u: 0, v: 0 },
  };
  return {
    stand,
    perpends:
      perpend === null
        ? []
        : upright.map(({ u, v, slope, weight }) => ({ u: v, v: u, slope, weight })),
  };
}

function judgePerpends(perpend: Pencil | null, bed: Pencil): Pencil | null {
  if (perpend === null || perpend.share < leastShare) return null;
  return Math.abs(perpend.a + bed.a) <= mostLean ? perpend : null;
}
