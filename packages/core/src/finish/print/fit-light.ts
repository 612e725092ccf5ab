import { fitRobust } from '../../numeric/fit-robust.js';
import type { PagePoint } from '../../page/page.js';
import { stripSize } from './strip-layout.js';

/** Light that falls on a strip: how bright its bare paper is, wherever on it. */
export interface StripLight {
  /** Bare paper at a point of the strip, mm, in linear light: red, green and blue. */
  readonly at: (point: PagePoint) => readonly [number, number, number];
  /** Root of the mean square by which paper is off that, as a share of it. */
  readonly rough: number;
  /** The darkest that it is on the strip, as a share of the brightest. */
  readonly evenness: number;
}

const terms = 10;

/**
 * Fit the light on a strip to what its white looks like: a curve of the third degree each way, which a
 * lamp, a window or a lens gives, and a shadow's edge does not.
 *
 * @param points - Where white was seen, mm.
 * @param seen - Red, green and blue of each in linear light.
 * @returns How bright bare paper is anywhere on it.
 */
export function fitLight(points: readonly PagePoint[], seen: Float64Array): StripLight {
  const curves = new Float64Array(terms * points.length);
  points.forEach((point, i) => {
    curves.set(curvesAt(point), terms * i);
  });
  const fits = [0, 1, 2].map((channel) => {
    const values = Float64Array.from(points, (_, i) => seen[3 * i + channel]!);
    const start = new Float64Array(terms);
    start[0] = values.toSorted()[values.length >> 1]!;
    // Begun again from where it came to: all that falls off evenly lies near it by then.
    return fitRobust(curves, values, fitRobust(curves, values, start));
  });
  const at = (point: PagePoint): readonly [number, number, number] => {
    const here = curvesAt(point);
    const [r = 0, g = 0, b = 0] = fits.map((fit) =>
      fit.reduce((sum, much, i) => sum + much * here[i]!, 0),
    );
    return [r, g, b];
  };
  let squares = 0;
  let [darkest, brightest] = [Infinity, 0];
  points.forEach((point, i) => {
    at(point).forEach((light, channel) => {
      squares += (seen[3 * i + channel]! / light - 1) ** 2;
    });
    const [r, g, b] = at(point);
    darkest = Math.min(darkest, r + g + b);
    brightest = Math.max(brightest, r + g + b);
  });
  const rough = Math.sqrt(squares / seen.length);
  return { at, rough, evenness: darkest / brightest };
}

function curvesAt(point: PagePoint): readonly number[] {
  const x = (2 * point.x) / stripSize.width - 1;
  const y = (2 * point.y) / stripSize.height - 1;
  return [1, x, y, x * x, x * y, y * y, x ** 3, x * x * y, x * y * y, y ** 3];
}
