import { expect, test } from 'vitest';
import {
  edgesFacing,
  isInside,
  pastSides,
} from '../../../packages/core/src/fill/outline/edges-facing.js';

const wall = Float64Array.of(0, 0, 40, 0, 40, 30, 0, 30);
const window = Float64Array.of(10, 8, 20, 8, 20, 18, 10, 18);
const turned = Float64Array.of(10, 8, 10, 18, 20, 18, 20, 8);

const levelsOf = (...args: Parameters<typeof edgesFacing>): number[] =>
  (edgesFacing(...args) ?? []).map(({ from, to }) => (from.y + to.y) / 2).sort((a, b) => a - b);

test.each([
  ['evenodd', window],
  ['evenodd', turned],
  ['nonzero', turned],
] as const)(
  'a wall has its top and its sills above it, its foot and lintels below: %s',
  (rule, hole) => {
    expect(levelsOf({ loops: [wall, hole], rule }, 'up')).toEqual([0, 18]);
    expect(levelsOf({ loops: [wall, hole], rule }, 'down')).toEqual([8, 30]);
  },
);

test('a loop that winds the same way is no hole', () => {
  expect(levelsOf({ loops: [wall, window], rule: 'nonzero' }, 'up')).toEqual([0]);
  expect(isInside({ loops: [wall, window], rule: 'nonzero' }, { x: 15, y: 12 })).toBe(true);
  expect(isInside({ loops: [wall, window], rule: 'evenodd' }, { x: 15, y: 12 })).toBe(false);
});

test('slopes of a gable count, its steep edges do not', () => {
  const gable = Float64Array.of(0, 20, 20, 0, 40, 20, 41, 50, -1, 50);
  const up = edgesFacing({ loops: [gable], rule: 'nonzero' }, 'up') ?? [];
  expect(up.map(({ from, to }) => [from.x, to.x])).toEqual([
    [0, 20],
    [20, 40],
  ]);
});

test('edges that cancel are none: two halves of a wall have no ledge between', () => {
  const lower = Float64Array.of(0, 15, 40, 15, 40, 30, 0, 30);
  const upper = Float64Array.of(0, 0, 40, 0, 40, 15, 0, 15);
  for (const rule of ['evenodd', 'nonzero'] as const) {
    expect(levelsOf({ loops: [upper, lower], rule }, 'up')).toEqual([0]);
  }
});

test('of an outline of very many edges nothing is told', () => {
  const round = Float64Array.from({ length: 10_000 }, (_, i) =>
    i % 2 === 0 ? Math.cos(i / 1000) : Math.sin(i / 1000),
  );
  expect(edgesFacing({ loops: [round], rule: 'nonzero' }, 'up')).toBeNull();
});

test('a level top goes on past the sides of a part, a slope and a sill do not', () => {
  const gable = Float64Array.of(0, 9, 10, 0, 20, 9, 40, 9, 40, 30, 0, 30);
  const edges = edgesFacing({ loops: [gable, window.map((at) => at + 2)], rule: 'evenodd' }, 'up');
  const ends = pastSides(edges ?? [], { x0: 0, x1: 40 }).map(({ from, to }) => [from.x, to.x]);
  expect(ends).toEqual([
    [0, 10],
    [10, 20],
    [20, 1_000_040],
    [22, 12],
  ]);
});
