import { findCourse, type SeenBricks } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { isDryLaid } from '../../../../packages/core/src/job/weather/is-dry-laid.js';
import { plainWall, weathered } from '../../../support/weathered.js';

// Slates of 250 mm at a gauge of 200 mm (a 500 mm slate at 100 mm lap), 10 mm to a dot, breaking joint by half.
const [across, gauge] = [25, 20];
const size = { width: 4 * across, height: 4 * gauge };
const slates: SeenBricks = {
  likeness: Float32Array.from({ length: size.width * size.height }, (_, at) => {
    const [x, y] = [at % size.width, Math.floor(at / size.width)];
    const off = Math.floor(y / gauge) % 2 === 0 ? 0 : 12;
    return y % gauge === 0 || (x + size.width - off) % across === 0 ? 1 : 0;
  }),
  boxes: Array.from({ length: 16 }, (_, i) => {
    const [column, course] = [i % 4, Math.floor(i / 4)];
    const left = column * across + (course % 2 === 0 ? 0 : 12) + 0.5;
    const top = course * gauge + 0.5;
    return { left, top, right: left + across, bottom: top + gauge };
  }),
  joint: 1,
};
const roof = {
  ...{ width: 600, height: 480, mm: 10 },
  wall: { raster: plainWall(size.width, size.height), bricks: slates, isDry: true },
};

// What each slate's middle comes to, and whether all of its face is the same.
function facesOf(shown: typeof roof & { readonly left?: number }): [string, boolean][] {
  const { planes } = weathered({ patches: 1, seed: 3, foot: null }, shown);
  const faces: [string, boolean][] = [];
  for (let course = 0; course < shown.height / gauge; course++) {
    for (let column = 0; column + 1 < shown.width / across; column++) {
      const left = column * across + (course % 2 === 0 ? 0 : 12);
      const tones = new Set<string>();
      for (let y = 4; y < gauge - 3; y++) {
        for (let x = 4; x < across - 3; x++) {
          const at = (course * gauge + y) * shown.width + left + x;
          tones.add(planes.map((plane) => plane[at]).join());
        }
      }
      const [tone = ''] = tones;
      faces.push([tone, tones.size === 1]);
    }
  }
  return faces;
}

test('a mended roof has whole slates of another tone, and neither mortar nor render', () => {
  const faces = facesOf(roof);
  expect(faces.filter(([, isEven]) => !isEven)).toEqual([]);
  const old = [...new Set(faces.map(([tone]) => tone))].toSorted(
    (a, b) =>
      faces.filter(([tone]) => tone === b).length - faces.filter(([tone]) => tone === a).length,
  )[0];
  const isNew = faces.filter(([tone]) => tone !== old).length;
  expect(isNew).toBeGreaterThan(3);
  expect(isNew).toBeLessThan(faces.length / 2);
  // Of masonry the same places show mortar that was smeared over its faces.
  const wall = { ...roof.wall, isDry: false };
  expect(facesOf({ ...roof, wall }).filter(([, isEven]) => !isEven).length).toBeGreaterThan(3);
});

test('what is round a new slate stays as it was', () => {
  const { planes } = weathered({ patches: 1, seed: 3, foot: null }, roof);
  const bare = weathered({ patches: 1, seed: 3, foot: null }, { ...roof, width: 50, height: 20 });
  const joints = Array.from({ length: roof.height / gauge }, (_, course) =>
    planes[1].subarray(course * gauge * roof.width, (course * gauge + 1) * roof.width),
  );
  expect(new Set(joints.flatMap((row) => [...row]))).toEqual(new Set([bare.planes[1][0]]));
});

test('parts of a roof agree on which slates are new', () => {
  const whole = weathered({ patches: 1, seed: 3, foot: null }, roof);
  const part = weathered({ patches: 1, seed: 3, foot: null }, { ...roof, left: 310, width: 290 });
  const row = 190;
  expect([...part.planes[0].subarray(row * 290, (row + 1) * 290)]).toEqual([
    ...whole.planes[0].subarray(row * 600 + 310, (row + 1) * 600),
  ]);
});

test('roofs and boards are laid dry, brick and block in mortar', () => {
  const isDry = (text: string): boolean => isDryLaid(findCourse(text));
  for (const dry of ['slate 500 lap 100', 'slate 450 lap 80', 'plain-tile', 'pantile'])
    expect(isDry(dry)).toBe(true);
  for (const laid of ['uk-metric', '75mm']) expect(isDry(laid)).toBe(false);
});
