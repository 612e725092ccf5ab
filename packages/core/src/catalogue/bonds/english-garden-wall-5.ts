import type { Bond } from './bond.js';

/** Five stretcher courses to one of headers. */
export const englishGardenWall5: Bond = {
  id: 'english-garden-wall-5',
  name: 'English garden-wall bond, 5 to 1',
  courses: [
    { run: ['header'], shift: 1 / 2 },
    { run: ['stretcher'], shift: 0 },
    { run: ['stretcher'], shift: 1 / 2 },
    { run: ['stretcher'], shift: 0 },
    { run: ['stretcher'], shift: 1 / 2 },
    { run: ['stretcher'], shift: 0 },
  ],
  source: 'bricklaying glossaries',
};
