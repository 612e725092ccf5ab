/** A colour in CIE 1976 L*a*b*. */
export type LabColour = readonly [lightness: number, a: number, b: number];

const degree = Math.PI / 180;
const far = 25 ** 7;

function seventh(value: number): number {
  const cube = value * value * value;
  return cube * cube * value;
}

// Quicker than Math.hypot, which is for numbers far larger or smaller than these.
function lengthOf(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
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
  const plain = seventh((lengthOf(a1, b1) + lengthOf(a2, b2)) / 2);
  const stretch = 1 + 0.5 * (1 - Math.sqrt(plain / (plain + far)));
  const c1 = lengthOf(a1 * stretch, b1);
  const c2 = lengthOf(a2 * stretch, b2);
  const h1 = within(Math.atan2(b1, a1 * stretch));
  const h2 = within(Math.atan2(b2, a2 * stretch));
  const isGrey = c1 * c2 === 0;
  const between = isGrey ? 0 : shortWay(h2 - h1);
  const mean = isGrey ? h1 + h2 : within(h1 + between / 2);
  const hue = 2 * Math.sqrt(c1 * c2) * Math.sin(between / 2);
  const chroma = (c1 + c2) / 2;
  const light = ((l1 + l2) / 2 - 50) ** 2;
  const dl = (l2 - l1) / (1 + (0.015 * light) / Math.sqrt(20 + light));
  const dc = (c2 - c1) / (1 + 0.045 * chroma);
  const dh = hue / (1 + 0.015 * chroma * turnAt(mean));
  const blue = mean / degree;
  const near = 30 * Math.exp(-(((blue - 275) / 25) ** 2)) * degree;
  const power = seventh(chroma);
  const rotate = -2 * Math.sqrt(power / (power + far)) * Math.sin(2 * near);
  return Math.sqrt(dl * dl + dc * dc + dh * dh + rotate * dc * dh);
}

const turn = 2 * Math.PI;

// From 0 up to a whole turn: of opposite hues the mean is that between the two numbers.
function within(hue: number): number {
  if (hue < 0) return hue + turn;
  return hue < turn ? hue : hue - turn;
}

// The angle from one hue to another, the short way round.
function shortWay(angle: number): number {
  if (Math.abs(angle) <= Math.PI) return angle;
  return angle > 0 ? angle - turn : angle + turn;
}

const [cos30, sin30] = [Math.cos(30 * degree), Math.sin(30 * degree)];
const [cos6, sin6] = [Math.cos(6 * degree), Math.sin(6 * degree)];
const [cos63, sin63] = [Math.cos(63 * degree), Math.sin(63 * degree)];

// 1 - 0.17 cos(h - 30°) + 0.24 cos 2h + 0.32 cos(3h + 6°) - 0.2 cos(4h - 63°), by the sine and cosine of h.
function turnAt(hue: number): number {
  const [c1, s1] = [Math.cos(hue), Math.sin(hue)];
  const [c2, s2] = [c1 * c1 - s1 * s1, 2 * s1 * c1];
  const [c3, s3] = [c2 * c1 - s2 * s1, s2 * c1 + c2 * s1];
  const [c4, s4] = [c2 * c2 - s2 * s2, 2 * s2 * c2];
  return (
    1 -
    0.17 * (c1 * cos30 + s1 * sin30) +
    0.24 * c2 +
    0.32 * (c3 * cos6 - s3 * sin6) -
    0.2 * (c4 * cos63 + s4 * sin63)
  );
}
