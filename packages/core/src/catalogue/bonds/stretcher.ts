import type { Bond } from './bond.js';

/** Stretchers, each half over the next: half lap. */
export const stretcher: Bond = {
  id: 'stretcher',
  name: 'stretcher bond',
  courses: [
    { run: ['stretcher'], shift: 0 },
    { run: ['stretcher'], shift: 1 / 2 },
  ],
  source: 'bricklaying glossaries',
};
