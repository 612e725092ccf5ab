import type { Bond } from './bond.js';

/** Courses of stretchers and of headers in turn, a header over the middle of each stretcher. */
export const english: Bond = {
  id: 'english',
  name: 'English bond',
  courses: [
    { run: ['stretcher'], shift: 0 },
    { run: ['header'], shift: 1 / 2 },
  ],
  source: 'bricklaying glossaries',
};
