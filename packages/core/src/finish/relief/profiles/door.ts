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
    const [whole, panels] = [rectangle(0, 0, length, sizes.depth), layPanes(given)];
    const stands = { out: rise, isCutOut: false };
    return {
      outline: null,
      faces: [
        { loops: [whole], rule, rise, isSunk: false },
        { loops: panels, rule, rise, isSunk },
      ],
      stands: isSunk
        ? [
            {
              ...{ ...stands, name: 'stiles and rails', isWhole: false },
              ...{ loops: [whole, ...panels], rule: 'evenodd' as const },
            },
          ]
        : [
            { ...stands, name: 'door', isWhole: true, loops: [whole], rule },
            { ...stands, name: 'panels', isWhole: false, loops: panels, rule },
          ],
    };
  },
};
