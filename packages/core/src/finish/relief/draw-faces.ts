import type { ReliefBand } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type EdgeLine } from './lay-lines.js';
import { shadeEdge } from './light-side.js';
import { inks, leastLine } from './pens.js';
import type { ProfileFillet, ProfileShape, Stretch } from './profiles/profile.js';

/** From end to end. */
export interface Reach {
  /** Its left end. */
  readonly x0: number;
  /** Its right end. */
  readonly x1: number;
}

const up = { x: 0, y: -1 };
const down = { x: 0, y: 1 };

/**
 * Shade what lies between the flanges: darker as it lies deeper, and where a flange keeps the light from
 * it; rounded corners light or dark as they turn.
 *
 * @param shape - The section, in mm of paper.
 * @param light - Towards the light.
 * @param reach - From end to end.
 * @returns Bands, in the order they lie over one another.
 */
export function drawFaces(
  shape: ProfileShape,
  light: PerAxis<number>,
  reach: Reach,
): readonly ReliefBand[] {
  const { recesses, fillets, edges } = shape;
  return [
    ...recesses.map(({ y0, y1 }) => even({ y0, y1 }, inks.recess, reach)),
    ...edges.flatMap(({ at, faces, overhang }) => {
      const away = faces === 'down' ? -light.y : light.y;
      const face = recesses.find(({ y0, y1 }) => (faces === 'down' ? y0 : y1) === at);
      if (away <= 0 || overhang <= 0 || face === undefined) return [];
      const length = Math.min(overhang * away, face.y1 - face.y0);
      return castShadow({ at, length, faces }, inks.shadow, reach);
    }),
    ...fillets.map((fillet) => roundCorner(fillet, light, reach)),
  ];
}

/**
 * Draw the lines of level edges.
 *
 * @param lines - As laid.
 * @param light - Towards the light.
 * @param reach - From end to end.
 * @returns A band each.
 */
export function drawLines(
  lines: readonly EdgeLine[],
  light: PerAxis<number>,
  reach: Reach,
): readonly ReliefBand[] {
  return lines.map(({ edge, y0, y1 }) => {
    const { tone, opacity } = shadeEdge(edge.faces === 'up' ? up : down, light);
    return { kind: 'band', tone, ...reach, y0, y1, top: opacity, foot: opacity };
  });
}

function even({ y0, y1 }: Stretch, opacity: number, reach: Reach): ReliefBand {
  return { kind: 'band', tone: 'dark', ...reach, y0, y1, top: opacity, foot: opacity };
}

interface Shadow {
  readonly at: number;
  readonly length: number;
  readonly faces: 'up' | 'down';
}

// Its end is soft, as a shadow's is: the last fifth, or the thickness of a line.
function castShadow({ at, length, faces }: Shadow, opacity: number, reach: Reach): ReliefBand[] {
  const soft = Math.min(length, Math.max(leastLine, length / 5));
  const sign = faces === 'down' ? 1 : -1;
  const hard = at + sign * (length - soft);
  const end = at + sign * length;
  const band = { kind: 'band', tone: 'dark', ...reach } as const;
  const core: ReliefBand = {
    ...band,
    y0: Math.min(at, hard),
    y1: Math.max(at, hard),
    top: opacity,
    foot: opacity,
  };
  const fade: ReliefBand =
    faces === 'down'
      ? { ...band, y0: hard, y1: end, top: opacity, foot: 0 }
      : { ...band, y0: end, y1: hard, top: 0, foot: opacity };
  return length > soft ? [core, fade] : [fade];
}

// Of a quarter of a circle, the part of the normal that looks up or down falls evenly from its edge to
// where it has come round.
function roundCorner(
  { at, to, faces }: ProfileFillet,
  light: PerAxis<number>,
  reach: Reach,
): ReliefBand {
  const facing = faces === 'up' ? -light.y : light.y;
  const opacity = inks.fillet * Math.abs(facing);
  const band = { kind: 'band', tone: facing > 0 ? 'light' : 'dark', ...reach } as const;
  return at < to
    ? { ...band, y0: at, y1: to, top: opacity, foot: 0 }
    : { ...band, y0: to, y1: at, top: 0, foot: opacity };
}
