import { toLab } from '../../colour/lab.js';
import { fromSrgb } from '../../colour/srgb.js';

/** A colour in CIE 1976 L*a*b*, paper being 100, 0, 0. */
export type Lab = readonly [lightness: number, a: number, b: number];

/**
 * Bring one colour from linear light to CIE 1976 L*a*b*.
 *
 * @param light - Red, green and blue, 0 black to 1 white.
 * @returns The colour.
 */
export function labOfLight(light: ArrayLike<number>): Lab {
  const planes = [0, 1, 2].map((channel) => Float32Array.of(light[channel] ?? 0));
  const [red, green, blue] = planes as [Float32Array, Float32Array, Float32Array];
  toLab([red, green, blue]);
  return [red[0]!, green[0]!, blue[0]!];
}

/**
 * Bring one colour of sRGB to CIE 1976 L*a*b*.
 *
 * @param colour - Red, green and blue as encoded, 0 to 1.
 * @returns The colour.
 */
export function labOf(colour: ArrayLike<number>): Lab {
  return labOfLight(Array.from(colour, fromSrgb));
}
