import type { Bond } from './bond.js';

/** Three stretcher courses to one of headers. */
export const englishGardenWall3: Bond = {
  id: 'english-garden-wall-3',
  name: 'English garden-wall bond, 3 to 1',
  courses: [
    { run: ['header'], shift: 1 / 2 },
    { run: ['stretcher'], shift: 0 },
    { run: ['stretcher'], shift: 1 / 2 },
    { run: ['stretcher'], shift: 0 },
  ],
  source: 'bricklaying glossaries',
};
