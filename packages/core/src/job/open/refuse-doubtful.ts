import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Measurement } from '../../surface/measurement.js';
import { toFigures } from '../to-figures.js';

// Nothing is to be printed by what is right within 1 % less often than this.
const leastConfidence = 0.05;
// Nor by lines that contradict one another by more than this (k = 2, in per cent).
const mostApart = 25;

/**
 * Refuse to make anything by a scale that is next to worthless. A measurement may be told with its
 * warnings; what is printed by it no longer shows them.
 *
 * @param measurement - Of a photo, made now or kept.
 * @param path - Of that photo.
 * @returns Why nothing is to be made by it, or null.
 */
export function refuseDoubtful(
  measurement: Measurement,
  path: string,
): Extract<Outcome<never, 'scale-doubtful'>, { ok: false }> | null {
  const { method, confidence, uncertaintyPercent } = measurement;
  // Courses in doubt are refused when they are looked for; copies of a few are still courses.
  if (method === 'courses') return null;
  const apart = 2 * scatterOf(measurement) > mostApart;
  if (confidence >= leastConfidence && !apart) return null;
  const off = toFigures(uncertaintyPercent, 2);
  const sure = toFigures(100 * confidence, 2);
  return {
    ok: false,
    code: 'scale-doubtful',
    message: `${showPath(path)}: its scale is no more than a guess, off by up to ${off} % and right with a confidence of ${sure} %`,
    hint: 'measure it first until what is known of it agrees: mark again what disagrees, or something longer',
  };
}

// What lines of known length scatter beyond their marks; of courses, the fit says no such thing.
function scatterOf({ lattice, budget }: Measurement): number {
  if (lattice !== null) return 0;
  return Math.hypot(...budget.filter(({ source }) => source === 'fit').map((p) => p.percent));
}
