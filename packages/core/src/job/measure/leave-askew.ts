import type { Warning } from '../../errors/warning.js';
import { expandUncertainty } from '../../measure/given/expand-uncertainty.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import { toLevelPoint } from '../../surface/level-point.js';
import type { Measurement, Rectification } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/** A measurement that leaves more or less of a photo's slant in it. */
export interface LeftAskew {
  /** The measurement, its joints to be looked for anew. */
  readonly measurement: Measurement;
  /** How far the scale now changes over the photo, where that is worth a word. */
  readonly warnings: readonly Warning[];
}

// Change of scale over the photo, as a fraction, that is worth a word.
const leastChange = 0.01;

/**
 * Take back from a measurement some of its straightening: all of it, or all but the turn. The scale
 * stays that of the photo's middle.
 *
 * @param measurement - As found or kept.
 * @param size - The photo, in pixels.
 * @param straighten - How far it may be straightened.
 * @returns The measurement; the same where nothing is to be taken back.
 */
export function leaveAskew(
  measurement: Measurement,
  size: Size<number>,
  straighten: Straighten,
): LeftAskew {
  const { rectification } = measurement;
  if (rectification === null || straighten === 'full') return { measurement, warnings: [] };
  const change = changeOfScale(rectification, size);
  // Anywhere within it alike: JCGM 100:2008 (GUM), 4.3.7.
  const left = (100 * change) / Math.sqrt(3);
  const percent = Math.round(100 * change);
  const message = `the photo is left in perspective, so its scale differs by up to ${percent} % from that of its middle`;
  return {
    measurement: {
      ...measurement,
      rectification: straighten === 'none' ? null : turnOf(rectification, size),
      ...addPerspective(measurement, left),
      lattice: null,
    },
    warnings: change < leastChange ? [] : [{ code: 'uneven-scale', message }],
  };
}

// On top of what perspective there was already. A file from before there was a budget has none:
// what its uncertainty is made of stays unknown.
function addPerspective(
  { budget, uncertaintyPercent }: Measurement,
  left: number,
): Pick<Measurement, 'budget' | 'uncertaintyPercent'> {
  if (budget.length === 0) {
    return { budget, uncertaintyPercent: 2 * Math.hypot(uncertaintyPercent / 2, left) };
  }
  const source = 'perspective';
  const before = budget.find((part) => part.source === source)?.percent ?? 0;
  const others = budget.filter((part) => part.source !== source);
  const parts = [...others, { source, percent: Math.hypot(before, left) } as const];
  return { budget: parts, uncertaintyPercent: expandUncertainty(parts) };
}

// How much larger or smaller a pixel of the photo is on the level picture, at the worst corner.
function changeOfScale(rectification: Rectification, size: Size<number>): number {
  const { width, height } = size;
  const step = Math.max(width, height) / 1000;
  const changes = [0, width - step].flatMap((x) =>
    [0, height - step].map((y) => {
      const at = toLevelPoint(rectification, size, { x, y });
      const right = toLevelPoint(rectification, size, { x: x + step, y });
      const below = toLevelPoint(rectification, size, { x, y: y + step });
      const area = (right.x - at.x) * (below.y - at.y) - (right.y - at.y) * (below.x - at.x);
      return Math.abs(Math.sqrt(Math.abs(area)) / step - 1);
    }),
  );
  return Math.max(...changes);
}

// The turn that is nearest to what the straightening does at the photo's middle, about that.
function turnOf(rectification: Rectification, size: Size<number>): Rectification {
  const [u, v] = [size.width / 2, size.height / 2];
  const at = toLevelPoint(rectification, size, { x: u, y: v });
  const right = toLevelPoint(rectification, size, { x: u + 1, y: v });
  const below = toLevelPoint(rectification, size, { x: u, y: v + 1 });
  const angle = Math.atan2(right.y - at.y - (below.x - at.x), right.x - at.x + (below.y - at.y));
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return { matrix: [c, -s, u - c * u + s * v, s, c, v - s * u - c * v, 0, 0, 1], lens: 0 };
}
