/**
 * Say over how much a brick fades into its neighbour: within their joint.
 *
 * @param joint - Its width in pixels.
 * @returns Pixels on each side of its middle.
 */
export function fadeOver(joint: number): number {
  return Math.min(4, Math.max(0.5, 0.3 * joint));
}
