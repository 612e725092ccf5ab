import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dpi, findSection, type MadeRelief, makeRelief } from '@gaugerod/core';
import { afterAll, expect, test } from 'vitest';
import { mm, oneTo } from '../../support/relief-strip.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-cut-line-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function draw(
  options: Omit<Parameters<typeof makeRelief>[1], 'output' | 'isLayered'>,
): Promise<MadeRelief> {
  const output = join(folder, 'piece.svg');
  const made = await makeRelief(null, { ...options, output, isLayered: true });
  if (!made.ok) throw new Error(made.message);
  return made.value;
}

// Points of the line to cut along, mm of the page.
function cutPoints(file: string): readonly (readonly [number, number])[] {
  const [, line = ''] = /<path id="cut"[^>]* d="([^"]*)"/.exec(readFileSync(file, 'utf8')) ?? [];
  const numbers = (line.match(/-?[\d.]+/g) ?? []).map(Number);
  return Array.from({ length: numbers.length / 2 }, (_, i) => [
    numbers[2 * i]!,
    numbers[2 * i + 1]!,
  ]);
}

test.each([0, 1])(
  'the line to cut along runs round the piece, not its bleed of %f mm',
  async (bleed) => {
    // UB 533x210x92: 533.1 mm deep, flanges 15.6 mm (EN 10365). At 1:76.2, 9 m come to 118.1102 x 6.9961 mm, flanges of
    // 0.2047 mm to 0.5 mm, the least that is cut.
    const { layers } = await draw({
      ...{ section: findSection('UB 533x210x92'), length: mm(9000), scale: oneTo(76.2) },
      ...{ bleed, dpi: dpi(300) },
    });
    const points = cutPoints(layers[1]?.file ?? '');
    const places = (side: 0 | 1): readonly number[] =>
      [...new Set(points.map((point) => Number((point[side] - bleed).toFixed(2))))].sort(
        (a, b) => a - b,
      );
    expect(places(0)).toEqual([0, 118.11]);
    expect(places(1)).toEqual([0, 0.5, 6.5, 7]);
  },
);

test('the line to cut an arch along lies as far in as its bleed reaches out', async () => {
  const along = { path: join(folder, 'half.svg') };
  writeFileSync(
    along.path,
    '<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60"><path fill="none" d="M10 45 A25 25 0 0 1 60 45"/></svg>',
  );
  const piece = {
    ...{ profile: 'plate-girder' as const, depth: mm(500), flange: mm(40), leg: mm(100) },
    ...{ web: mm(12), width: mm(350), stiffeners: mm(800), along, bleed: 1 },
  };
  const { layers, widthMm } = await draw({ ...piece, scale: oneTo(76.2), dpi: dpi(300) });
  // A half circle as wide as the page: its middle is half the page from the left and from the top.
  const middle = widthMm / 2;
  const out = cutPoints(layers[1]?.file ?? '').map(([x, y]) => Math.hypot(x - middle, y - middle));
  expect(Math.max(...out)).toBeCloseTo(middle - 1, 2);
  // 500 mm at 1:76.2 are 6.562; chords come a hair nearer the middle.
  expect(Math.abs(Math.max(...out) - Math.min(...out) - 6.562)).toBeLessThan(0.02);
});
