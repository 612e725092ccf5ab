import { expect, test } from 'vitest';
import { measureMixed } from '../../fuzz/src/many/measure-mixed.js';

// A few of the 4000 that `npm run stability` measures.
test('pictures of every kind, good and bad: each has its answer, and none ends the work', async () => {
  const { ends, bugs } = await measureMixed({ files: 40, different: 40, seed: 1 });
  expect(bugs).toEqual([]);
  expect([...ends.values()].reduce((sum, count) => sum + count, 0)).toBe(40);
  expect(ends.get('measured')).toBeGreaterThan(10);
  expect(ends.get('not-a-picture')).toBeGreaterThan(0);
  expect(ends.get('damaged-picture')).toBeGreaterThan(0);
});
