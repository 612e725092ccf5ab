import type { Warning } from '../../errors/warning.js';
import type { PerAxis } from '../../surface/measurement.js';

const ways = { x: 'side by side', y: 'one above the other' } as const;

/**
 * Warn that a picture shows too little of what it is made of to tell whether it repeats.
 *
 * @param few - Along which axes.
 * @returns A warning for each.
 */
export function warnOfFew(few: PerAxis<boolean>): readonly Warning[] {
  return (['x', 'y'] as const)
    .filter((axis) => few[axis])
    .map((axis) => {
      const message = `the picture shows less than two of what comes again ${ways[axis]}: its ends meet, but nothing tells how that goes on`;
      return { code: 'too-small-to-tell', message };
    });
}
