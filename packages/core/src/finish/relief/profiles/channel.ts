import type { Profile } from './profile.js';
import { twoFlanges } from './two-flanges.js';

/** Two flanges on one side of a web, seen from that side. */
export const channel: Profile = {
  id: 'channel',
  name: 'channel, seen from its open side',
  needs: ['flange'],
  takes: ['width', 'web', 'root'],
  shape: (sizes) => {
    const { width, web } = sizes;
    return twoFlanges(sizes, width === null ? 0 : width - (web ?? 0));
  },
};
