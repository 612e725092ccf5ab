/** How the colour of what lies on top and of what lies under it are mixed. */
export type BlendMode = 'multiply' | 'screen' | 'overlay' | 'hard-light' | 'soft-light';

/**
 * Mix a colour with what lies under it, one channel at a time.
 *
 * @param mode - By which formula.
 * @param backdrop - What lies under it, 0 to 1, as encoded in sRGB.
 * @param source - What lies on top, likewise.
 * @returns The mixture, likewise, as if on top were opaque.
 * @see W3C Compositing and Blending Level 1, 10.1: separable blend modes
 */
export function blend(mode: BlendMode, backdrop: number, source: number): number {
  switch (mode) {
    case 'multiply':
      return backdrop * source;
    case 'screen':
      return backdrop + source - backdrop * source;
    case 'overlay':
      return overlay(backdrop, source);
    case 'hard-light':
      return overlay(source, backdrop);
    case 'soft-light':
      return softLight(backdrop, source);
  }
}

/**
 * Make light what is light on top, and dark what is dark; black and white of what lies under it stay.
 *
 * @param backdrop - What lies under it, 0 to 1, as encoded in sRGB.
 * @param source - What lies on top, likewise.
 * @returns The mixture, likewise.
 * @see W3C Compositing and Blending Level 1, 10.1.3
 */
export function overlay(backdrop: number, source: number): number {
  if (backdrop <= 0.5) return 2 * backdrop * source;
  return 1 - 2 * (1 - backdrop) * (1 - source);
}

function softLight(backdrop: number, source: number): number {
  if (source <= 0.5) return backdrop - (1 - 2 * source) * backdrop * (1 - backdrop);
  const lighter =
    backdrop <= 0.25 ? ((16 * backdrop - 12) * backdrop + 4) * backdrop : Math.sqrt(backdrop);
  return backdrop + (2 * source - 1) * (lighter - backdrop);
}
