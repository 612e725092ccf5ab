import type { CourseAxis } from '../surface/measurement.js';
import { type Canvas, layAreas, layStrokes } from './canvas.js';
import { inks } from './inks.js';
import { layText } from './lay-text.js';
import type { Path } from './trace-path.js';

/** Width of the rod, and of the numbers beside it, in units. */
const rodWidth = 11;
const numberSize = 11;
/** Room that rod and numbers take beside the photo, in units. */
export const rodRoom = 58;

const counts = [1, 5, 10, 50, 100, 500, 1000] as const;

/**
 * Draw a gauge rod along the photo's edge: a band for every course that meets it, and numbers, from
 * the foot of the wall up as bricklayers count, or from the left where courses stand upright.
 *
 * @param canvas - Its page is changed.
 * @param beds - The joints between courses as they cross the page, in order.
 * @param axis - Which way courses are counted.
 */
export function layRod(canvas: Canvas, beds: readonly Path[], axis: CourseAxis): void {
  const { unit, photo } = canvas;
  const courses = toCourses(beds, canvas, axis);
  if (courses.length === 0) return;
  const least = Math.min(...courses.map(({ from, to }) => Math.abs(to - from)));
  const band = counts.find((count) => count * least >= 4 * unit) ?? 1000;
  const spoken = counts.find((count) => count * least >= 1.8 * numberSize * unit) ?? 1000;
  const inner = axis === 'y' ? photo.x : photo.y;
  const outer = inner - rodWidth * unit;
  const size = numberSize * unit;
  const dark: Path[] = [];
  const pale: Path[] = [];
  const words: Path[] = [];
  for (const { number, from, to } of courses) {
    const odd = Math.floor((number - 1) / band) % 2 === 0;
    (odd ? dark : pale).push(
      axis === 'y'
        ? [outer, from, inner, from, inner, to, outer, to]
        : [from, outer, from, inner, to, inner, to, outer],
    );
    if (number % spoken !== 0 && !(number === 1 && spoken > 1)) continue;
    const middle = (from + to) / 2;
    const place =
      axis === 'y'
        ? ({ x: outer - 6 * unit, y: middle + size / 2, size, align: 'right' } as const)
        : ({ x: middle, y: outer - 6 * unit, size, align: 'middle' } as const);
    words.push(...layText(String(number), place));
  }
  const edge = { width: 0, casing: inks.dark, out: 0.9 * unit };
  layAreas(canvas, pale, { ...edge, ink: inks.paper });
  layAreas(canvas, dark, { ...edge, ink: inks.dark });
  layStrokes(canvas, words, { width: 1.4 * unit, ink: inks.dark });
}

interface NumberedCourse {
  readonly number: number;
  readonly from: number;
  readonly to: number;
}

// The courses whose joints both meet the photo's edge.
function toCourses(beds: readonly Path[], canvas: Canvas, axis: CourseAxis): NumberedCourse[] {
  const marks = beds.map((bed) => crossEdge(bed, canvas, axis));
  const last = beds.length - 1;
  return marks.slice(0, -1).flatMap((from, k) => {
    const to = marks[k + 1];
    if (from === null || typeof to !== 'number') return [];
    return [{ number: axis === 'y' ? last - k : k + 1, from, to }];
  });
}

// Where a joint meets the photo's left edge (or its top), or null where it does not.
function crossEdge(bed: Path, { photo }: Canvas, axis: CourseAxis): number | null {
  const [across, along] = axis === 'y' ? [0, 1] : [1, 0];
  const edge = axis === 'y' ? photo.x : photo.y;
  const start = axis === 'y' ? photo.y : photo.x;
  const length = axis === 'y' ? photo.height : photo.width;
  for (let i = 0; i + 3 < bed.length; i += 2) {
    const [a, b] = [bed[i + across]! - edge, bed[i + 2 + across]! - edge];
    // The edge itself belongs to the photo: rounding must not lose a level joint that begins there.
    if (Math.min(a, b) > 1e-6 || Math.max(a, b) < 0) continue;
    const t = b === a ? 0 : -a / (b - a);
    const at = bed[i + along]! + t * (bed[i + 2 + along]! - bed[i + along]!);
    // The first joint may lie a hair above the photo, the last one below.
    const hair = 0.004 * length;
    return at >= start - hair && at <= start + length + hair ? at : null;
  }
  return null;
}
