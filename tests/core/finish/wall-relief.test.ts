import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRaster, dpi, fillPhoto, measurePhoto, printMm, realMm } from '@gaugerod/core';
import { encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { oneTo } from '../../support/relief-strip.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-wall-relief-'));
const photo = join(folder, 'stone.png');

beforeAll(async () => {
  const side = 120;
  const raster = createRaster(side, side);
  raster.planes.forEach((plane) => {
    for (let i = 0; i < plane.length; i++) {
      const [u, v] = [
        (2 * Math.PI * (i % side)) / side,
        (2 * Math.PI * Math.floor(i / side)) / side,
      ];
      plane[i] = 0.15 * (1 + 0.05 * (Math.sin(5 * u + 2 * v) + Math.sin(13 * v - 7 * u)));
    }
  });
  writeFileSync(photo, await encodePhoto(raster, { format: 'png' }));
  // 100 px are 1 m.
  const spans = [
    [
      { x: 5, y: 60 },
      { x: 105, y: 60 },
    ],
  ] as const;
  const measured = await measurePhoto(photo, {
    ...{ spans, lengths: [{ length: realMm(1000) }], save: true },
  });
  if (!measured.ok) throw new Error(measured.message);
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

// 10 dots to the mm, 1 m of wall 10 mm.
const wall = { scale: oneTo(100), dpi: dpi(254) } as const;

async function fill(
  options: Omit<Parameters<typeof fillPhoto>[1], 'output' | 'scale' | 'dpi'>,
  name = 'wall.png',
): Promise<{ readonly width: number; readonly rows: readonly (readonly number[])[] }> {
  const output = join(folder, name);
  const filled = await fillPhoto(photo, { ...wall, ...options, output });
  if (!filled.ok) throw new Error(filled.message);
  const { data, info } = await sharp(output)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  const rows = Array.from({ length: height }, (_, y) =>
    Array.from({ length: width }, (__, x) => data[4 * (y * width + x) + 1] ?? NaN),
  );
  return { width, rows };
}

const mean = (row: readonly number[] = []): number => row.reduce((a, b) => a + b, 0) / row.length;

test('a string course is light above and dark below, and its shadow is as long as it stands out', async () => {
  const size = { width: printMm(30), height: printMm(20) };
  const plain = await fill({ size });
  const lit = await fill({
    size,
    relief: { stringCourses: [{ y: 8, height: 3 }], rise: realMm(100), strength: 1 },
  });
  const change = (y: number): number => mean(lit.rows[y]) / mean(plain.rows[y]);
  expect(change(40)).toBe(1);
  // Its lines are 0.3 mm, at 8 and above 11 mm; 100 mm of 1:100 are 1 mm of shadow.
  expect(change(81)).toBeGreaterThan(1.2);
  expect(change(95)).toBe(1);
  expect(change(108)).toBeLessThan(0.8);
  expect(change(113)).toBeLessThan(0.8);
  expect(change(122)).toBe(1);
});

test('it runs on from part to part: cut from one wall, both show the same dots of it', async () => {
  const relief = { stringCourses: [{ y: 8, height: 3 }] };
  const whole = await fill({ size: { width: printMm(30), height: printMm(20) }, relief });
  const part = await fill({
    ...{ size: { width: printMm(10), height: printMm(12) }, relief, datum: { x: 12, y: 5 } },
  });
  expect(part.rows).toEqual(whole.rows.slice(50, 170).map((row) => row.slice(120, 220)));
});

test.each([
  // 200 mm of 1:100 are 2 mm of shadow, below the foot at 13 mm, or above the top at 10 mm.
  ['below it', 'above', 13, 5],
  ['above it', 'below', 2, 7],
] as const)(
  'a part %s has its shadow, and what it does not reach is refused',
  async (_, light, top, high) => {
    const course = { stringCourses: [{ y: 10, height: 3 }], rise: realMm(200), light };
    const whole = await fill({ size: { width: printMm(30), height: printMm(20) }, relief: course });
    const size = { width: printMm(10), height: printMm(high) };
    const datum = { x: 12, y: top };
    const part = await fill({ size, datum, relief: course });
    const [from, to] = [10 * top, 10 * (top + high)];
    expect(part.rows).toEqual(whole.rows.slice(from, to).map((row) => row.slice(120, 220)));
    const bare = await fill({ size, datum });
    expect(part.rows).not.toEqual(bare.rows);
    const low = {
      ...course,
      rise: realMm(20),
      light: light === 'above' ? 'below' : 'above',
    } as const;
    await expect(fill({ size, datum, relief: low })).rejects.toThrow(/a course within the part/);
  },
);

test('streaks of a course reach a part far below it', async () => {
  const size = { width: printMm(10), height: printMm(5) };
  const asked = { size, datum: { x: 0, y: 16 } };
  const weather = { streaks: 1 };
  const relief = { stringCourses: [{ y: 10, height: 3 }] };
  const under = await fill({ ...asked, weather, relief });
  expect(under.rows).not.toEqual((await fill({ ...asked, weather })).rows);
  await expect(fill({ ...asked, relief })).rejects.toThrow(/a course within the part/);
});

test('an opening has a dark head and a light sill, and its sides are left out of both', async () => {
  const path = join(folder, 'wall.svg');
  writeFileSync(
    path,
    '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><path fill-rule="evenodd" d="M0 0H30V20H0Z M10 5H20V15H10Z"/></svg>',
  );
  const plain = await fill({ outline: { path } });
  const lit = await fill({ outline: { path }, relief: { isOpeningsLit: true, strength: 1 } });
  const change = (y: number): number =>
    mean(lit.rows[y]?.slice(110, 190)) / mean(plain.rows[y]?.slice(110, 190));
  expect(change(20)).toBe(1);
  expect(change(48)).toBeLessThan(0.6);
  expect(change(151)).toBeGreaterThan(1.2);
  expect(change(180)).toBe(1);
  // The wall's own outer edge is as it was.
  expect(lit.rows[1]).toEqual(plain.rows[1]);
});

test('what makes no sense is refused', async () => {
  const size = { width: printMm(30), height: printMm(20) };
  await expect(fill({ size, relief: { isOpeningsLit: true } })).rejects.toThrow(
    /an outline whose openings are lit/,
  );
  await expect(fill({ size, relief: { strength: 0.5 } })).rejects.toThrow(
    /a string course, or openings, to be lit/,
  );
  await expect(fill({ size, relief: { stringCourses: [{ y: 3, height: 0.2 }] } })).rejects.toThrow(
    /0\.4 to 1000 mm of paper from top to foot/,
  );
  await expect(
    fill({ size, svg: 'pattern', relief: { stringCourses: [{ y: 3, height: 2 }] } }, 'wall.svg'),
  ).rejects.toThrow(/baked, for relief does not repeat/);
  const near = [
    { y: 3, height: 2 },
    { y: 5.1, height: 2 },
  ];
  await expect(fill({ size, relief: { stringCourses: near } })).rejects.toThrow(
    /courses 0\.2 mm of paper apart or more for stringCourses/,
  );
  const far = { stringCourses: [{ y: 3, height: 2 }], rise: realMm(100_000) };
  await expect(fill({ size, relief: far })).rejects.toThrow(/up to 2000 mm for rise, got/);
});

test('a course that the part does not show, and openings of a wall without any, are refused', async () => {
  const size = { width: printMm(30), height: printMm(20) };
  const far = { stringCourses: [{ y: 42, height: 3 }] };
  await expect(fill({ size, relief: far })).rejects.toThrow(
    /within the part, which lies 0 to 20 mm below the datum, for stringCourses, got "42,3"/,
  );
  // Of the same wall a part farther down shows it.
  await fill({ size, datum: { x: 0, y: 30 }, relief: far });
  const path = join(folder, 'whole.svg');
  writeFileSync(
    path,
    '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><rect width="30" height="20"/></svg>',
  );
  await expect(fill({ outline: { path }, relief: { isOpeningsLit: true } })).rejects.toThrow(
    /windows or doors in it for openings/,
  );
});
