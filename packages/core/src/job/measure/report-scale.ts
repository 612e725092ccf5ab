import type { NamedScale } from '../../catalogue/find-scale.js';

/** A model scale as it is reported. */
export interface ScaleReport {
  /** Real over model. */
  readonly ratio: number;
  /** `N-UK`, or null where only a ratio was given. */
  readonly name: string | null;
}

/**
 * Report a model scale.
 *
 * @param scale - As found.
 * @returns The same in plain numbers.
 */
export function reportScale(scale: NamedScale): ScaleReport {
  const { ratio, name } = scale;
  return { ratio, name };
}
