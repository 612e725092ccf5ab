import type { Profile } from './profile.js';
import { twoFlanges } from './two-flanges.js';

/** A web between two flanges: beams, joists, columns. */
export const i: Profile = {
  id: 'i',
  name: 'I-section',
  needs: ['flange'],
  takes: ['width', 'web', 'root'],
  shape: (sizes) => {
    const { width, web } = sizes;
    return twoFlanges(sizes, width === null ? 0 : (width - (web ?? 0)) / 2);
  },
};
