import { flatEdges } from './flat-edges.js';
import type { Profile } from './profile.js';

// Of a sill's depth, how much of it slopes: common practice, no source.
const slope = 1 / 3;

/** A sill seen from the front: its top slopes towards whoever looks, its foot is undercut. */
export const sill: Profile = {
  id: 'sill',
  name: 'window sill',
  needs: [],
  takes: [],
  shape: ({ depth }) => ({
    edges: flatEdges(depth),
    recesses: [],
    fillets: [{ at: 0, to: slope * depth, faces: 'up' }],
    ...{ web: null, plain: null, rivetRows: () => [] },
  }),
};
