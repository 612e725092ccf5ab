import type { FoundJoints } from '../surface/found-joints.js';
import { bedsOnPage } from './mark-joints.js';

/** How far outside the photo a joint may lie and still count as on its edge, as a fraction. */
const hair = 0.004;

/**
 * Keep the joints between courses that cross the photo: one that was found by its neighbours may lie
 * beyond its edge, where nobody sees it.
 *
 * @param size - The photo, in pixels.
 * @param joints - As found.
 * @returns The same without those.
 */
export function keepSeen(
  size: Readonly<Record<'width' | 'height', number>>,
  joints: FoundJoints,
): FoundJoints {
  const { width, height } = size;
  const [across, down] = [hair * width, hair * height];
  const photo = { x: 0, y: 0, width, height };
  const { rectification } = joints;
  const lines = bedsOnPage({ size, photo, scale: { x: 1, y: 1 }, rectification }, joints);
  const beds = joints.beds.filter((_, k) => {
    const line = lines[k] ?? [];
    return line.some((x, i) => {
      const y = line[i + 1] ?? NaN;
      const inside = x >= -across && x <= width + across && y >= -down && y <= height + down;
      return i % 2 === 0 && inside;
    });
  });
  return { ...joints, beds };
}
