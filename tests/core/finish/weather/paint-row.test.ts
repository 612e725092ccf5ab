import { expect, test } from 'vitest';
import { paintRow } from '../../../../packages/core/src/finish/weather/paint-row.js';

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
  paintRow(out, {
    picture: {
      planes: [flat(200 / 255), flat(200 / 255), flat(200 / 255)],
      joints: flat(0),
      bricks: {
        labels: new Int32Array(dots).fill(1),
        joints: flat(0),
        x: new Int32Array(2),
        y: new Int32Array(2),
      },
      width: dots,
      height: 1,
      copies: { x: { starts: [0], period: dots }, y: { starts: [0], period: 1 } },
      mmPerDot: { x: 6, y: 6 },
      origin: { x: 0, y: 0 },
    },
    veil: [
      ...[-0.5, -0.5, -0.5],
      ...[50, 50, 50].map((level) => level / 255),
      ...Array<number>(6).fill(0),
      coat,
    ].map(flat),
    runs: [{ at: 0, end: dots, shares: Float32Array.of(1, 0.25) }],
    grain: flat(0.4),
  });
  for (const colour of out) expect(255 * colour).toBeCloseTo(level, 4);
});
