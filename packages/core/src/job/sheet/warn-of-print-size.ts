import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { PerAxis } from '../../surface/measurement.js';
import { toFigures } from '../to-figures.js';

/**
 * Doubt what programs write that do not know: a page made for 600 dpi comes out eight times as large.
 *
 * @param path - Of the picture.
 * @param dpi - How fine it says that it is.
 * @returns A warning, or none.
 */
export function warnOfPrintSize(path: string, dpi: PerAxis<number>): readonly Warning[] {
  const { x, y } = dpi;
  const shown = showPath(path);
  if (Math.abs(x / y - 1) > 0.01) {
    const message = `${shown} says ${toFigures(x, 4)} dots per inch across and ${toFigures(y, 4)} down`;
    return [{ code: 'doubtful-print-size', message }];
  }
  if (Math.max(x, y) >= 150) return [];
  const message = `${shown} says ${toFigures(x, 4)} dots per inch, which many programs write without looking: check its size`;
  return [{ code: 'doubtful-print-size', message }];
}
