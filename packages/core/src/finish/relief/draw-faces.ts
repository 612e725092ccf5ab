import type { EdgeLine } from './lay-lines.js';
import { type Light, shadeEdge, shadeRim } from './light-side.js';
import { inks, leastLine } from './pens.js';
import type { ProfileEdge, ProfileFillet, ProfileShape, Stretch } from './profiles/profile.js';
import type { LitStrip, Reach, ReliefStrip } from './relief-strip.js';

const up = { x: 0, y: -1 };
const down = { x: 0, y: 1 };

/**
 * Shade what lies between the flanges: darker as it lies deeper, and where a flange keeps the light from
 * it; rounded corners light or dark as they turn.
 *
 * @param shape - The section, in mm of paper.
 * @param reach - From end to end.
 * @returns Strips, in the order they lie over one another.
 */
export function drawFaces(shape: ProfileShape, reach: Reach): readonly ReliefStrip[] {
  const { recesses, fillets, edges, boards = [] } = shape;
  return [
    ...recesses.map(({ y0, y1 }) => ({
      ...along(reach, () => ({ y0, y1, top: -inks.recess, foot: -inks.recess })),
      isFace: true,
    })),
    ...edges.flatMap((edge) => {
      const face = [...recesses, ...boards].find(
        ({ y0, y1 }) => (edge.faces === 'down' ? y0 : y1) === edge.at,
      );
      if (edge.overhang <= 0 || face === undefined) return [];
      return (['core', 'fade'] as const).map((part) =>
        along(reach, (light) => castShadow(edge, face, light)[part]),
      );
    }),
    ...fillets.map((fillet) => along(reach, (light) => roundCorner(fillet, light))),
  ];
}

/**
 * Draw the lines of level edges.
 *
 * @param lines - As laid.
 * @param reach - From end to end.
 * @returns A strip each.
 */
export function drawLines(lines: readonly EdgeLine[], reach: Reach): readonly ReliefStrip[] {
  return lines.map(({ edge, y0, y1 }) =>
    along(reach, (light) => {
      const shadeOf = edge.room === null ? shadeEdge : shadeRim;
      const shade = shadeOf(edge.faces === 'up' ? up : down, light);
      return { y0, y1, top: shade, foot: shade };
    }),
  );
}

function along(reach: Reach, lit: ReliefStrip['lit']): ReliefStrip {
  return { ...reach, isPaper: false, lit };
}

// As long as the flange stands out, to where the face ends. Its end is soft, as a shadow's is: the last
// fifth, or the thickness of a line.
function castShadow(
  { at, faces, overhang }: ProfileEdge,
  face: Stretch,
  light: Light,
): { readonly core: LitStrip; readonly fade: LitStrip } {
  const away = faces === 'down' ? -light.y : light.y;
  const length = Math.max(0, Math.min(overhang * away * light.fall, face.y1 - face.y0));
  const soft = Math.min(length, Math.max(leastLine, length / 5));
  const sign = faces === 'down' ? 1 : -1;
  const hard = at + sign * (length - soft);
  const end = at + sign * length;
  const dark = -inks.shadow;
  return {
    core: { y0: Math.min(at, hard), y1: Math.max(at, hard), top: dark, foot: dark },
    fade:
      faces === 'down'
        ? { y0: hard, y1: end, top: dark, foot: 0 }
        : { y0: end, y1: hard, top: 0, foot: dark },
  };
}

// Of a quarter of a circle, the part of the normal that looks up or down falls evenly from its edge to
// where it has come round.
function roundCorner({ at, to, faces }: ProfileFillet, light: Light): LitStrip {
  const facing = faces === 'up' ? -light.y : light.y;
  const shade = inks.fillet * facing;
  return at < to
    ? { y0: at, y1: to, top: shade, foot: 0 }
    : { y0: to, y1: at, top: 0, foot: shade };
}
