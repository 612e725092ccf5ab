import { type Mortar, type Courses } from '../mend/see-mortar.js';

/** Bed joints of a picture as they were laid, which is not quite straight. */
export interface Beds {
  /** Number of the first, counted from the one at the courses' offset. */
  readonly first: number;
  /** How many. */
  readonly count: number;
  /** Columns between two places at which a bed was looked at. */
  readonly pitch: number;
  /** Bed by bed, place by place, in rows of the picture. */
  readonly lines: readonly Float64Array[];
}

// Shares of a course: how far a bed is looked for, and may stray from its own straight line.
const reach = 0.26;
const stray = 0.06;
// How far past the picture's edge the middle of a bed may lie, and how near it is not looked for.
const edge = 0.03;
const unseen = 0.1;

/**
 * Follow every bed joint of a picture across it.
 *
 * @param mortar - What in it is mortar.
 * @param courses - Where beds lie, nearly.
 * @returns Where they lie.
 */
export function placeBeds(mortar: Mortar, courses: Courses): Beds {
  const { width, height } = mortar;
  const { course, offset } = courses;
  const first = Math.round((firstBed(courses) - offset) / course);
  const count = Math.max(0, Math.floor((height + edge * course - offset) / course) - first + 1);
  const places = Math.max(1, Math.round(width / (1.2 * course)));
  const pitch = width / places;
  const sums = sumWindows(mortar, places);
  const lines = Array.from({ length: count }, (_, i) =>
    followBed(sums, { at: offset + (first + i) * course, course, places, height }),
  );
  return { first, count, pitch, lines };
}

/**
 * Tell where the first bed of a picture lies that belongs to a whole course.
 *
 * @param courses - Where beds lie.
 * @returns Its row, a little above the picture at the least.
 */
export function firstBed(courses: Courses): number {
  const { course, offset } = courses;
  return offset + Math.ceil((-edge * course - offset) / course) * course;
}

/**
 * Tell where a bed lies at a column.
 *
 * @param beds - Of a picture.
 * @param bed - Which, from 0.
 * @param x - Column, seldom whole.
 * @returns Row, seldom whole.
 */
export function bedAt(beds: Beds, bed: number, x: number): number {
  const { pitch, lines } = beds;
  const line = lines[bed]!;
  const place = Math.min(line.length - 1, Math.max(0, x / pitch - 0.5));
  const left = Math.min(line.length - 1, Math.floor(place));
  const right = Math.min(line.length - 1, left + 1);
  return line[left]! + (place - left) * (line[right]! - line[left]!);
}

// Likeness to mortar, row by row, over overlapping windows twice as wide as their pitch.
function sumWindows({ width, height, likeness }: Mortar, places: number): Float64Array {
  const sums = new Float64Array(places * height);
  for (let place = 0; place < places; place++) {
    const from = Math.max(0, Math.floor(((place - 0.5) * width) / places));
    const to = Math.min(width, Math.ceil(((place + 1.5) * width) / places));
    for (let y = 0; y < height; y++) {
      let sum = 0;
      for (let i = y * width + from; i < y * width + to; i++) sum += likeness[i]!;
      sums[place * height + y] = sum / (to - from);
    }
  }
  return sums;
}

interface Sought {
  readonly at: number;
  readonly course: number;
  readonly places: number;
  readonly height: number;
}

function followBed(sums: Float64Array, { at, course, places, height }: Sought): Float64Array {
  if (Math.min(at, height - at) < unseen * course) return new Float64Array(places).fill(at);
  const seen = Float64Array.from({ length: places }, (_, place) =>
    centreOf(sums.subarray(place * height, (place + 1) * height), at, reach * course),
  );
  // A straight line through what was seen: no place lies far from it.
  const middle = (places - 1) / 2;
  let [mean, slope, spread] = [0, 0, 0];
  for (let i = 0; i < places; i++) {
    mean += seen[i]! / places;
    slope += (i - middle) * seen[i]!;
    spread += (i - middle) ** 2;
  }
  slope = spread > 0 ? slope / spread : 0;
  const most = stray * course;
  return seen.map((value, i) => {
    const line = mean + slope * (i - middle);
    return line + Math.min(most, Math.max(-most, value - line));
  });
}

/**
 * Find the middle of a line that stands out of a profile.
 *
 * @param profile - Sample i covers i to i + 1.
 * @param at - Where it should be.
 * @param within - How far from there it may be.
 * @returns Where its middle is; `at` where nothing stands out.
 */
export function centreOf(profile: Float64Array, at: number, within: number): number {
  const from = Math.max(0, Math.floor(at - within));
  const to = Math.min(profile.length - 1, Math.ceil(at + within) - 1);
  let peak = from;
  let low = Infinity;
  for (let i = from; i <= to; i++) {
    if (profile[i]! > profile[peak]!) peak = i;
    low = Math.min(low, profile[i]!);
  }
  const least = low + 0.4 * (profile[peak]! - low);
  let [sum, moment] = [0, 0];
  for (const [start, step] of [[peak, 1] as const, [peak - 1, -1] as const]) {
    for (let i = start; i >= from && i <= to && profile[i]! > least; i += step) {
      sum += profile[i]! - least;
      moment += (profile[i]! - least) * (i + 0.5);
    }
  }
  return sum > 0 ? moment / sum : at;
}
