import type { ProfileEdge } from './profile.js';

/**
 * Say what edges a face has that is flat from top to foot.
 *
 * @param depth - In mm of paper.
 * @returns Both.
 */
export function flatEdges(depth: number): readonly ProfileEdge[] {
  const room = depth / 3;
  return [
    { name: 'top edge', at: 0, faces: 'up', side: 'below', room, overhang: 0 },
    { name: 'bottom edge', at: depth, faces: 'down', side: 'above', room, overhang: 0 },
  ];
}
