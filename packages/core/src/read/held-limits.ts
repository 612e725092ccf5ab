import { AsyncLocalStorage } from 'node:async_hooks';
import { checkLimits } from '../limits/check-limits.js';
import { type InputKind, type LimitOptions, type Limits, limitsFor } from '../limits/limits.js';

// Some thirty places read what comes from outside, most of them far below the job that was told its limits. What
// is told once holds for all that is read because of it, so that none can be forgotten on the way.
const held = new AsyncLocalStorage<LimitOptions>();

/**
 * Do something within limits: they hold for all that is read in it, and where it says nothing, those
 * around it do.
 *
 * @param options - The limits, and whatever else.
 * @param work - What to do.
 * @returns What it comes to.
 * @throws RangeError when a limit lies where it cannot.
 */
export async function withLimits<Result>(
  options: LimitOptions,
  work: () => Promise<Result>,
): Promise<Result> {
  const given = checkLimits(options);
  if (Object.keys(given).length === 0) return work();
  return held.run({ ...held.getStore(), ...given }, work);
}

/**
 * Tell what is said of limits here, to hand it on where this does not reach: to another thread.
 *
 * @returns It.
 */
export function heldLimits(): LimitOptions {
  return held.getStore() ?? {};
}

/**
 * Tell what a file may ask for here.
 *
 * @param kind - What it is read as.
 * @returns All of it.
 */
export function limitsOf(kind: InputKind): Limits {
  return limitsFor(kind, heldLimits());
}
