import { expect, test } from 'vitest';
import { outlinesTouch } from '../../../packages/core/src/fill/outline/outlines-touch.js';
import type { PartOutline } from '../../../packages/core/src/fill/outline/part-outline.js';

const shape = (...loops: number[][]): PartOutline => ({
  loops: loops.map((loop) => Float64Array.from(loop)),
  rule: 'evenodd',
});
const rectangle = (x: number, y: number, w: number, h: number): number[] => [
  ...[x, y, x + w, y],
  ...[x + w, y + h, x, y + h],
];
const arms = shape([0, 0, 10, 0, 10, 30, 40, 30, 40, 40, 0, 40]);

// By hand.
test.each([
  ['side by side, a hair between', shape(rectangle(10.2, 5, 5, 5)), true],
  ['0.5 mm off', shape(rectangle(10.5, 5, 5, 5)), false],
  ['in the corner of its arms, touching neither', shape(rectangle(14, 4, 12, 12)), false],
  ['corner to corner', shape(rectangle(40, 40, 5, 5)), true],
  ['within it', shape(rectangle(2, 2, 3, 3)), true],
  ['all round it', shape(rectangle(-5, -5, 100, 100)), true],
  [
    'in a frame that does not reach it',
    shape(rectangle(-5, -5, 60, 60), rectangle(-2, -2, 50, 50)),
    false,
  ],
  ['across an arm, no corner of either within', shape(rectangle(-5, 10, 30, 2)), true],
  ['far off', shape(rectangle(400, 0, 5, 5)), false],
] as const)('outlines: %s', (_, other, touch) => {
  expect(outlinesTouch(arms, other, 0.3)).toBe(touch);
  expect(outlinesTouch(other, arms, 0.3)).toBe(touch);
});

// A coping that steps down, its end far below its start; by hand.
test.each([
  ['closed', false, true],
  ['open', true, false],
] as const)('a line that is %s is not joined from its end to its start', (_, isOpen, touch) => {
  const coping = { ...shape([5, 20, 25, 20, 25, 19, 70, 19, 70, 40]), isOpen };
  const wall = shape(rectangle(5, 23, 60, 20));
  expect(outlinesTouch(coping, wall, 0.3)).toBe(touch);
  expect(outlinesTouch(wall, coping, 0.3)).toBe(touch);
  const within = shape(rectangle(40, 24, 5, 2));
  expect(outlinesTouch(coping, within, 0.3)).toBe(touch);
  expect(outlinesTouch(within, coping, 0.3)).toBe(touch);
  expect(outlinesTouch(shape(rectangle(30, 19.2, 9, 9)), coping, 0.3)).toBe(true);
});
