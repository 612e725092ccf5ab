import { box } from './box.js';
import type { Profile } from './profile.js';

/** A timber of square edges, or with rounded or chamfered ones. */
export const beam: Profile = { ...box, id: 'beam', name: 'timber beam' };
