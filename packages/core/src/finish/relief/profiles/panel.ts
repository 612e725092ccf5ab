import { flatFace, rectangle } from './flat-face.js';
import type { Profile } from './profile.js';

/** A panel of any outline, raised or sunk. */
export const panel: Profile = {
  id: 'panel',
  name: 'panel',
  needs: [],
  takes: ['rise'],
  usual: { rise: 25 },
  shape: () => flatFace,
  figure: ({ sizes, length, shape, isSunk }) => {
    const area = shape ?? {
      loops: [rectangle(0, 0, length, sizes.depth)],
      rule: 'nonzero' as const,
    };
    const rise = sizes.rise ?? 0;
    const name = isSunk ? 'front' : 'panel';
    return {
      outline: shape,
      faces: [{ ...area, isSunk, rise }],
      stands: [{ ...area, name, out: rise, isWhole: true, isCutOut: isSunk }],
    };
  },
};
