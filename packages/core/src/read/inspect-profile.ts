import { bounds } from '../limits/limits.js';

/** What a colour profile means for the picture that carries it. */
export type ProfileVerdict = 'usual' | 'wide' | 'broken';

interface Chroma {
  readonly x: number;
  readonly y: number;
}

// Twice the area of sRGB's triangle in the xy diagram, its primaries brought to D50 by Bradford as
// profiles hold them: red 0.6484 0.3309, green 0.3212 0.5979, blue 0.1559 0.0661.
const usualArea = areaOf(
  { x: 0.6484, y: 0.3309 },
  { x: 0.3212, y: 0.5979 },
  { x: 0.1559, y: 0.0661 },
);

function areaOf(a: Chroma, b: Chroma, c: Chroma): number {
  return Math.abs((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y));
}

function readColorant(profile: Buffer, name: string): Chroma | undefined {
  const tags = Math.min(profile.readUInt32BE(128), bounds.tags);
  for (let at = 132; at < 132 + tags * 12; at += 12) {
    if (profile.toString('latin1', at, at + 4) !== name) continue;
    const value = profile.readUInt32BE(at + 4) + 8;
    const x = profile.readInt32BE(value);
    const y = profile.readInt32BE(value + 4);
    const sum = x + y + profile.readInt32BE(value + 8);
    return sum > 0 ? { x: x / sum, y: y / sum } : undefined;
  }
  return undefined;
}

function spaceFits(profile: Buffer, space: string): boolean {
  const declared = profile.toString('latin1', 16, 20);
  if (space === 'cmyk') return declared === 'CMYK';
  if (space === 'b-w' || space === 'grey16') return declared === 'GRAY' || declared === 'RGB ';
  return declared === 'RGB ';
}

/**
 * Look at an embedded colour profile.
 *
 * @param profile - Its bytes.
 * @param space - The picture's colours as stored: `srgb`, `rgb16`, `b-w`, `grey16`, `cmyk`.
 * @returns `broken` where it cannot be one or is for other colours, `wide` where it reaches a tenth
 * further than sRGB.
 * @see ICC.1:2022, 7.2 profile header, 9.2 redMatrixColumnTag and its like
 */
export function inspectProfile(profile: Buffer, space: string): ProfileVerdict {
  try {
    if (profile.toString('latin1', 36, 40) !== 'acsp') return 'broken';
    if (profile.readUInt32BE(0) > profile.length || !spaceFits(profile, space)) return 'broken';
    const [red, green, blue] = ['rXYZ', 'gXYZ', 'bXYZ'].map((name) => readColorant(profile, name));
    if (red === undefined || green === undefined || blue === undefined) return 'usual';
    return areaOf(red, green, blue) > usualArea * 1.1 ? 'wide' : 'usual';
  } catch (cause) {
    if (cause instanceof RangeError) return 'broken';
    throw cause;
  }
}
