import { type LimitName, type LimitOptions, limitRanges } from './limits.js';

const options: Readonly<Record<LimitName, keyof LimitOptions>> = {
  pixels: 'mostPixels',
  bytes: 'mostBytes',
  seconds: 'mostSeconds',
  elements: 'mostElements',
  depth: 'mostDepth',
  links: 'mostLinks',
};

const verbs: Readonly<Record<LimitName, string>> = {
  pixels: 'reads it',
  bytes: 'reads it',
  seconds: 'waits longer',
  elements: 'reads it',
  depth: 'reads it',
  links: 'follows them',
};

/**
 * Write a number as it may be typed for a limit, rounded up.
 *
 * @param count - 0 or more.
 * @returns `140M`, `12k`, `300`.
 */
export function inCount(count: number): string {
  if (count >= 10e6) return `${Math.ceil(count / 1e6)}M`;
  if (count >= 1e6) return `${Math.ceil(count / 1e5) / 10}M`;
  return count >= 10_000 ? `${Math.ceil(count / 1e3)}k` : String(Math.ceil(count));
}

/**
 * Write what there is beside what is allowed: the limit as it is, and the other to as many digits, or more where it
 * takes them to show that it is more.
 *
 * @param count - More than `most`.
 * @param most - What is allowed.
 * @returns `140 million, more than 100 million`.
 */
export function moreThan(count: number, most: number): string {
  if (most < 1e5) return `${count}, more than ${most}`;
  const [many, allowed] = [count / 1e6, most / 1e6];
  let digits = String(allowed).split('.')[1]?.length ?? 0;
  while (digits < 6 && Number(many.toFixed(digits)) <= allowed) digits++;
  return `${Number(many.toFixed(digits))} million, more than ${allowed} million`;
}

/**
 * Say which option lifts a limit.
 *
 * @param limit - Which.
 * @param needed - What would do: of what is not known, a guess.
 * @param most - How far it goes.
 * @returns What ends the line: `: --most-pixels 140M reads it`; nothing where no option goes that far.
 */
export function liftedBy(
  limit: LimitName,
  needed: number,
  most: number = limitRanges[options[limit]].most,
): string {
  if (needed > most) return '';
  return `: --most-${limit} ${inCount(needed)} ${verbs[limit]}`;
}
