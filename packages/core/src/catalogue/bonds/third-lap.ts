import type { Bond } from './bond.js';

/** Stretchers, each course a third on from the last, the same way. */
export const thirdLap: Bond = {
  id: 'third-lap',
  name: 'third-lap bond, raking',
  courses: [
    { run: ['stretcher'], shift: 0 },
    { run: ['stretcher'], shift: 1 / 3 },
    { run: ['stretcher'], shift: 2 / 3 },
  ],
  source: 'bricklaying glossaries',
};
