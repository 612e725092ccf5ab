import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  dpi,
  dressDrawing,
  fillPhoto,
  type FillPhotoOptions,
  findCourse,
  parsePaintKey,
} from '@gaugerod/core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import {
  dress,
  dressFolder,
  type DressWish,
  paintOf,
  scale,
  svg,
} from '../../support/dress-drawings.js';

const red = 'fill="#b5432e"';
const low = { dpi: dpi(254) } as const;
const key = (text: string) => parsePaintKey(text, 'ledges');

interface Pixels {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
}

// The pictures of all outlines, without loss, in the order of the drawing's surface.
async function picturesOf(inner: string, wish: DressWish): Promise<Pixels[]> {
  const folder = dressFolder(svg(inner));
  const made = await dress(folder, ['#b5432e'], { ...low, ...wish, link: join(folder, 'p') });
  const pictures = made.surfaces[0]?.pictures ?? [];
  return Promise.all(
    pictures.map(async ({ file }) => {
      const { data, info } = await sharp(file ?? '')
        .removeAlpha()
        .raw()
        .toBuffer({ resolveWithObject: true });
      return { data, width: info.width, height: info.height };
    }),
  );
}

function meanOf({ data, width }: Pixels, [x0, x1]: number[], [y0, y1]: number[]): number {
  let [sum, count] = [0, 0];
  for (let y = y0 ?? 0; y < (y1 ?? 0); y++) {
    for (let x = x0 ?? 0; x < (x1 ?? 0); x++, count++) sum += data[3 * (y * width + x)] ?? NaN;
  }
  return sum / count;
}

test('what is cut in two weathers as one: neighbours carry on to the dot', async () => {
  const weather = { preset: 'derelict', seed: 7 } as const;
  const [whole] = await picturesOf(`<rect x="4" y="5" width="40" height="25" ${red}/>`, {
    weather,
  });
  const parts = await picturesOf(
    `<rect x="4" y="5" width="17" height="25" ${red}/><rect x="21" y="5" width="23" height="11" ${red}/><rect x="21" y="16" width="23" height="14" ${red}/>`,
    { weather },
  );
  expect(parts).toHaveLength(3);
  // 10 dots to the mm: the second begins 17 mm to the right, the third 11 mm further down.
  for (const [part, left, top] of [
    [parts[0], 0, 0],
    [parts[1], 170, 0],
    [parts[2], 170, 110],
  ] as const) {
    if (part === undefined || whole === undefined) throw new Error('no picture');
    for (let y = 0; y < part.height; y++) {
      const at = 3 * ((y + top) * whole.width + left);
      const row = part.data.subarray(3 * y * part.width, 3 * (y + 1) * part.width);
      const end = Math.min(row.length, 3 * (whole.width - left));
      if (y + top >= whole.height) break;
      expect(row.subarray(0, end).equals(whole.data.subarray(at, at + end))).toBe(true);
    }
  }
});

test('rain runs from sills as they are drawn, whether holes, outlines or lines', async () => {
  const wall = `<path fill-rule="evenodd" ${red} d="M0 0H60V40H0Z M20 10H40V15H20Z"/>`;
  const plain = `<rect width="60" height="40" ${red}/>`;
  const sill = '<rect id="sill" x="20" y="14" width="20" height="1" fill="#cccccc"/>';
  const line = '<path id="sill" d="M20 15H40" fill="none" stroke="#000"/>';
  const weather = { streaks: 1 } as const;
  const own = await picturesOf(wall, { weather });
  const told = { ...weather, ledges: [key('#sill')] };
  const drawn = await picturesOf(plain + sill, { weather: told });
  const lined = await picturesOf(plain + line, { weather: told });
  for (const [picture] of [own, drawn, lined]) {
    if (picture === undefined) throw new Error('no picture');
    // A margin of 5 dots is left round the outline.
    const under = meanOf(picture, [210, 400], [160, 200]);
    const beside = meanOf(picture, [30, 180], [160, 200]);
    expect(under).toBeLessThan(0.95 * beside);
  }
  expect(drawn[0]?.data.equals(lined[0]?.data ?? Buffer.alloc(0))).toBe(true);
});

test('a window over a hole drips from the ends of its sill as the hole alone does', async () => {
  const hole = `<path fill-rule="evenodd" ${red} d="M0 0H60V40H0Z M20.1 10.3H40.7V15.9H20.1Z"/>`;
  const window = '<path id="w" fill="#cccccc" d="M20.1 15.9H40.7V10.3H20.1Z"/>';
  const weather = { streaks: 1, moss: 1 } as const;
  const [alone] = await picturesOf(hole, { weather });
  const [filled] = await picturesOf(hole + window, {
    weather: { ...weather, ledges: [key('#w')] },
  });
  expect(alone?.data.equals(filled?.data ?? Buffer.alloc(0))).toBe(true);
});

test('ledges that are told come beside the upper edges of the wall', async () => {
  const plain = `<rect width="60" height="40" ${red}/>`;
  const line = '<path id="sill" d="M0 20H60" fill="none" stroke="#000"/>';
  const [own] = await picturesOf(plain, { weather: { streaks: 1 } });
  const [more] = await picturesOf(plain + line, {
    weather: { streaks: 1, ledges: [key('#sill')] },
  });
  if (own === undefined || more === undefined) throw new Error('no picture');
  // 10 dots to the mm, and 5 of margin: above the line the top's streaks are as they were, below it new ones begin.
  const above = 3 * own.width * 200;
  expect(more.data.subarray(0, above).equals(own.data.subarray(0, above))).toBe(true);
  expect(meanOf(more, [30, 570], [210, 240])).toBeLessThan(meanOf(own, [30, 570], [210, 240]));
});

test('fill takes sills from the holes of its outline as well', async () => {
  const folder = dressFolder(
    svg(`<path id="w" fill-rule="evenodd" ${red} d="M0 0H60V40H0Z M20 10H40V15H20Z"/>`),
  );
  const output = join(folder, 'filled.png');
  const made = await fillPhoto(join(folder, 'wall.png'), {
    ...{ output, scale, ...low, course: findCourse('75mm'), weather: { streaks: 1 } },
    outline: { path: join(folder, 'front.svg') },
  });
  if (!made.ok) throw new Error(made.message);
  const { data, info } = await sharp(output)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const picture = { data, width: info.width, height: info.height };
  expect(meanOf(picture, [205, 395], [155, 195])).toBeLessThan(
    0.95 * meanOf(picture, [25, 175], [155, 195]),
  );
});

async function filled(options: Partial<FillPhotoOptions>, file: string): Promise<Pixels> {
  const folder = dressFolder(svg(file));
  const output = join(folder, 'filled.png');
  const made = await fillPhoto(join(folder, 'wall.png'), {
    ...{ output, scale, ...low, course: findCourse('75mm'), weather: { streaks: 1 } },
    ...options,
    ...(file !== '' && { outline: { path: join(folder, 'front.svg') } }),
  });
  if (!made.ok) throw new Error(made.message);
  const { data, info } = await sharp(output)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
}

test('a ledge that is told comes beside those of the outline, and a string course is one', async () => {
  const file = `<path id="w" fill-rule="evenodd" ${red} d="M0 0H60V80H0Z M20 10H40V15H20Z"/>`;
  const weather = { streaks: 1 };
  const own = await filled({ weather }, file);
  const ledges = [{ from: { x: 0, y: 50 }, to: { x: 60, y: 50 } }];
  const more = await filled({ weather: { ...weather, ledges } }, file);
  const course = await filled({ weather, relief: { stringCourses: [{ y: 47, height: 3 }] } }, file);
  // What is above the ledge is as it was; below it water runs.
  const above = own.data.subarray(0, 3 * own.width * 450);
  expect(more.data.subarray(0, above.length).equals(above)).toBe(true);
  for (const { data, width, height } of [more, course]) {
    const wet = meanOf({ data, width, height }, [10, 590], [515, 560]);
    expect(wet).toBeLessThan(0.97 * meanOf(own, [10, 590], [515, 560]));
  }
});

test('a ledge told along the sill of an opening, either way round, changes nothing', async () => {
  const file = `<path id="w" fill-rule="evenodd" ${red} d="M0 0H60V40H0Z M20 10H40V15H20Z"/>`;
  const weather = { streaks: 1 };
  const own = await filled({ weather }, file);
  // Told as anyone would, and to the last digit that its unit leaves to a drawn one.
  const sides = [1, 1 + Number.EPSILON].map((unit) => [20 * unit, 40 * unit, 15 * unit] as const);
  const ledges = sides.flatMap(([left, right, y]) => [
    { from: { x: left, y }, to: { x: right, y } },
    { from: { x: right, y }, to: { x: left, y } },
  ]);
  for (const ledge of ledges) {
    const told = await filled({ weather: { ...weather, ledges: [ledge] } }, file);
    expect(told.data.equals(own.data)).toBe(true);
  }
});

test('walls whose boxes meet and which do not touch weather each by itself', async () => {
  // An L, and a square in its corner, 4 mm off either arm: the square stands on its own lower edge, at 16 mm.
  const square = `<rect x="14" y="4" width="12" height="12" ${red}/>`;
  const corner = `<path d="M0 0H10V30H40V40H0Z" ${red}/>`;
  const weather = { damp: 1, seed: 3 } as const;
  const [alone] = await picturesOf(square, { weather });
  const [, beside] = await picturesOf(corner + square, { weather });
  if (alone === undefined || beside === undefined) throw new Error('no picture');
  const foot = (picture: Pixels): number => meanOf(picture, [10, 110], [100, 115]);
  const top = (picture: Pixels): number => meanOf(picture, [10, 110], [10, 25]);
  expect(foot(alone)).toBeLessThan(0.95 * top(alone));
  expect(foot(beside)).toBeLessThan(0.95 * top(beside));
});

test('rust runs from fixings that touch the wall, and from no other', async () => {
  const wall = `<rect width="30" height="30" ${red}/>`;
  const hook = (x: number): string => `<circle class="iron" cx="${x}" cy="5" r=".5" fill="#000"/>`;
  const weather = { rust: 1, fixings: [key('.iron')] };
  const [here] = await picturesOf(wall + hook(10), { weather });
  const [there] = await picturesOf(wall + hook(45), { weather });
  if (here === undefined || there === undefined) throw new Error('no picture');
  const below = [
    [100, 110],
    [60, 90],
  ] as const;
  const blueOf = ({ data, width }: Pixels): number => data[3 * (70 * width + 105) + 2] ?? NaN;
  expect(blueOf(here)).toBeLessThan(0.8 * blueOf(there));
  expect(meanOf(there, [...below[0]], [...below[1]])).toBeGreaterThan(0);
});

test('each outline has a picture of its own, stored once, and the same ones the same', async () => {
  const one = `<rect x="4" y="5" width="10" height="10" ${red}/>`;
  const folder = dressFolder(svg(`${one}${one}<rect x="30" y="5" width="10" height="10" ${red}/>`));
  const made = await dress(folder, ['#b5432e'], { ...low, weather: { preset: 'grimy' } });
  expect(made.surfaces[0]?.pictures).toHaveLength(2);
  expect(made.surfaces[0]?.picture).toEqual(made.surfaces[0]?.pictures[0]);
  expect(made.text.match(/<image /g)).toHaveLength(2);
  expect(made.weather).toMatchObject({ soot: 0.75, seed: 1 });
});

test('weather of no strength is none, to the byte', async () => {
  const folder = dressFolder(svg(`<rect width="30" height="30" ${red}/>`));
  await dress(folder, ['#b5432e'], { ...low, to: 'clean.svg' });
  await dress(folder, ['#b5432e'], { ...low, to: 'none.svg', weather: { soot: 0 } });
  const [clean, none] = ['clean.svg', 'none.svg'].map((name) => readFileSync(join(folder, name)));
  expect(none?.equals(clean ?? Buffer.alloc(0))).toBe(true);
});

test.each([
  [
    { soot: 0.5, fixings: [key('.iron')] },
    /expected rust above 0 beside it for fixings, got "\.iron"/,
  ],
  [{ seed: 3 }, /expected a preset or a strength of weather beside it for seed/],
  [{ soot: 2 }, /expected 0 to 1 for soot, got 2/],
])('what makes no sense is refused: %j', async (weather, words) => {
  const folder = dressFolder(svg(`<rect width="30" height="30" ${red}/>`));
  await expect(dress(folder, ['#b5432e'], { weather })).rejects.toThrow(words);
});

test('keys that mean nothing, and more than can be held, are refused before photos are read', async () => {
  const folder = dressFolder(svg(`<rect width="60" height="40" ${red}/>`));
  const given = {
    ...{ output: join(folder, 'a.svg'), scale, course: findCourse('75mm') },
    paint: paintOf(folder, ['#b5432e=none.png']),
  };
  const none = await dressDrawing(join(folder, 'front.svg'), {
    ...given,
    weather: { streaks: 1, ledges: [key('.sill')] },
  });
  expect(none).toMatchObject({ ok: false, code: 'no-outline' });
  if (none.ok) throw new Error('dressed');
  expect(none.message).toMatch(/is of the class sill/);
  // 60 x 40 mm at 4800 dpi are 86 million dots: six of them are too many.
  const rows = Array.from({ length: 6 }, () => `<rect width="60" height="40" ${red}/>`).join('');
  const large = dressFolder(svg(rows));
  await expect(
    dress(large, ['#b5432e=none.png'], { dpi: dpi(4800), weather: { soot: 1 } }),
  ).rejects.toThrow(/would take 5\d\d million dots, and each its own, for weather does not repeat/);
});

test('a string course in relief is a ledge unasked, as is a sill', async () => {
  const wall = `<rect width="60" height="40" ${red}/>`;
  const course = `<rect id="course" x="0" y="14" width="60" height="1.5" ${red}/>`;
  const weather = { streaks: 1, moss: 1 } as const;
  const [flat] = await picturesOf(wall + course, { weather });
  const [told] = await picturesOf(wall + course, {
    weather: { ...weather, ledges: [key('#course')] },
  });
  expect(told?.data.equals(flat?.data ?? Buffer.of())).toBe(false);
  for (const profile of ['string-course', 'sill'] as const) {
    const relief = [{ key: parsePaintKey('#course', 'relief'), relief: { profile } }];
    const [lit] = await picturesOf(wall + course, { weather, relief });
    expect(lit?.data.equals(told?.data ?? Buffer.of())).toBe(true);
  }
  // What lies flush drips no more than the wall does.
  const beam = [{ key: parsePaintKey('#course', 'relief'), relief: { profile: 'beam' as const } }];
  const [flush] = await picturesOf(wall + course, { weather, relief: beam });
  expect(flush?.data.equals(flat?.data ?? Buffer.of())).toBe(true);
});
