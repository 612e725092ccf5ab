import type { Bond } from './bond.js';

/** Headers and stretchers in turn along each course, a header over the middle of each stretcher. */
export const flemish: Bond = {
  id: 'flemish',
  name: 'Flemish bond',
  courses: [
    { run: ['stretcher', 'header'], shift: 0 },
    { run: ['stretcher', 'header'], shift: 1 / 2 },
  ],
  source: 'bricklaying glossaries',
};
