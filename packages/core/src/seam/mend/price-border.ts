// What a step of a border costs beside what the two pictures differ by there, in mean differences: in
// brick, so that none comes out of two halves; and anywhere, so that it does not wander.
const inBrick = 1.5;
const anywhere = 0.05;
// What is left of the difference where both show mortar.
const inMortar = 0.15;

/**
 * Say how far two pictures differ, pixel by pixel.
 *
 * @param here - Planes of the one.
 * @param there - Those of the other, as many and as large.
 * @returns Squares, colours summed.
 */
export function squaredSteps(
  here: readonly Float32Array[],
  there: readonly Float32Array[],
): Float32Array {
  const out = new Float32Array(here[0]?.length ?? 0);
  for (const [channel, one] of here.entries()) {
    const other = there[channel]!;
    for (let i = 0; i < out.length; i++) {
      const step = one[i]! - other[i]!;
      out[i] = out[i]! + step * step;
    }
  }
  return out;
}

/**
 * Make of what two pictures differ by what a border between them costs: little in joints.
 *
 * @param unlike - Pixel by pixel; written to.
 * @param joints - Where both show mortar, 0 to 1.
 */
export function priceBorder(unlike: Float32Array, joints: Float32Array): void {
  let sum = 0;
  for (const value of unlike) sum += value;
  const mean = sum / Math.max(1, unlike.length);
  for (let i = 0; i < unlike.length; i++) {
    const brick = 1 - joints[i]!;
    const kept = inMortar + (1 - inMortar) * brick;
    unlike[i] = kept * unlike[i]! + mean * (anywhere + inBrick * brick * brick);
  }
}
