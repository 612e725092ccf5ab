import type { Profile } from './profile.js';

/** A web plate between flange plates, joined by riveted angles whose legs lie on the web. */
export const plateGirder: Profile = {
  id: 'plate-girder',
  name: 'plate girder',
  needs: ['flange', 'leg'],
  takes: ['width', 'web'],
  shape: ({ depth, width, web: thickness, flange: plates, leg: depthOfLeg }) => {
    const flange = plates ?? 0;
    const leg = depthOfLeg ?? 0;
    const overhang = width === null ? 0 : (width - (thickness ?? 0)) / 2;
    const inner = { y0: flange, y1: depth - flange };
    const web = { y0: inner.y0 + leg, y1: inner.y1 - leg };
    return {
      edges: [
        {
          name: 'top of the top flange',
          at: 0,
          faces: 'up',
          side: 'below',
          room: flange,
          overhang: 0,
        },
        {
          name: 'underside of the top flange',
          at: inner.y0,
          faces: 'down',
          side: 'below',
          room: null,
          overhang,
        },
        {
          name: 'foot of the top angle',
          at: web.y0,
          faces: 'down',
          side: 'below',
          room: null,
          overhang: 0,
        },
        {
          name: 'top of the bottom angle',
          at: web.y1,
          faces: 'up',
          side: 'above',
          room: null,
          overhang: 0,
        },
        {
          name: 'top of the bottom flange',
          at: inner.y1,
          faces: 'up',
          side: 'above',
          room: null,
          overhang,
        },
        {
          name: 'underside of the bottom flange',
          at: depth,
          faces: 'down',
          side: 'above',
          room: flange,
          overhang: 0,
        },
      ],
      recesses: [inner, web],
      fillets: [],
      web: inner,
      plain: web,
      rivetRows: () => [inner.y0 + leg / 2, inner.y1 - leg / 2],
    };
  },
};
