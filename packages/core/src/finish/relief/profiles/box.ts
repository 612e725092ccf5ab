import { flatEdges } from './flat-edges.js';
import type { Profile } from './profile.js';

/** A hollow section: a flat face between rounded corners. */
export const box: Profile = {
  id: 'box',
  name: 'box',
  needs: [],
  takes: ['root'],
  shape: ({ depth, root }) => {
    const radius = Math.min(root ?? 0, depth / 2);
    return {
      edges: flatEdges(depth),
      recesses: [],
      fillets:
        radius === 0
          ? []
          : [
              { at: 0, to: radius, faces: 'up' },
              { at: depth, to: depth - radius, faces: 'down' },
            ],
      web: null,
      plain: null,
      rivetRows: () => [],
    };
  },
};
