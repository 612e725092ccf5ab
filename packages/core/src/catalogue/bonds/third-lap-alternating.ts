import type { Bond } from './bond.js';

/** Stretchers, every other course a third on. */
export const thirdLapAlternating: Bond = {
  id: 'third-lap-alternating',
  name: 'third-lap bond, alternating',
  courses: [
    { run: ['stretcher'], shift: 0 },
    { run: ['stretcher'], shift: 1 / 3 },
  ],
  source: 'bricklaying glossaries',
};
