import { applyHomography, type PlacePair, solveHomography } from '@gaugerod/core';
import { expect, test } from 'vitest';

const pairs = (numbers: readonly (readonly [number, number, number, number])[]): PlacePair[] =>
  numbers.map(([x, y, u, v]) => ({ from: { x, y }, to: { x: u, y: v } }));

test('four points give the nine numbers that three other programs give', () => {
  // OpenCV 4.6, scikit-image 0.19 and ml-matrix 6.15, to nine decimals.
  const published = [
    0.940155569, 0.058759723, -98.716334697, -0.128984758, 0.902893305, -59.332988625, -0.000212961,
    -0.000028195, 1,
  ];
  const map = solveHomography(
    pairs([
      [100, 80, 0, 0],
      [520, 140, 450, 0],
      [500, 430, 450, 300],
      [80, 400, 0, 300],
    ]),
  );
  for (const [i, value] of published.entries()) expect(map[i]).toBeCloseTo(value, 8);
  // The same tables: the middle of the upper edge stays on the edge, but not in its middle.
  for (const [x, y, u, v] of [
    [300, 250, 213.139747, 137.444825],
    [310, 110, 213.986014, 0],
    [290, 415, 214.037123, 300],
  ] as const) {
    const at = applyHomography(map, x, y);
    expect([at.x, at.y]).toEqual([expect.closeTo(u, 5), expect.closeTo(v, 5)]);
  }
});

test('the unit square goes where hand calculation says', () => {
  const map = solveHomography(
    pairs([
      [0, 0, 0, 0],
      [1, 0, 1, 0],
      [1, 1, 1.5, 2],
      [0, 1, 0.25, 1],
    ]),
  );
  [0.5, 0.25, 0, 0, 1, 0, -0.5, 0, 1].forEach((value, i) => {
    expect(map[i]).toBeCloseTo(value, 12);
  });
  const at = applyHomography(map, 0.5, 0.5);
  expect([at.x, at.y]).toEqual([expect.closeTo(0.5, 12), expect.closeTo(2 / 3, 12)]);
});

test('any four points and their images give back a published homography of two photos', () => {
  // OpenCV's sample data, H1to3p.xml: a painted wall seen twice, 800 x 640, from the first picture
  // to the third.
  const published = [
    0.76285898, -0.29922929, 225.67123, 0.33443473, 1.0143901, -76.999973, 0.00034663091,
    -1.4364524e-5, 1,
  ] as const;
  // Where it takes the corners of two quadrilaterals: worked apart from the code, to twenty digits.
  for (const mapped of [
    [
      [0, 0, 225.67123, -76.999973],
      [800, 0, 654.470617445331, 149.179602034637],
      [800, 640, 508.1979799349, 662.211106520633],
      [0, 640, 34.481482856349, 577.518993684956],
    ],
    [
      [120, 60, 287.547631625111, 23.05642396681],
      [700, 130, 580.905599024653, 232.898975184927],
      [640, 590, 442.862660159685, 606.187060185485],
      [60, 410, 146.573582340217, 353.693054353365],
    ],
  ] as const) {
    const map = solveHomography(pairs(mapped));
    for (const [i, value] of published.entries()) expect(map[i]! / value).toBeCloseTo(1, 8);
  }
});

test('a parallelogram is seen without perspective', () => {
  const map = solveHomography(
    pairs([
      [10, 10, 0, 0],
      [110, 30, 1, 0],
      [130, 130, 1, 1],
      [30, 110, 0, 1],
    ]),
  );
  expect([map[6], map[7]]).toEqual([expect.closeTo(0, 12), expect.closeTo(0, 12)]);
});

test('three points in a line fix no homography, nor do three points', () => {
  const line = [
    [0, 0, 0, 0],
    [1, 1, 1, 0],
    [2, 2, 1, 1],
    [0, 5, 0, 1],
  ] as const;
  expect(() => solveHomography(pairs(line))).toThrow(RangeError);
  expect(() => solveHomography(pairs(line.slice(1)))).toThrow(RangeError);
});
