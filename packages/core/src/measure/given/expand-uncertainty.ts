import type { UncertaintyPart } from '../../surface/measurement.js';

/**
 * Combine the parts of an uncertainty budget and expand them.
 *
 * @param budget - Independent parts, each in per cent of the value.
 * @returns The expanded uncertainty (k = 2), in per cent.
 * @see JCGM 100:2008 (GUM), equations 10 and 12
 */
export function expandUncertainty(budget: readonly UncertaintyPart[]): number {
  return 2 * Math.hypot(...budget.map(({ percent }) => percent));
}
