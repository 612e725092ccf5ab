import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildJob } from '@gaugerod/core';
import { beforeAll, expect, test } from 'vitest';
import {
  builtOf,
  drawPhotos,
  job,
  type Works,
  works as worksOf,
} from '../../../support/building.js';

let photos: Awaited<ReturnType<typeof drawPhotos>>;

beforeAll(async () => {
  photos = await drawPhotos();
});

const works = (text?: string): Works => worksOf(photos, text);

test('each thing that failed is told once, with all that is not there for it', async () => {
  const { folder } = works();
  writeFileSync(join(folder, 'pale.png'), 'no picture');
  writeFileSync(join(folder, 'red.png'), 'none either');
  const built = await buildJob(join(folder, 'works.yaml'), { jobs: 1 });
  if (built.ok) throw new Error('it was built');
  expect(built.message).toMatch(
    /^surface engine-house: .*red\.png .*\(not built: gable, front, walls; 2 others are there\)$/,
  );
  const others = built.others?.map(({ message }) => message) ?? [];
  expect(others).toHaveLength(1);
  expect(others[0]).toMatch(/^surface shed: .*pale\.png .*\(not built: side, front, walls\)$/);
  expect(readdirSync(join(folder, 'out')).sort()).toEqual(['girder.png', 'iron.pdf']);
});

// Threads begin with a file of what was built.
type Core = typeof import('@gaugerod/core');
const dist = new URL('../../../../packages/core/dist/index.js', import.meta.url);

test.each([1, 2])('a build of %i at a time stops when it is told to', async (jobs) => {
  const core = jobs === 1 ? { buildJob } : ((await import(dist.href)) as Core);
  const { folder, build } = works();
  const stopped = new AbortController();
  const reason = new Error('the lights went out');
  const heard: string[] = [];
  const building = core.buildJob(join(folder, 'works.yaml'), {
    jobs,
    signal: stopped.signal,
    onBuild: ({ step }) => {
      heard.push(step);
      if (step === 'writing') stopped.abort(reason);
    },
  });
  await expect(building).rejects.toBe(reason);
  expect(heard).toContain('writing');
  const files = ['.', '.gaugerod', 'out']
    .filter((name) => existsSync(join(folder, name)))
    .flatMap((name) => readdirSync(join(folder, name)));
  expect(files.filter((name) => name.endsWith('.tmp'))).toEqual([]);
  // It goes on where it was, and comes to the same.
  await build();
  const whole = works();
  await whole.build();
  for (const name of ['gable.png', 'front.svg', 'walls.pdf']) {
    const both = [folder, whole.folder].map((one) => readFileSync(join(one, 'out', name)));
    expect(both[0]?.equals(both[1] ?? Buffer.alloc(0)), name).toBe(true);
  }
});

test('a build that is told to stop before it begins does nothing', async () => {
  const { folder } = works();
  await expect(
    buildJob(join(folder, 'works.yaml'), { signal: AbortSignal.abort(new Error('never mind')) }),
  ).rejects.toThrow('never mind');
  expect(existsSync(join(folder, 'out'))).toBe(false);
});

test('a part that fails by itself is named among what is not there', async () => {
  const { folder, build } = works(job.replace('size: 40x30mm', 'outline: front.svg#nobody'));
  const built = await buildJob(join(folder, 'works.yaml'), { jobs: 1 });
  expect(!built.ok && built.message).toMatch(
    /^part gable: .*\(not built: gable, walls; 4 others are there\)$/,
  );
  expect(!built.ok && built.others).toBeUndefined();
  expect(builtOf(await build({ only: ['iron'] }))).toEqual([]);
});
