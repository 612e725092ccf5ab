import type { Bond } from './bond.js';

/** Headers, each half over the next. */
export const header: Bond = {
  id: 'header',
  name: 'header bond',
  courses: [
    { run: ['header'], shift: 0 },
    { run: ['header'], shift: 1 / 2 },
  ],
  source: 'bricklaying glossaries',
};
