import { outOfRange } from '../errors/out-of-range.js';
import { type LimitOptions, limitRanges } from './limits.js';
import { inCount } from './over-limit.js';

const factors = new Map([
  ['', 1],
  ['k', 1e3],
  ['m', 1e6],
  ['g', 1e9],
]);

/**
 * Take how many of something files may hold.
 *
 * @param text - As typed: `140M`, `2k`, `1.5G`, `500000`; of bytes `600MB`, too.
 * @param name - Which limit it is, as the user knows it.
 * @param limit - The same, as the library knows it.
 * @returns The number, whole.
 * @throws RangeError when it is anything else.
 */
export function parseCount(
  text: string,
  name: string,
  limit: Exclude<keyof LimitOptions, 'mostSeconds'>,
): number {
  const pattern = limit === 'mostBytes' ? /^(\S+?) ?([kmg]?)b?$/i : /^(\S+?) ?([kmg]?)$/i;
  const [, digits = '', unit = ''] = pattern.exec(text) ?? [];
  const number = /^\d{1,12}(\.\d{1,9})?$/.test(digits) ? Number(digits) : NaN;
  const value = Math.round(number * (factors.get(unit.toLowerCase()) ?? NaN));
  const { least, most } = limitRanges[limit];
  if (value >= least && value <= most) return value;
  throw outOfRange(
    `a number from ${least} to ${inCount(most)} (such as ${examples[limit]})`,
    name,
    text,
  );
}

const examples = {
  mostPixels: '140M',
  mostBytes: '600M',
  mostElements: '1M',
  mostDepth: '300',
  mostLinks: '10k',
} as const;

/**
 * Take how long decoding may take.
 *
 * @param text - As typed: `60`, `60s`, `2.5`.
 * @param name - Which limit it is, as the user knows it.
 * @returns Seconds, 0.1 to 3600.
 * @throws RangeError when it is anything else.
 */
export function parseSeconds(text: string, name: string): number {
  const value = /^\d{1,4}(\.\d{1,3})?( ?s)?$/.test(text) ? Number.parseFloat(text) : NaN;
  const { least, most } = limitRanges.mostSeconds;
  if (value >= least && value <= most) return value;
  throw outOfRange(`${least} to ${most} seconds`, name, text);
}
