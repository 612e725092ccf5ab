import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  findCourse,
  type MeasuredPhoto,
  type Measurement,
  measurePhoto,
  readPhoto,
  type Rectification,
  writeSidecar,
} from '@gaugerod/core';
import { beforeEach, expect, test } from 'vitest';
import { pngFile } from '../../support/picture-files.js';
import { tempFolder } from '../../support/temp-folder.js';

let wall = '';
beforeEach(() => {
  wall = join(tempFolder(), 'wall.png');
  writeFileSync(wall, pngFile({ width: 60, height: 40 }));
});

// Turned by 4 degrees about the photo's middle, (30, 20): the same everywhere.
const [c, s] = [Math.cos(Math.PI / 45), Math.sin(Math.PI / 45)];
const turn: Rectification = {
  matrix: [c, -s, 30 - 30 * c + 20 * s, s, c, 20 - 30 * s - 20 * c, 0, 0, 1],
  lens: 0,
};
// (u, v) -> (u, v) / (1 - 0.001 u) from the middle: there areas grow by 1 / (1 - 0.001 u) ^ 3, so
// that at 30 px the scale is off by 1 / 0.97 ^ 1.5 - 1 = 4.7 %.
const aside: Rectification = {
  matrix: [0.97, 0, 0.9, -0.02, 1, 0.6, -0.001, 0, 1.03],
  lens: 0,
};

const kept = {
  method: 'courses',
  reference: findCourse('75mm'),
  mmPerPx: { x: 3, y: 3 },
  uncertaintyPercent: 3.04,
  budget: [
    { source: 'fit', percent: 0.25 },
    { source: 'perspective', percent: 1.5 },
  ],
  confidence: 0.95,
  rectification: turn,
  lattice: null,
} as const satisfies Measurement;

async function measured(
  measurement: Measurement,
  straighten: 'level' | 'none',
): Promise<MeasuredPhoto> {
  await writeSidecar(await readPhoto(wall), { measurement, licence: null, credit: null });
  const outcome = await measurePhoto(wall, { straighten });
  if (!outcome.ok || outcome.value.method === 'formats') throw new Error('expected a measurement');
  return outcome.value;
}

test.each(['level', 'none'] as const)(
  'a turn that is kept or taken back (%s) makes a measurement no surer than it was',
  async (straighten) => {
    // 2 x hypot(0.25, 1.5) = 3.04 (JCGM 100:2008, equations 10 and 12).
    const { uncertaintyPercent, budget } = await measured(kept, straighten);
    expect(uncertaintyPercent).toBeCloseTo(3.04, 2);
    expect(budget.find(({ source }) => source === 'perspective')?.percent).toBeCloseTo(1.5, 2);
  },
);

test.each(['level', 'none'] as const)(
  'nor does it where a file tells only the whole of its uncertainty (%s)',
  async (straighten) => {
    const { uncertaintyPercent } = await measured({ ...kept, budget: [] }, straighten);
    expect(uncertaintyPercent).toBeCloseTo(3.04, 2);
  },
);

test('perspective that is left in comes on top of what was there', async () => {
  // 4.7 % / sqrt(3) = 2.7 %, with 1.5 % and 0.25 %: 2 x 3.1 %.
  for (const budget of [kept.budget, []]) {
    const { uncertaintyPercent } = await measured(
      { ...kept, budget, rectification: aside },
      'none',
    );
    expect(Math.abs(uncertaintyPercent - 6.2)).toBeLessThan(0.4);
  }
});
