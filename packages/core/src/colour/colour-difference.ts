/** A colour in CIE 1976 L*a*b*. */
export type LabColour = readonly [lightness: number, a: number, b: number];

const degree = Math.PI / 180;
const far = 25 ** 7;

function hueOf(b: number, a: number): number {
  const hue = Math.atan2(b, a) / degree;
  return hue < 0 ? hue + 360 : hue;
}

/**
 * How different two colours look: CIEDE2000 with all factors 1.
 *
 * @param one - A colour.
 * @param other - Another.
 * @returns 0 for the same; about 1 is just seen.
 * @see Sharma, Wu, Dalal 2005, The CIEDE2000 color-difference formula, Color Res. Appl. 30, 21-30
 */
export function colourDifference(one: LabColour, other: LabColour): number {
  const [l1, a1, b1] = one;
  const [l2, a2, b2] = other;
  const plain = ((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2) ** 7;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(plain / (plain + far)));
  const c1 = Math.hypot(a1 * stretch, b1);
  const c2 = Math.hypot(a2 * stretch, b2);
  const { between, mean } = hues(hueOf(b1, a1 * stretch), hueOf(b2, a2 * stretch), c1 * c2 === 0);
  const hue = 2 * Math.sqrt(c1 * c2) * Math.sin((between / 2) * degree);
  const chroma = (c1 + c2) / 2;
  const light = ((l1 + l2) / 2 - 50) ** 2;
  const turn =
    1 -
    0.17 * Math.cos((mean - 30) * degree) +
    0.24 * Math.cos(2 * mean * degree) +
    0.32 * Math.cos((3 * mean + 6) * degree) -
    0.2 * Math.cos((4 * mean - 63) * degree);
  const dl = (l2 - l1) / (1 + (0.015 * light) / Math.sqrt(20 + light));
  const dc = (c2 - c1) / (1 + 0.045 * chroma);
  const dh = hue / (1 + 0.015 * chroma * turn);
  const blue = 30 * Math.exp(-(((mean - 275) / 25) ** 2));
  const rotate = -2 * Math.sqrt(chroma ** 7 / (chroma ** 7 + far)) * Math.sin(2 * blue * degree);
  return Math.sqrt(dl * dl + dc * dc + dh * dh + rotate * dc * dh);
}

// Angle from the one to the other, and the angle half-way, the short way round.
function hues(h1: number, h2: number, grey: boolean): { between: number; mean: number } {
  if (grey) return { between: 0, mean: h1 + h2 };
  const apart = h2 - h1;
  if (Math.abs(apart) <= 180) return { between: apart, mean: (h1 + h2) / 2 };
  const mean = (h1 + h2 + (h1 + h2 < 360 ? 360 : -360)) / 2;
  return { between: apart + (apart > 0 ? -360 : 360), mean };
}
