import type { Bond } from './bond.js';

/** As English, with every other stretcher course half a stretcher on. */
export const englishCross: Bond = {
  id: 'english-cross',
  name: 'English cross bond',
  courses: [
    { run: ['stretcher'], shift: 0 },
    { run: ['header'], shift: 1 / 2 },
    { run: ['stretcher'], shift: 1 / 2 },
    { run: ['header'], shift: 1 / 2 },
  ],
  source: 'bricklaying glossaries',
};
