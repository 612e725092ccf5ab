import { flatFace, rectangle } from './flat-face.js';
import { layPanes } from './panes.js';
import type { Profile } from './profile.js';

/** A window's frame with its glazing bars; its panes are left open. */
export const frame: Profile = {
  id: 'frame',
  name: 'window frame',
  needs: ['rail', 'bar'],
  takes: ['rise'],
  usual: { rail: 75, bar: 25, rise: 25 },
  shape: () => flatFace,
  figure: (given) => {
    const { sizes, length } = given;
    const loops = [rectangle(0, 0, length, sizes.depth), ...layPanes(given)];
    const area = { loops, rule: 'evenodd' as const };
    const rise = sizes.rise ?? 0;
    return {
      outline: area,
      faces: [{ ...area, isSunk: false, rise }],
      stands: [{ ...area, name: 'frame', out: rise, isWhole: true, isCutOut: false }],
    };
  },
};
