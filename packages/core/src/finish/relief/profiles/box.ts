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
      edges: [
        { name: 'top edge', at: 0, faces: 'up', side: 'below', room: depth / 3, overhang: 0 },
        {
          name: 'bottom edge',
          at: depth,
          faces: 'down',
          side: 'above',
          room: depth / 3,
          overhang: 0,
        },
      ],
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
