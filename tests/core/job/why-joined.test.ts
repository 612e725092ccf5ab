import { expect, test } from 'vitest';
import { whyJoined } from '../../../packages/core/src/job/mend/why-joined.js';

const joins = { x: null, y: null };
const longer = { x: { length: 812, seamScore: 1.6 }, y: null };

test.each([
  [0.7, true, 'side by side a tile of 812 px would show a seam (score 1.6)'],
  [1.28, false, 'side by side a tile of 812 px would show more of a seam (score 1.6 against 1.3)'],
])('a tile of score %f is held against a longer one', (seamScore, seamless, words) => {
  const seam = { seamScore, seamless };
  expect(whyJoined(joins, longer, { x: seam, y: seam })).toBe(words);
});
