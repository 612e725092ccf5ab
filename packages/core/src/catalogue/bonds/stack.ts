import type { Bond } from './bond.js';

/** Every perpend above the other. */
export const stack: Bond = {
  id: 'stack',
  name: 'stack bond',
  courses: [{ run: ['stretcher'], shift: 0 }],
  source: 'bricklaying glossaries',
};
