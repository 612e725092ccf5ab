import type { Profile } from './profile.js';

/** A flange along the top and a stem under it. */
export const tee: Profile = {
  id: 'tee',
  name: 'tee, its flange along the top',
  needs: ['flange'],
  takes: ['width', 'web', 'root'],
  shape: ({ depth, width, web, flange: thickness, root }) => {
    const flange = thickness ?? 0;
    const overhang = width === null ? 0 : (width - (web ?? 0)) / 2;
    const stem = depth - flange;
    const radius = Math.min(root ?? 0, stem);
    return {
      edges: [
        { name: 'top of the flange', at: 0, faces: 'up', side: 'below', room: flange, overhang: 0 },
        {
          name: 'underside of the flange',
          at: flange,
          faces: 'down',
          side: 'below',
          room: null,
          overhang,
        },
        {
          name: 'foot of the stem',
          at: depth,
          faces: 'down',
          side: 'above',
          room: stem / 2,
          overhang: 0,
        },
      ],
      recesses: [{ y0: flange, y1: depth }],
      fillets: radius === 0 ? [] : [{ at: flange, to: flange + radius, faces: 'down' }],
      web: null,
      plain: null,
      stands: [{ name: 'flange', y0: 0, y1: flange, level: 1, out: overhang }],
      rivetRows: () => [flange + stem / 2],
    };
  },
};
