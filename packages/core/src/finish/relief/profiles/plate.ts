import { widestLine } from '../pens.js';
import { flatEdges } from './flat-edges.js';
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
    edges: flatEdges(depth),
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
