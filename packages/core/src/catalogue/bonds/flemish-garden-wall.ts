import type { Bond } from './bond.js';

/** Three stretchers to one header along each course, the header over the middle one. */
export const flemishGardenWall: Bond = {
  id: 'flemish-garden-wall',
  name: 'Flemish garden-wall bond',
  courses: [
    { run: ['stretcher', 'stretcher', 'stretcher', 'header'], shift: 0 },
    { run: ['stretcher', 'stretcher', 'stretcher', 'header'], shift: 1 / 2 },
  ],
  source: 'bricklaying glossaries',
};
