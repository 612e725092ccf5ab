import type { SeenWall } from './seen-wall.js';
import type { ScaleSpread } from './slant/spread-stand.js';

/** Share of an unknown slant that a photo may still have that shows none. */
const leftOpen = 0.5;

/**
 * Say what may put a wall's course out.
 *
 * @param seen - As seen.
 * @param spread - What joints that wander have in it, as a fraction.
 * @returns Standard uncertainties (k = 1), as fractions.
 */
export function toParts(seen: SeenWall, spread: number): ScaleSpread {
  const { fit, rectification } = seen;
  if (fit === null) return { fit: spread, perspective: 0, lens: 0 };
  const { perspective, lens } = fit.scale;
  const share = rectification === null ? leftOpen : 1;
  return {
    fit: Math.max(spread, fit.scale.fit),
    perspective: share * perspective,
    lens: share * lens,
  };
}
