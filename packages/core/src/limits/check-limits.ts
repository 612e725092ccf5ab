import { outOfRange } from '../errors/out-of-range.js';
import { type LimitOptions, limitOptions, limitRanges } from './limits.js';

/**
 * Take what a caller says of limits out of what else it says.
 *
 * @param options - Any.
 * @returns The limits alone; empty where none is given.
 * @throws RangeError when one lies where it cannot.
 */
export function checkLimits(options: LimitOptions): LimitOptions {
  const taken: Partial<Record<keyof LimitOptions, number>> = {};
  for (const name of limitOptions) {
    const value = options[name];
    if (value === undefined) continue;
    const { least, most } = limitRanges[name];
    // Seconds alone may be broken.
    const isWhole = name === 'mostSeconds' || Number.isInteger(value);
    if (!(value >= least && value <= most && isWhole)) {
      const what = name === 'mostSeconds' ? 'a number' : 'a whole number';
      throw outOfRange(`${what} from ${least} to ${most}`, name, value);
    }
    taken[name] = value;
  }
  return taken;
}
