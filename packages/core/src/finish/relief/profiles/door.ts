import { flatFace, rectangle } from './flat-face.js';
import { layPanes } from './panes.js';
import type { Profile } from './profile.js';

/** A door or shutter: panels sunk, or raised, between stiles and rails. */
export const door: Profile = {
  id: 'door',
  name: 'panelled door',
  needs: ['rail', 'bar'],
  takes: ['rise'],
  usual: { rail: 100, bar: 100, rise: 12 },
  shape: () => flatFace,
  figure: (given) => {
    const { sizes, length, isSunk } = given;
    const rise = sizes.rise ?? 0;
    const rule = 'nonzero';
    return {
      outline: null,
      faces: [
        { loops: [rectangle(0, 0, length, sizes.depth)], rule, rise, isSunk: false },
        { loops: layPanes(given), rule, rise, isSunk },
      ],
    };
  },
};
