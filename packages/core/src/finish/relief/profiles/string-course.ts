import { flatEdges } from './flat-edges.js';
import type { Profile } from './profile.js';

// Of its depth, how much slopes at the top and is hollowed at the foot: common practice, no source.
const [slope, hollow] = [1 / 5, 2 / 5];

/** A moulded course along a wall: its top sheds water, its foot is hollowed. */
export const stringCourse: Profile = {
  id: 'string-course',
  name: 'string course',
  needs: [],
  takes: [],
  shape: ({ depth }) => ({
    edges: flatEdges(depth),
    recesses: [],
    fillets: [
      { at: 0, to: slope * depth, faces: 'up' },
      { at: depth, to: (1 - hollow) * depth, faces: 'down' },
    ],
    ...{ web: null, plain: null, rivetRows: () => [] },
  }),
};
