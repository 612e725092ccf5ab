import { expect, test } from 'vitest';
import {
  openPainter,
  type PaintedRun,
  type RowsToPaint,
} from '../../../../packages/core/src/finish/weather/paint-row.js';
import { coatAt, veilStep } from '../../../../packages/core/src/finish/weather/veil.js';

const size: RowsToPaint = {
  width: 4,
  from: 0,
  wanted: 4,
  bare: false,
  places: 4,
  pixels: 4,
  isToned: false,
  bricks: 2,
  faded: [0, 0, 0],
};
const all: readonly PaintedRun[] = [{ from: 0, to: 4, pixel: 0, brick: 0 }];
// What is added begins after the coat, and joints half way.
const [addAt, joints] = [coatAt + 1, veilStep / 2];

// Level 200 half covered with level 100, which is 150, as far as a dot takes it. Its grain takes 0.4 and its
// brick 0.25 of that, 0.1 together; a coat adds its share of the 0.9 that is left.
test.each([
  [0, 195],
  [0.5, 172.5],
  [0.9, 154.5],
  [1, 150],
])('through a coat of %d grain and brick show less: level %d', (coat, level) => {
  const { picture, shares, grain, rows, painted, paint } = openPainter(size);
  for (const row of rows) {
    for (const place of [0, veilStep]) {
      row.set([-0.5, -0.5, -0.5], place);
      row[place + coatAt] = coat;
      row.set([50 / 255, 50 / 255, 50 / 255], place + addAt);
    }
  }
  picture.dots.forEach((_, i) => (picture.dots[i] = i % 4 === 3 ? 0 : 200 / 255));
  picture.labels.fill(1);
  shares.set([1, 0.25]);
  grain.fill(0.4);
  paint(picture, all, { above: rows[0], below: rows[1], share: 0 });
  for (const colour of painted) expect(255 * colour).toBeCloseTo(level, 4);
});

test('of what is joint as much lies on top as joints differ by, and no more', () => {
  // Level 200, half of it left; where there is a joint a quarter more goes, as far as it is one.
  const { picture, shares, grain, rows, painted, paint } = openPainter({ ...size, bare: true });
  const joint = [0, 1, 0.5, 0];
  for (const row of rows) {
    for (const place of [0, veilStep]) {
      row.set([-0.5, -0.5, -0.5], place);
      row.set([-0.25, -0.25, -0.25], place + joints);
    }
  }
  picture.dots.forEach((_, i) => {
    picture.dots[i] = i % 4 === 3 ? (joint[Math.floor(i / 4)] ?? 0) : 200 / 255;
  });
  shares.fill(1);
  grain.fill(1);
  paint(picture, all, { above: rows[0], below: rows[1], share: 0 });
  expect([...painted]).toEqual([100, 50, 75, 100].flatMap((level) => [level, level, level]));
});

test('between four places lies as much of each as is near', () => {
  // Multiplied by 1 at one place, 0.6 to its right, 0.8 below it and 0 below and to the right: bilinear, as any handbook
  // of pictures has it, a quarter of the way down and none, one, two and three quarters across.
  const { picture, shares, grain, rows, painted, paint } = openPainter(size);
  const [above, below] = rows;
  above.set([-0.4, -0.4, -0.4], veilStep);
  below.set([-0.2, -0.2, -0.2], 0);
  below.set([-1, -1, -1], veilStep);
  picture.dots.forEach((_, i) => (picture.dots[i] = i % 4 === 3 ? 0 : 1));
  shares.fill(1);
  grain.fill(1);
  paint(picture, all, { above, below, share: 0.25 });
  const red = [0, 3, 6, 9].map((at) => painted[at]);
  [0.95, 0.825, 0.7, 0.575].forEach((level, x) => {
    expect(red[x]).toBeCloseTo(level, 6);
  });
});

test('each copy shows its pixels, with its own bricks, and only what is wanted is told', () => {
  // Of 3 pixels at levels 100, 150 and 200, each halved as far as its copy takes it: the first copy all of it, the other
  // none. Of eight dots the first is not wanted.
  const { picture, shares, grain, rows, painted, paint } = openPainter({
    ...size,
    width: 8,
    from: 1,
    wanted: 6,
    bare: true,
    pixels: 3,
  });
  for (const row of rows)
    for (let at = 0; at < row.length; at += veilStep) row.fill(-0.5, at, at + 3);
  [100, 150, 200].forEach((level, x) => picture.dots.fill(level / 255, 4 * x, 4 * x + 3));
  shares.set([1, 0]);
  grain.fill(1);
  const runs = [
    { from: 0, to: 2, pixel: 1, brick: 0 },
    { from: 2, to: 4, pixel: 0, brick: 0 },
    { from: 4, to: 7, pixel: 0, brick: 1 },
  ];
  paint(picture, runs, { above: rows[0], below: rows[1], share: 0.5 });
  const levels = [100, 50, 75, 100, 150, 200];
  expect([...painted]).toEqual(levels.flatMap((level) => [level, level, level]));
});

test('bytes are what colours are rounded to, however near a half', () => {
  // The nearest that single precision holds to every half between two bytes, and those beside it; past 0 and 1 too.
  const colours = [-0.01, 1.01];
  for (let byte = 0; byte < 255; byte++) {
    const half = Math.fround((byte + 0.5) / 255);
    for (const way of [-1, 0, 1]) colours.push(Math.fround(half + way * half * 2 ** -24));
  }
  const width = 4 * Math.ceil(colours.length / 4);
  const { picture, painted, paint, rows } = openPainter({
    ...size,
    width,
    wanted: colours.length,
    pixels: width,
    bare: true,
  });
  colours.forEach((colour, x) => picture.dots.fill(colour, 4 * x, 4 * x + 3));
  paint(picture, [{ from: 0, to: width, pixel: 0, brick: 0 }], {
    above: rows[0],
    below: rows[1],
    share: 0,
  });
  // 255 times such a number is exact in double precision, and clipped to 0 and 255.
  const expected = colours.map((colour) =>
    Math.min(255, Math.max(0, Math.floor(255 * colour + 0.5))),
  );
  expect([...painted].filter((_, i) => i % 3 === 0)).toEqual(expected);
});
