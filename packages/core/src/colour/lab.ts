import { cubeRoot } from './cube-root.js';

/** Red, green and blue in linear light; or lightness, a* and b*. */
type Planes = readonly [Float32Array, Float32Array, Float32Array];

// XYZ of the primaries of sRGB (IEC 61966-2-1:1999), over that of its white, D65.
const [xn, zn] = [0.95045593, 1.08905775];
const xOf = [0.4123908 / xn, 0.35758434 / xn, 0.18048079 / xn] as const;
const yOf = [0.21263901, 0.71516868, 0.07219232] as const;
const zOf = [0.01933082 / zn, 0.11919478 / zn, 0.95053215 / zn] as const;

// Below this the cube root gives way to a straight line.
const dark = 216 / 24_389;
const slope = 841 / 108;

function curve(share: number): number {
  return share > dark ? cubeRoot(share) : slope * share + 4 / 29;
}

/**
 * Turn linear light into CIE 1976 L*a*b*, where equal distances look about equally large: in place.
 *
 * @param planes - Red, green and blue of linear sRGB, of one length; 0 black to 1 white. Filled with
 * L* (0 to 100), a* (green below 0, red above) and b* (blue below 0, yellow above), for D65.
 * @see CIE 15:2004, Colorimetry, 8.2.1 (ISO/CIE 11664-4)
 */
export function toLab(planes: Planes): void {
  const [red, green, blue] = planes;
  for (let i = 0; i < red.length; i++) {
    const r = red[i]!;
    const g = green[i]!;
    const b = blue[i]!;
    const x = curve(xOf[0] * r + xOf[1] * g + xOf[2] * b);
    const y = curve(yOf[0] * r + yOf[1] * g + yOf[2] * b);
    const z = curve(zOf[0] * r + zOf[1] * g + zOf[2] * b);
    red[i] = 116 * y - 16;
    green[i] = 500 * (x - y);
    blue[i] = 200 * (y - z);
  }
}
