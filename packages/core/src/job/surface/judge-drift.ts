import type { Warning } from '../../errors/warning.js';
import type { AxisPlan } from '../../fill/plan-tile.js';
import type { PerAxis } from '../../surface/measurement.js';

/**
 * Warn where whole dots put courses off. Half a dot over the long side of an A3 page (ISO 216: 420 mm) is
 * what nobody sees.
 *
 * @param plan - Of a tile.
 * @returns The warning, if any.
 */
export function judgeDrift(plan: PerAxis<AxisPlan>): readonly Warning[] {
  const { x, y } = plan;
  const drift = Math.max(x.drift, y.drift);
  if (drift <= 0.5) return [];
  const message = `rounding the repeat to whole dots puts courses off by ${drift.toFixed(1)} dots at the end of an A3 page`;
  return [{ code: 'scale-rounded', message }];
}
