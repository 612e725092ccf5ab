import { expect, test } from 'vitest';
import { warnOfLeft } from '../../../packages/core/src/job/dress/report-dress.js';
import type { LeftOutline } from '../../../packages/core/src/job/dress/dress-plan.js';
import { readDrawing } from '../../../packages/core/src/drawing/read-drawing.js';

// As many as a drawing may show: by a copy of all names, or a look through the text, for each of them
// this would take minutes.
test('many outlines without ids that are left are told of at once', () => {
  const count = 100_000;
  const path = '<path d="M0 0L1 1"/>\n';
  const drawing = readDrawing(
    `<svg xmlns="http://www.w3.org/2000/svg">\n${path.repeat(count)}</svg>`,
  );
  const left = drawing.elements
    .filter(({ name }) => name === 'path')
    .map((element) => ({
      matched: { outline: { element, holders: [element] }, isOwn: false },
      why: 'has no area',
    })) as unknown as LeftOutline[];
  const start = process.cpuUsage();
  const warnings = warnOfLeft(left, drawing);
  const { user } = process.cpuUsage(start);
  expect(warnings.map(({ message }) => message)).toEqual([
    'path on line 2, path on line 3, path on line 4 and 99997 more are left as they are: each has no area',
  ]);
  expect(user / 1e6).toBeLessThan(2);
});
