import { widestLine } from '../pens.js';
import type { Profile } from './profile.js';

// Of a rivet's own diameter to that of its head, and from its middle to the edge of the plate: common
// practice, no source; riveted-girder handbooks give the second in diameters as well.
const headOver = 1.6;
const edgeOver = 1.5;

/** Flat from edge to edge. */
export const plate: Profile = {
  id: 'plate',
  name: 'flat plate',
  needs: [],
  takes: [],
  shape: ({ depth }) => ({
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
    fillets: [],
    web: null,
    plain: null,
    rivetRows: (head) => {
      const edge = Math.max((edgeOver * head) / headOver, widestLine + head / 2);
      return depth - 2 * edge < 2 * head ? [depth / 2] : [edge, depth - edge];
    },
  }),
};
