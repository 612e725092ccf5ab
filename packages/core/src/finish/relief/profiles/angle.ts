import type { Profile } from './profile.js';

/** Two legs: one upright, one level along the foot. */
export const angle: Profile = {
  id: 'angle',
  name: 'angle, its level leg along the foot',
  needs: ['flange'],
  takes: ['width', 'root'],
  shape: ({ depth, width, flange: thickness, root }) => {
    const flange = thickness ?? 0;
    const foot = depth - flange;
    const overhang = width === null ? 0 : width - flange;
    const radius = Math.min(root ?? 0, foot);
    return {
      edges: [
        {
          name: 'top of the upright leg',
          at: 0,
          faces: 'up',
          side: 'below',
          room: foot / 2,
          overhang: 0,
        },
        {
          name: 'top of the level leg',
          at: foot,
          faces: 'up',
          side: 'above',
          room: null,
          overhang,
        },
        {
          name: 'underside of the level leg',
          at: depth,
          faces: 'down',
          side: 'above',
          room: flange,
          overhang: 0,
        },
      ],
      recesses: [{ y0: 0, y1: foot }],
      fillets: radius === 0 ? [] : [{ at: foot, to: foot - radius, faces: 'up' }],
      web: null,
      plain: null,
      stands: [{ name: 'level leg', y0: foot, y1: depth, level: 1, out: overhang }],
      rivetRows: () => [foot / 2],
    };
  },
};
