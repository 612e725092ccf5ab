import { expect, test } from 'vitest';
import { createRandom } from '../../../../fixtures/src/random.js';
import { fitStand } from '../../../../packages/core/src/measure/slant/fit-stand.js';

const joints = 86;
const stretches = 60;

// A level wall whose joints below the first 15 lie to a hundredth of a course, in units of half the
// diagonal of a picture of 4 by 3.
function placeLevel(noiseAtTop: number, seed: number) {
  const random = createRandom(seed);
  const size = joints * stretches;
  const [u, v, k] = [new Float64Array(size), new Float64Array(size), new Float64Array(size)];
  for (let s = 0; s < stretches; s++) {
    for (let joint = 0; joint < joints; joint++) {
      const i = s * joints + joint;
      const off = joint < 15 ? noiseAtTop * random.bell() : 0.012 * random.bell();
      u[i] = 0.8 * ((2 * s) / (stretches - 1) - 1);
      v[i] = 0.6 * ((2 * (joint + off)) / (joints - 1) - 1);
      k[i] = joint;
    }
  }
  return { u, v, k, weight: new Float64Array(size).fill(1) };
}

test.each([1, 2, 3, 4])('noisy joints at the top do not lay a level wall back, seed %d', (seed) => {
  const from = { slope: 0, across: 0, down: 0, focal: 1.5, ahead: { u: 0, v: 0 } };
  const camera = { focalSpread: 0.3, aheadSpread: 0.2 };
  const fit = fitStand(placeLevel(0.12, seed), { from, perpends: [], ...camera });
  expect(Math.abs(fit.stand.down)).toBeLessThan(0.01);
  expect(Math.abs(fit.stand.across)).toBeLessThan(0.001);
});
