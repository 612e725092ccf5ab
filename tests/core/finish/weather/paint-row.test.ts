import { expect, test } from 'vitest';
import { paintRow } from '../../../../packages/core/src/finish/weather/paint-row.js';
import { veilStep } from '../../../../packages/core/src/finish/weather/veil.js';

// Level 200 half covered with level 100, which is 150, as far as a dot takes it. Its grain takes 0.4 and its
// brick 0.25 of that, 0.1 together; a coat adds its share of the 0.9 that is left.
test.each([
  [0, 195],
  [0.5, 172.5],
  [0.9, 154.5],
  [1, 150],
])('through a coat of %d grain and brick show less: level %d', (coat, level) => {
  const dots = 4;
  const flat = (value: number): Float32Array => new Float32Array(dots).fill(value);
  const out = new Float32Array(3 * dots);
  const bricks = new Float32Array((veilStep * dots) / 2);
  for (let i = 0; i < bricks.length; i += veilStep) {
    bricks.set([-0.5, -0.5, -0.5, 50 / 255, 50 / 255, 50 / 255, coat], i);
  }
  paintRow(out, {
    picture: {
      dots: Float32Array.from({ length: 4 * dots }, (_, i) => (i % 4 === 3 ? 0 : 200 / 255)),
      labels: new Int32Array(dots).fill(1),
    },
    veil: { bricks, joints: new Float32Array(veilStep) },
    places: 4,
    line: 0,
    columns: Int32Array.of(0, 1, 2, 3),
    firsts: new Int32Array(dots),
    shares: Float32Array.of(1, 0.25),
    grain: flat(0.4),
  });
  for (const colour of out) expect(255 * colour).toBeCloseTo(level, 4);
});

test('of what is joint as much lies on top as joints differ by, and no more', () => {
  // Level 200, half of it left; where there is a joint a quarter more goes, as far as it is one.
  const out = new Float32Array(12);
  const bricks = new Float32Array(2 * veilStep);
  bricks.set([-0.5, -0.5, -0.5]);
  bricks.set([-0.5, -0.5, -0.5], veilStep);
  const joint = [0, 1, 0.5, 0];
  paintRow(out, {
    picture: {
      dots: Float32Array.from({ length: 16 }, (_, i) =>
        i % 4 === 3 ? (joint[Math.floor(i / 4)] ?? 0) : 200 / 255,
      ),
      labels: new Int32Array(4),
    },
    veil: { bricks, joints: Float32Array.of(-0.25, -0.25, -0.25, 0, 0, 0, 0, 0) },
    places: 4,
    line: 0,
    columns: Int32Array.of(0, 1, 2, 3),
    firsts: new Int32Array(4),
    shares: Float32Array.of(1),
    grain: new Float32Array(4).fill(1),
  });
  const levels = [0, 3, 6, 9].map((at) => 255 * (out[at] ?? NaN));
  expect(levels.map((level) => Math.round(level))).toEqual([100, 50, 75, 100]);
});
