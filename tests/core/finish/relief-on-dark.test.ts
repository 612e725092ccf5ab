import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dpi, findSection, makeRelief } from '@gaugerod/core';
import { renderers } from '@gaugerod/fixtures';
import { afterAll, describe, expect, test } from 'vitest';
import { columnOf, drawStrip, mm, oneTo, type ReadStrip } from '../../support/relief-strip.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-dark-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

// Lightness L* of a grey, CIE 15 and IEC 61966-2-1.
function lightnessOf(byte: number): number {
  const encoded = byte / 255;
  const light = encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
  return light > (6 / 29) ** 3 ? 116 * Math.cbrt(light) - 16 : light * (29 / 3) ** 3;
}

const plain = { length: mm(2000), scale: oneTo(76.2), dpi: dpi(300) } as const;
const girder = { ...plain, section: findSection('UB 533x210x92') };

// Sooty steel, dark rust, tarred timber, each as light as its mean; middle rust beside them. Flange 15.6 of 533.1 mm
// at 1:76.2: of 83 rows the first two and the last two are flanges', two more beside them lines, and the shadow under
// the upper one is 100 mm, 15 rows long.
describe.each(['#2a2a2a', '#333333', '#3d3d3d', '#575757'])('%s', (colour) => {
  test('shows its flanges and the shadow under the upper one as far as an eye tells', async () => {
    const column = columnOf(await drawStrip({ ...girder, colour }), 9).map(lightnessOf);
    const web = column[40] ?? NaN;
    const ground = lightnessOf(parseInt(colour.slice(1, 3), 16));
    // About 2 of L* are told apart side by side, 6 in two strips held at arm's length: common practice, no source.
    expect((column[1] ?? NaN) - ground).toBeGreaterThan(12);
    expect(Math.max(...column.slice(76)) - web).toBeGreaterThan(12);
    expect(web - (column[10] ?? NaN)).toBeGreaterThan(6);
    // And the web keeps enough of it that rust shows.
    expect(web / ground).toBeGreaterThan(0.75);
  });
});

function rowsOf({ data, width, height }: ReadStrip): Buffer[] {
  return Array.from({ length: height }, (_, y) =>
    data.subarray(3 * y * width, 3 * (y + 1) * width),
  );
}

test('light from below is the exact mirror on a dark ground', async () => {
  const piece = {
    ...{ ...plain, colour: '#2a2420', profile: 'plate-girder' as const },
    ...{ depth: mm(1000), flange: mm(20), leg: mm(90), web: mm(12), width: mm(300) },
    ...{ stiffeners: mm(600), rivets: mm(101.6) },
  };
  const above = await drawStrip({ ...piece, light: 'above' });
  const below = await drawStrip({ ...piece, light: 'below' });
  expect(Buffer.concat(rowsOf(below).reverse()).equals(above.data)).toBe(true);
});

test('one ground a level darker than another is lit as that is, to three levels', async () => {
  let before: readonly number[] | null = null;
  for (let level = 0x66; level >= 0x18; level -= 1) {
    const hex = level.toString(16).padStart(2, '0');
    const column = columnOf(await drawStrip({ ...girder, colour: `#${hex}${hex}${hex}` }), 9);
    for (const [y, value] of column.entries())
      expect(Math.abs(value - (before?.[y] ?? value))).toBeLessThanOrEqual(3);
    before = column;
  }
});

// Chromium is slow to start, and blends the same marks in the tests beside this one.
test.each(renderers.filter(({ isThere, name }) => isThere && name !== 'chromium'))(
  '$name blends a drawing on a dark ground as the picture is',
  async ({ render }) => {
    const piece = { ...girder, colour: '#2e2622' };
    const { data, width, height } = await drawStrip(piece);
    const output = join(folder, 'dark.svg');
    const made = await makeRelief(null, { ...piece, output });
    expect(made.ok).toBe(true);
    // What is laid over itself is one group, to be moved as one.
    const text = readFileSync(output, 'utf8');
    expect(text.match(/<g>\n<rect [^>]*\/>\n<rect /g)?.length).toBeGreaterThan(0);
    const size = [2000 / 76.2, 533.1 / 76.2] as const;
    const seen = await render(output, 300, [size[0], size[1]]);
    // Rows of one colour, away from edges: the line on the upper flange, the shadow, the web.
    for (const y of [1, 10, 40]) {
      const at = Math.floor(width / 2) - 3;
      expect(
        Math.abs((data[3 * (y * width + at)] ?? 0) - (seen.data[4 * (y * seen.width + at)] ?? 0)),
      ).toBeLessThanOrEqual(12);
    }
    expect(seen.height).toBeGreaterThanOrEqual(height - 1);
  },
);

test('under dirt a girder is lit for what is seen of it, and no lighter than where it is clean', async () => {
  const piece = {
    ...{ profile: 'plate' as const, depth: mm(400), length: mm(2000), scale: oneTo(76.2) },
    ...{ colour: '#7a543e', light: 'above' as const },
  };
  const topOf = async (more: object): Promise<number> => {
    const { data, width } = await drawStrip({ ...piece, ...more });
    const row = data.subarray(3 * 3 * width, 3 * 4 * width).filter((_, i) => i % 3 === 0);
    return row.reduce((sum, value) => sum + value, 0) / width;
  };
  const weather = { preset: 'grimy' } as const;
  const [plain, lit] = [await topOf({ strength: 0 }), await topOf({})];
  const [dirty, seen] = [await topOf({ weather, strength: 0 }), await topOf({ weather })];
  // W3C Compositing and Blending 1, 10.1.3: overlay of white makes what is dark twice as light at most, of strength 0.7
  // 1.7 times.
  expect(lit / plain).toBeLessThan(1.7);
  expect(seen / dirty).toBeGreaterThan(1.7);
  expect(seen).toBeLessThan(lit);
});
