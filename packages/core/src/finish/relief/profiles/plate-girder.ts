import type { Profile } from './profile.js';
import { twoFlanges } from './two-flanges.js';

/** A web plate between flange plates, joined by riveted angles whose legs lie on the web. */
export const plateGirder: Profile = {
  id: 'plate-girder',
  name: 'plate girder',
  needs: ['flange', 'leg'],
  takes: ['width', 'web'],
  shape: (sizes) => {
    const { depth, width, web: thickness, flange, leg: depthOfLeg } = sizes;
    const leg = depthOfLeg ?? 0;
    const overhang = width === null ? 0 : (width - (thickness ?? 0)) / 2;
    const plates = twoFlanges(sizes, overhang);
    const inner = { y0: flange ?? 0, y1: depth - (flange ?? 0) };
    const web = { y0: inner.y0 + leg, y1: inner.y1 - leg };
    return {
      ...plates,
      edges: [
        ...plates.edges.slice(0, 2),
        {
          name: 'foot of the top angle',
          at: web.y0,
          faces: 'down',
          side: 'below',
          room: null,
          overhang: 0,
          partedBy: 'leg',
        },
        {
          name: 'top of the bottom angle',
          at: web.y1,
          faces: 'up',
          side: 'above',
          room: null,
          overhang: 0,
        },
        ...plates.edges
          .slice(2)
          .map((edge, i) => (i === 0 ? { ...edge, partedBy: 'leg' as const } : edge)),
      ],
      recesses: [inner, web],
      web: inner,
      plain: web,
      // Legs lie on the web, and plates on the angles.
      stands: [
        { name: 'angles', y0: 0, y1: web.y0, level: 1, out: 0 },
        { name: 'angles', y0: web.y1, y1: depth, level: 1, out: 0 },
        ...(plates.stands ?? []).map((strip) => ({ ...strip, level: 2 })),
      ],
      rivetRows: () => [inner.y0 + leg / 2, inner.y1 - leg / 2],
    };
  },
};
