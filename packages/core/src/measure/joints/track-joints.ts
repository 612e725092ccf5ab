/** Joints followed down the picture. */
export interface Track {
  /** Where they lie, in samples of what was followed, top down. */
  readonly joints: readonly number[];
  /** Sum of evidence at them, less what the unevenness of their spacing costs. */
  readonly merit: number;
}

/** Evidence under which a joint does not pay its way: ends without joints are left off. */
const least = 0.18;
/** Deviation of one spacing from the course, as a fraction, that costs half a unit of evidence. */
const give = 0.08;
/** Grid steps in a course. */
const fineness = 32;

/**
 * Follow joints down the picture, each about one course below the last: the path with the most
 * evidence and the least unevenness. A joint that hardly shows is bridged; a band of other work at
 * either end is left off.
 *
 * @param samples - Evidence, 1 a certain joint.
 * @param course - About a course, in samples, 3 or more.
 * @returns The best path.
 * @see D. P. W. Ellis, Beat tracking by dynamic programming, Journal of New Music Research 36 (2007)
 */
export function trackJoints(samples: Float32Array, course: number): Track {
  const step = course / fineness;
  const length = Math.max(1, Math.floor((samples.length - 1) / step) + 1);
  const shortest = Math.round(fineness * 0.75);
  const longest = Math.round(fineness * 1.32);
  const cost = Float64Array.from({ length: longest + 1 }, (_, d) =>
    d === 0 ? Infinity : 0.5 * (Math.log(d / fineness) / give) ** 2,
  );
  const total = new Float64Array(length);
  const back = new Int32Array(length).fill(-1);
  let last = 0;
  for (let i = 0; i < length; i++) {
    const at = i * step;
    const whole = Math.floor(at);
    const next = Math.min(samples.length - 1, whole + 1);
    const here = samples[whole]! + (at - whole) * (samples[next]! - samples[whole]!) - least;
    let best = 0;
    for (let d = shortest; d <= longest && d <= i; d++) {
      const through = total[i - d]! - cost[d]!;
      if (through > best) {
        best = through;
        back[i] = i - d;
      }
    }
    total[i] = here + best;
    if (total[i]! > total[last]!) last = i;
  }
  const joints: number[] = [];
  for (let i = last; i >= 0; i = back[i]!) joints.push(i * step);
  return { joints: joints.reverse(), merit: total[last]! };
}
