import { median } from '../numeric/median.js';
import type { CourseAxis, PerAxis } from '../surface/measurement.js';
import { px, type Px } from '../units/units.js';
import type { ScaleSpread } from './slant/spread-stand.js';
import { chanceOfRight, fitCourse } from './joints/spread-of-course.js';

/** What of a course fit an odd course bends. */
interface Gauge {
  readonly axis: CourseAxis;
  readonly course: Px;
  readonly uncertainty: number;
  readonly parts: ScaleSpread;
  readonly courseOffset: number;
  readonly joints: readonly number[];
  readonly repeat: PerAxis<Px | null>;
  readonly confidence: number;
}

/** A course fit that no odd course bends. */
export interface KeptGauge<Fit> {
  /** Its course is that of all parts between odd courses. */
  readonly fit: Fit;
  /** What to say of it, or null where courses run through. */
  readonly message: string | null;
}

/** A course this much higher or lower than the usual one, as a fraction, is an odd one. */
const leastOdd = 0.12;
/** And one so many standard deviations off. */
const mostDeviations = 4.5;
/** Joints that a part has at least: at the ends of a wall, one or two are often astray. */
const leastJoints = 4;
/** Standard deviations to a median absolute deviation: of a normal distribution, 1 / 0.6745. */
const ofMedian = 1.4826;

/**
 * Keep an odd course out of the gauge: a band of stone, a plinth, or the edge of two pictures put
 * together, after which the same courses go on out of step. A straight line through all joints would
 * lean by it.
 *
 * @param fit - As found, its joints in a row, none left out.
 * @returns The same where there is none.
 */
export function keepGauge<Fit extends Gauge>(fit: Fit): KeptGauge<Fit> {
  const { joints } = fit;
  const odd = findOdd(joints);
  const found = odd.length === 0 ? null : fitCourse(Float64Array.from(joints), odd);
  if (found === null) return { fit, message: null };
  const { course, longest } = found;
  const parts = { ...fit.parts, fit: found.uncertainty / course };
  const uncertainty = Math.hypot(parts.fit, parts.perspective, parts.lens);
  const before = chanceOfRight(fit.uncertainty, joints.length);
  const used = chanceOfRight(uncertainty, joints.length - odd.length);
  const period = fit.repeat[fit.axis];
  return {
    fit: {
      ...fit,
      course: px(course),
      courseOffset: longest.at - Math.floor(longest.at / course) * course,
      parts,
      uncertainty,
      confidence: Math.min(1, fit.confidence / before) * used,
      repeat: {
        ...fit.repeat,
        [fit.axis]: period === null ? null : px((period * course) / fit.course),
      },
    },
    message: tell(joints, odd, course),
  };
}

// The first joint of each part but the first, where a part is no joint or two that lie astray.
function findOdd(joints: readonly number[]): number[] {
  const steps = joints.slice(1).map((at, k) => at - joints[k]!);
  if (steps.length < 2 * leastJoints - 1) return [];
  const usual = median(Float64Array.from(steps));
  const off = steps.map((step) => Math.abs(step - usual));
  const deviation = ofMedian * median(Float64Array.from(off));
  const most = Math.max(leastOdd * usual, mostDeviations * deviation);
  const odd = off.flatMap((by, k) => (by > most ? [k + 1] : []));
  return odd.filter((start, i) => {
    const [before, after] = [odd[i - 1] ?? 0, odd[i + 1] ?? joints.length];
    return Math.min(start - before, after - start) >= leastJoints;
  });
}

function tell(joints: readonly number[], odd: readonly number[], course: number): string {
  const [first = 1] = odd;
  const by = (joints[first]! - joints[first - 1]!) / course - 1;
  const where = odd.join(' and ');
  return `the courses do not run through: after course ${where} they go on ${Math.abs(by).toFixed(2)} of a course ${by > 0 ? 'late' : 'early'}, as past a band, or where pictures were put together; the course is that of the parts between`;
}
