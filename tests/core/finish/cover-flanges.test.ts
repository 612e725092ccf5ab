import { dpi } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { columnOf, drawStrip, mm, oneTo } from '../../support/relief-strip.js';

test('plates on the flanges make a girder deeper in the middle, and beside them the paper is bare', async () => {
  const piece = {
    ...{ scale: oneTo(20), dpi: dpi(254), length: mm(800), colour: '#606060' },
    ...{ profile: 'plate-girder' as const, depth: mm(400), flange: mm(10), leg: mm(75) },
    ...{ web: mm(10), width: mm(180), covers: [mm(600), mm(300)] },
  };
  const { made, data, width, height } = await drawStrip(piece);
  // 400 mm and four plates of 10 mm at 1:20, 10 dots to the mm of paper: 220; plates of 5 dots each.
  expect([made.piece.depthMm, height, made.covers]).toEqual([22, 220, 2]);
  const at = (x: number, y: number): number => data[3 * (y * width + x) + 1] ?? NaN;
  // Ends at 50 and 125 dots from the left: whole dots, so what is bare is so to the edge.
  for (const [x, top] of [
    [49, 10],
    [50, 5],
    [124, 5],
    [125, 0],
    [200, 0],
  ] as const) {
    const bare = Array.from({ length: height }, (_, y) => at(x, y) === 255);
    const rows = Array.from({ length: height }, (_, y) => y < top || y >= height - top);
    expect(bare).toEqual(rows);
  }
  const below = await drawStrip({ ...piece, light: 'below' });
  const above = await drawStrip({ ...piece, light: 'above' });
  expect(columnOf(below, 60).reverse()).toEqual(columnOf(above, 60));
  expect(columnOf(below, 200).reverse()).toEqual(columnOf(above, 200));
});

test('in the bleed of plates no lines lie over one another, and beside it no row of dots is grey', async () => {
  const ground = 0x58;
  const strip = await drawStrip({
    ...{ colour: '#585858', profile: 'plate-girder', depth: mm(900), flange: mm(25), leg: mm(100) },
    ...{ length: mm(400), covers: [mm(240), mm(160)], scale: oneTo(43.5), bleed: 1 },
  });
  // W3C Compositing and Blending 1, 10.1.3: below one half, overlay of white doubles what lies under it. Of strength
  // 0.7, one line makes it 1.7 times as light at most, and two that each cover half of a dot 1.35 times each.
  const most = Math.ceil(1.35 ** 2 * ground);
  const torn = Array.from({ length: strip.width }, (_, x) => {
    const upper = columnOf(strip, x).slice(0, strip.height >> 1);
    return upper.filter((value) => value > most && value < 255).length;
  }).filter((begun) => begun > 1);
  // The row that bleed only begins is one; columns that it only begins stand at the ends of two plates.
  expect(torn.length).toBeLessThanOrEqual(4);
});

test('in the bleed no seam stands where a plate ends in the middle of a dot', async () => {
  const strip = await drawStrip({
    ...{ colour: '#585858', profile: 'plate-girder', depth: mm(900), flange: mm(25), leg: mm(100) },
    ...{ length: mm(400), covers: [mm(240), mm(160)], scale: oneTo(43.5), bleed: 1 },
  });
  // At 1:43.5 and 600 dpi a plate is 13.58 dots thick, bleed 23.6; the longer begins 80 mm from the girder's end, 67.1
  // dots from the picture's. 40 rows down lies the flange's bleed (27.2 to 50.8) left of it, and right of it its own line.
  const row = Array.from({ length: 40 }, (_, i) => columnOf(strip, 48 + i)[40]);
  expect(row[0]).toBeGreaterThan(1.3 * 0x58);
  expect(new Set(row).size).toBe(1);
  const foot = Array.from({ length: 40 }, (_, i) => columnOf(strip, 48 + i).at(-41));
  expect(foot[0]).toBeLessThan(0.7 * 0x58);
  expect(new Set(foot).size).toBe(1);
});

test('lit from a side, the end of a plate is a line all the way down', async () => {
  const plate = { ...{ depth: mm(900), flange: mm(25), leg: mm(100), covers: [mm(240)] } };
  const strip = await drawStrip({
    ...{ colour: '#585858', profile: 'plate-girder', ...plate, length: mm(400) },
    ...{ scale: oneTo(43.5), light: 'left' },
  });
  // 25 mm at 1:43.5 and 600 dpi are 13.6 dots; the plate begins 80 mm from the end: 43.4 dots.
  const lit = columnOf(strip, 45)
    .slice(0, 20)
    .filter((value) => value > 1.3 * 0x58);
  expect(Math.abs(lit.length - 13.6)).toBeLessThanOrEqual(1);
});
