import { type Lattice, px, type Warning } from '@gaugerod/core';
import { expect, test } from 'vitest';
import type { KnownSource } from '../../../packages/core/src/job/open/open-source.js';
import { sameWork } from '../../../packages/core/src/job/extend/same-work.js';

// UK metric bricks (BS EN 771-1, work size 215 x 102.5 x 65 mm and 10 mm joints) at 3 mm a pixel.
const metric: Lattice = {
  axis: 'y',
  course: px(25),
  courseOffset: 0,
  brick: px(75),
  repeat: { x: px(75), y: px(50) },
  bond: 'stretcher',
};

function source(path: string, lattice: Partial<Lattice>): KnownSource {
  const size = { width: 400, height: 300, meets: { x: false, y: false } };
  return { path, sha256: path, ...size, measurement: null, lattice: { ...metric, ...lattice } };
}

test('a bond that is lent to a photo is told to be lent, and from where', () => {
  const repeat = { x: null, y: null };
  const agreed = sameWork([source('near.jpg', { bond: null, repeat }), source('wide.jpg', {})]);
  if (!agreed.ok) throw new Error(agreed.message);
  const told = agreed.value.map(({ lattice, bondFrom }) => [lattice?.bond, bondFrom]);
  expect(told).toEqual([
    ['stretcher', 'wide.jpg'],
    ['stretcher', null],
  ]);
  expect(agreed.value[0]?.lattice?.repeat).toEqual(metric.repeat);
});

function warnings(...sources: readonly KnownSource[]): readonly Warning[] {
  const agreed = sameWork(sources);
  if (!agreed.ok) throw new Error(agreed.message);
  return agreed.warnings;
}

test('bricks of two lengths are warned of, though their courses are as high', () => {
  // DIN 4172: with joints a brick is 250 mm long and its course, of format 2DF, 125 mm or two to a brick.
  const twoDf = source('two-df.jpg', { brick: px(50) });
  expect(warnings(source('metric.jpg', {}), twoDf)).toEqual([
    {
      code: 'bricks-differ',
      message:
        'the bricks of metric.jpg are 3.0 courses long, those of two-df.jpg 2.0: join photos of the same wall only',
    },
  ]);
  // Old bricks of 9 x 3 in, joints included, are as many courses long as new ones of 225 x 75 mm.
  expect(warnings(source('a.jpg', {}), source('b.jpg', { brick: px(76) }))).toEqual([]);
});
