import { type Rectification, toLevelPoint, toPhotoPoint } from '@gaugerod/core';
import { expect, test } from 'vitest';

// Worked by hand. Half the diagonal of an 8 x 6 picture is 5 px, so a lens of 0.1 moves what is r px
// from the middle, (4, 3), outwards by 0.1 (r / 5)^2 of r: the first term of Brown's model
// (D. C. Brown 1966, Decentering distortion of lenses, Photogrammetric Engineering 32).
const size = { width: 8, height: 6 };
const level = [1, 0, 0, 0, 1, 0, 0, 0, 1] as const;
const slanted = [2, 0, 1, 0, 2, -1, 0.1, 0, 1] as const;

const worked: readonly {
  readonly name: string;
  readonly how: Rectification;
  readonly photo: readonly [number, number];
  readonly straight: readonly [number, number];
}[] = [
  { name: 'the middle', how: { matrix: level, lens: 0.1 }, photo: [4, 3], straight: [4, 3] },
  // (4, 3) from the middle, r = 5: 1.1 times as far.
  { name: 'a corner', how: { matrix: level, lens: 0.1 }, photo: [8, 6], straight: [8.4, 6.3] },
  // r = 2: 1 + 0.1 x 4 / 25 = 1.016 times as far.
  { name: 'near it', how: { matrix: level, lens: 0.1 }, photo: [6, 3], straight: [6.032, 3] },
  // Bent inwards: 0.8 times as far.
  { name: 'a barrel', how: { matrix: level, lens: -0.2 }, photo: [0, 0], straight: [0.8, 0.6] },
  // (2 x 6 + 1, 2 x 4 - 1) / (0.1 x 6 + 1) = (13, 7) / 1.6.
  { name: 'a slant', how: { matrix: slanted, lens: 0 }, photo: [6, 4], straight: [8.125, 4.375] },
  // First the lens, (8.4, 6.3), then (2 x 8.4 + 1, 2 x 6.3 - 1) / 1.84.
  {
    name: 'a slant behind a lens',
    how: { matrix: slanted, lens: 0.1 },
    photo: [8, 6],
    straight: [17.8 / 1.84, 11.6 / 1.84],
  },
];

test.each(worked)('$name goes to its place and back', ({ how, photo, straight }) => {
  const there = toLevelPoint(how, size, { x: photo[0], y: photo[1] });
  expect(there.x).toBeCloseTo(straight[0], 9);
  expect(there.y).toBeCloseTo(straight[1], 9);
  const back = toPhotoPoint(how, size, { x: straight[0], y: straight[1] });
  expect(back.x).toBeCloseTo(photo[0], 9);
  expect(back.y).toBeCloseTo(photo[1], 9);
});
