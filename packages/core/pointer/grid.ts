import {
  formatLength,
  type Measurement,
  type Point,
  type Size,
  toLevelPoint,
  toPhotoPoint,
} from '@gaugerod/core/pure';

/** Lines over a photo that lie where they would on the thing itself. */
export interface Grid {
  /** What one step of it is. */
  readonly says: string;
  /** The lines, each as places of the photo. */
  readonly lines: readonly (readonly Point[])[];
}

/** More lines than this hide what they lie on. */
const mostLines = 400;
/** About so many steps along the shorter side. */
const fewSteps = 8;

/**
 * Lay a grid over a photo: its courses where they were counted or found, else round lengths.
 *
 * @param measurement - Of the photo.
 * @param size - The photo.
 * @param from - A place that lines go through, where there are no courses.
 * @returns The grid; no lines where they would lie too close.
 */
export function toGrid(measurement: Measurement, size: Size<number>, from: Point): Grid {
  const { lattice, mmPerPx, reference } = measurement;
  const plane = toPlane(measurement, size);
  if (lattice !== null) {
    const { axis, course, courseOffset } = lattice;
    const says = `courses of ${formatLength(reference.size)}`;
    return { says, lines: plane.lines(axis, { at: courseOffset, step: course }) };
  }
  const shorter = Math.min(size.width * mmPerPx.x, size.height * mmPerPx.y);
  const step = roundLength(shorter / fewSteps);
  const level = plane.toLevel(from);
  return {
    says: `a grid of ${formatLength(step)}`,
    lines: [
      ...plane.lines('x', { at: level.x, step: step / mmPerPx.x }),
      ...plane.lines('y', { at: level.y, step: step / mmPerPx.y }),
    ],
  };
}

function roundLength(mm: number): number {
  const power = 10 ** Math.floor(Math.log10(mm));
  return power * (mm / power >= 5 ? 5 : mm / power >= 2 ? 2 : 1);
}

/** A photo's plane, made level. */
export interface Plane {
  /**
   * Find a place of the photo in the level picture.
   *
   * @param place - In pixels of the photo.
   * @returns In pixels of the level picture.
   */
  readonly toLevel: (place: Point) => Point;
  /**
   * Draw lines that are level or upright in the level picture.
   *
   * @param axis - Across which they lie: `y` for level ones.
   * @param where - One of them, and the step to the next.
   * @returns Each as places of the photo, as far as the photo goes.
   */
  readonly lines: (axis: 'x' | 'y', where: Steps) => Point[][];
  /**
   * Draw one such line.
   *
   * @param axis - Across which it lies.
   * @param at - Where, in pixels of the level picture.
   * @returns Places of the photo, none where it lies outside.
   */
  readonly across: (axis: 'x' | 'y', at: number) => Point[];
  /**
   * Draw a piece of such a line.
   *
   * @param from - Where it begins, in pixels of the level picture.
   * @param to - Where it ends.
   * @returns Places of the photo.
   */
  readonly line: (from: Point, to: Point) => Point[];
}

interface Steps {
  readonly at: number;
  readonly step: number;
}

/**
 * Take the plane that a measurement is of.
 *
 * @param measurement - How it is made level, or that it is.
 * @param size - The photo.
 * @returns What draws on it.
 */
export function toPlane(
  measurement: Pick<Measurement, 'rectification'>,
  size: Size<number>,
): Plane {
  const { rectification } = measurement;
  const { width, height } = size;
  const toLevel = (place: Point): Point =>
    rectification === null ? place : toLevelPoint(rectification, size, place);
  const toPhoto = (place: Point): Point =>
    rectification === null ? place : toPhotoPoint(rectification, size, place);
  // A lens bends what is straight.
  const pieces = rectification === null || rectification.lens === 0 ? 1 : 12;
  const outline = [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ].map(toLevel);
  const line = (from: Point, to: Point): Point[] =>
    Array.from({ length: pieces + 1 }, (_, i) => {
      const share = i / pieces;
      return toPhoto({
        x: from.x + share * (to.x - from.x),
        y: from.y + share * (to.y - from.y),
      });
    });
  const across = (axis: 'x' | 'y', at: number): Point[] => {
    const within = cutOutline(outline, axis, at);
    return within === null ? [] : line(...within);
  };
  const lines = (axis: 'x' | 'y', { at, step }: Steps): Point[][] => {
    const ends = outline.map((corner) => corner[axis]);
    const [low, high] = [Math.min(...ends), Math.max(...ends)];
    if (!((high - low) / step <= mostLines)) return [];
    const found: Point[][] = [];
    for (let n = Math.ceil((low - at) / step); at + n * step <= high; n++) {
      const places = across(axis, at + n * step);
      if (places.length > 0) found.push(places);
    }
    return found;
  };
  return { toLevel, lines, across, line };
}

// Where a line leaves a four-sided outline on either side.
function cutOutline(
  outline: readonly Point[],
  axis: 'x' | 'y',
  at: number,
): readonly [Point, Point] | null {
  const along = axis === 'x' ? 'y' : 'x';
  const crossed: number[] = [];
  for (const [i, a] of outline.entries()) {
    const b = outline[(i + 1) % outline.length] ?? a;
    const [from, to] = [a[axis] - at, b[axis] - at];
    if (from * to > 0 || from === to) continue;
    crossed.push(a[along] + (from / (from - to)) * (b[along] - a[along]));
  }
  if (crossed.length < 2) return null;
  const place = (value: number): Point =>
    axis === 'x' ? { x: at, y: value } : { x: value, y: at };
  return [place(Math.min(...crossed)), place(Math.max(...crossed))];
}
