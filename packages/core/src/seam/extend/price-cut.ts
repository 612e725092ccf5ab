// A cut through anything but mortar costs this much even where both sides are the same.
const leastCost = 0.002;
// What a pixel of pure mortar costs beside one of brick.
const inMortar = 0.15;

/**
 * Say what it costs to cut at a pixel from one picture into another.
 *
 * @param unlike - How far the two differ there: squared steps in square roots of light, all colours.
 * @param mortar - How like mortar the one of them is that is less so.
 * @returns The cost.
 */
export function priceCut(unlike: number, mortar: number): number {
  const share = mortar < 0 ? 0 : mortar > 1 ? 1 : mortar;
  return (unlike + leastCost) * (inMortar + 1 - share);
}
