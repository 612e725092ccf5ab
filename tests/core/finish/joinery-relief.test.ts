import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dpi, makeRelief } from '@gaugerod/core';
import { renderers } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { columnOf, drawStrip, mm, oneTo } from '../../support/relief-strip.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-joinery-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

let count = 0;
function drawing(inside: string): { readonly path: string } {
  const path = join(folder, `shape-${++count}.svg`);
  writeFileSync(
    path,
    `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60">${inside}</svg>`,
  );
  return { path };
}

async function read(path: string): Promise<{
  readonly width: number;
  readonly height: number;
  readonly at: (x: number, y: number, channel?: number) => number;
}> {
  const { data, info } = await sharp(path)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  return { width, height, at: (x, y, channel = 1) => data[4 * (y * width + x) + channel] ?? NaN };
}

const ground = 0x60;
// 10 dots to the mm.
const fine = { scale: oneTo(10), dpi: dpi(254), colour: '#606060' } as const;

describe('a panel', () => {
  const square = drawing('<rect x="10" y="10" width="20" height="20"/>');
  const raised = { ...fine, outline: square, around: 5, rise: mm(20) };

  test('raised is light where it faces the light, and its shadow is as long as it stands out', async () => {
    const strip = await drawStrip({ ...raised, strength: 1 });
    const { at, width, height } = await read(strip.path);
    // 20 mm and 5 on either side.
    expect([width, height]).toEqual([300, 300]);
    const column = columnOf(strip, 150);
    expect(column[51]).toBeGreaterThan(1.3 * ground);
    expect(column[248]).toBeLessThan(0.7 * ground);
    expect(column[150]).toBe(ground);
    // 20 mm of 1:10: 2 mm, 20 dots below its foot at 250; soft at its end.
    expect(column[255]).toBeLessThan(0.8 * ground);
    expect(column[266]).toBeLessThan(0.8 * ground);
    expect(column[271]).toBe(ground);
    // Mitred: along the diagonal of a corner the upper line gives way to that of the side.
    expect(at(60, 51)).toBeGreaterThan(1.3 * ground);
    expect(at(51, 60)).toBeLessThan(ground);
  });

  test('sunk under light from above is what is raised under light from below, but for its depth', async () => {
    const flat = { ...fine, outline: square };
    const up = await drawStrip({ ...flat, light: 'below' });
    const down = await drawStrip({ ...flat, rise: mm(0.001), isSunk: true, strength: 0.7 });
    const [one, other] = [columnOf(up, 100), columnOf(down, 100)];
    expect(Math.sign((one[1] ?? 0) - ground)).toBe(Math.sign((other[1] ?? 0) - ground));
    expect(Math.sign((one[198] ?? 0) - ground)).toBe(Math.sign((other[198] ?? 0) - ground));
    expect(other[100]).toBeLessThan(ground);
  });

  test('under light from a corner its shadow falls as far both ways', async () => {
    const strip = await drawStrip({ ...raised, light: 'above-left', strength: 1 });
    const { at } = await read(strip.path);
    // 2 mm right of and below it: 20 dots past 250.
    for (const past of [5, 15]) {
      expect(at(150, 250 + past)).toBeLessThan(0.8 * ground);
      expect(at(250 + past, 150)).toBeLessThan(0.8 * ground);
    }
    expect(at(150, 272)).toBe(ground);
    expect(at(272, 150)).toBe(ground);
    expect(at(150, 47)).toBe(ground);
  });

  test('round a hole is lit as its edge looks, and the hole is open', async () => {
    // A ring of radii 20 and 10 mm about 30,30.
    const ring = drawing(
      '<path fill-rule="evenodd" d="M10 30 a20 20 0 1 0 40 0 a20 20 0 1 0 -40 0 Z M20 30 a10 10 0 1 0 20 0 a10 10 0 1 0 -20 0 Z"/>',
    );
    const strip = await drawStrip({ ...fine, outline: ring, strength: 1 });
    const { at, width, height } = await read(strip.path);
    expect([width, height]).toEqual([400, 400]);
    expect(at(200, 200, 3)).toBe(0);
    expect(at(2, 2, 3)).toBe(0);
    expect(at(50, 200, 3)).toBe(255);
    // Its outer edge faces the light at the top, its inner edge at the foot of the hole.
    expect(at(200, 2)).toBeGreaterThan(1.3 * ground);
    expect(at(200, 301)).toBeGreaterThan(1.3 * ground);
    expect(at(200, 98)).toBeLessThan(0.7 * ground);
    expect(at(200, 397)).toBeLessThan(0.7 * ground);
  });

  test('too narrow for its lines is refused, and so is a length beside it', async () => {
    const thin = drawing('<rect x="10" y="10" width="20" height="0.3"/>');
    await expect(drawStrip({ ...fine, outline: thin, dpi: dpi(600) })).rejects.toThrow(
      /\(0\.4 mm of paper\) wide or more all over/,
    );
    await expect(drawStrip({ ...fine, outline: square, length: mm(100) })).rejects.toThrow(
      /no length beside an outline/,
    );
  });

  test.each(renderers.filter(({ isThere }) => isThere))(
    '$name shows one in a drawing as the picture is',
    async ({ render, name }) => {
      const shape = drawing(
        '<path fill-rule="evenodd" d="M5 5 H35 V25 C35 35 25 40 20 45 C15 40 5 35 5 25 Z M20 12 a6 6 0 1 0 0.01 0 Z"/>',
      );
      const piece = { ...fine, outline: shape, around: 3, rise: mm(20), dpi: dpi(300) };
      const png = await read((await drawStrip(piece)).path);
      const output = join(folder, `panel-${name}.svg`);
      const made = await makeRelief(null, { ...piece, output });
      if (!made.ok) throw new Error(made.message);
      const live = join(folder, `panel-live-${name}.svg`);
      writeFileSync(
        live,
        readFileSync(output, 'utf8')
          .replace('#live{display:none;', '#live{')
          .replace('</style>', '#baked{display:none}</style>'),
      );
      // Every shape of it is blended by whoever shows it.
      const shapes = readFileSync(output, 'utf8').match(/<path [^>]*fill[^>]*d=/g) ?? [];
      expect(shapes.filter((shape) => !shape.includes('class="ink"'))).toEqual([]);
      expect(shapes.length).toBeGreaterThan(4);
      const { widthMm, heightMm } = made.value;
      for (const file of [output, live]) {
        const seen = await render(file, 300, [widthMm, heightMm]);
        let far = 0;
        for (let y = 1; y < png.height - 2; y++) {
          for (let x = 1; x < png.width - 2; x++) {
            const other = seen.data[4 * (y * seen.width + x) + 1] ?? 0;
            if (Math.abs(png.at(x, y) - other) > 16) far++;
          }
        }
        expect(far / (png.width * png.height)).toBeLessThan(0.03);
      }
    },
    60_000,
  );
});

test('a frame leaves its panes open, all of one size', async () => {
  // 1000 x 1500 mm, rails of 100 and bars of 40: panes of (1000 - 240) / 2 by (1500 - 280) / 3 mm.
  const { path } = await drawStrip({
    ...{ ...fine, profile: 'frame' as const, length: mm(1000), depth: mm(1500) },
    ...{ rail: mm(100), bar: mm(40), panes: { x: 2, y: 3 } },
  });
  const { at, width, height } = await read(path);
  expect([width, height]).toEqual([1000, 1500]);
  // Panes end within dots: those are as clear as they are open.
  let open = 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) open += 1 - at(x, y, 3) / 255;
  }
  expect(Math.abs(open - (2 * 3 * 380 * 1220) / 3)).toBeLessThan(10);
});

test('a bar too thin to hold its lines is drawn wider, and told', async () => {
  const { messages } = await drawStrip({
    ...{ ...fine, profile: 'frame' as const, length: mm(900), depth: mm(1500) },
    scale: oneTo(148),
  });
  expect(messages).toContain(
    'a bar of 25 mm is 0.17 mm of paper: drawn 0.4 mm, the least that holds a light line and a dark one',
  );
});

test('planks have a joint each at their width, and end every other row half a board on', async () => {
  const strip = await drawStrip({
    ...{ ...fine, profile: 'planks' as const, length: mm(2000), depth: mm(600) },
    ...{ board: mm(150), boardLength: mm(1000), strength: 1 },
  });
  const { made } = strip;
  // Tops at 0, 150, 300 and 450 mm of 1:10.
  const tops = made.lines.filter(({ edge }) => edge.startsWith('top'));
  expect(tops.map(({ fromMm }) => fromMm)).toEqual([0, 15, 30, 45]);
  const { at } = await read(strip.path);
  const isJoint = (x: number, y: number): boolean => at(x, y) < 0.7 * ground;
  // In the middle of the first and the second board.
  expect([isJoint(999, 75), isJoint(500, 75), isJoint(1500, 75)]).toEqual([true, false, false]);
  expect([isJoint(999, 225), isJoint(500, 225), isJoint(1500, 225)]).toEqual([false, true, true]);
});

describe('planks that stand', () => {
  const boarding = {
    ...{ ...fine, profile: 'planks' as const, board: mm(150), strength: 1, isUpright: true },
    ...{ length: mm(600), depth: mm(2000) },
  };

  test('are those that lie, turned about the diagonal, light and all', async () => {
    const lying = { ...boarding, isUpright: false, length: mm(2000), depth: mm(600) };
    for (const [light, turned] of [
      ['above', 'left'],
      ['below-left', 'above-right'],
      ['right', 'below'],
    ] as const) {
      const ended = { boardLength: mm(1000) };
      const one = await read((await drawStrip({ ...boarding, ...ended, light })).path);
      const other = await read((await drawStrip({ ...lying, ...ended, light: turned })).path);
      expect([one.width, one.height]).toEqual([600, 2000]);
      for (let y = 0; y < one.height; y += 7)
        for (let x = 0; x < one.width; x++) expect(one.at(x, y)).toBe(other.at(y, x));
    }
  });

  test('have a gap each at their width whichever way the light falls', async () => {
    for (const light of ['above', 'left', 'below-right'] as const) {
      const { at } = await read((await drawStrip({ ...boarding, light })).path);
      // 150 mm of 1:10 are 150 dots; in the middle of a board nothing is drawn.
      for (const x of [150, 300, 450]) {
        const darkest = Math.min(at(x - 1, 700), at(x + 1, 700));
        expect(darkest).toBeLessThan(0.8 * ground);
        expect(at(x - 75, 700)).toBe(ground);
      }
    }
  });

  test('are as long as the piece is deep', async () => {
    await expect(drawStrip({ ...boarding, boardLength: mm(5000) })).rejects.toThrow(
      /boards end within the depth, for boardLength, got "5000 mm/,
    );
    const { at } = await read((await drawStrip({ ...boarding, boardLength: mm(1200) })).path);
    expect(at(75, 1200)).toBeLessThan(0.7 * ground);
    expect(at(225, 600)).toBeLessThan(0.7 * ground);
  });

  test.each([
    ['boards that lap', { profile: 'weatherboard' as const }, /a row of planks for upright/],
    [
      'boards along a path',
      { length: undefined, along: drawing('<path d="M5 5 H50"/>') },
      /no path beside boards that stand, for along/,
    ],
  ])('%s are refused', async (_, more, words) => {
    const { length, ...asked } = { ...boarding, ...more };
    await expect(drawStrip({ ...asked, ...(length && { length }) })).rejects.toThrow(words);
  });
});

test('boards that lap cast a shadow on the next as long as they are thick', async () => {
  const strip = await drawStrip({
    ...{ ...fine, profile: 'weatherboard' as const, length: mm(500), depth: mm(600) },
    ...{ board: mm(150), rise: mm(20), strength: 1 },
  });
  const column = columnOf(strip, 200);
  // 20 mm of 1:10 below the first board's foot at 150 mm: 20 dots.
  expect(column[160]).toBeLessThan(0.8 * ground);
  expect(column[172]).toBe(ground);
});

test.each([
  ['sunk', { profile: 'planks' as const, isSunk: true }, /a panel or a door for sunk/],
  ['panes', { profile: 'planks' as const, panes: { x: 2, y: 2 } }, /a door or a frame for panes/],
  ['rivets', { profile: 'door' as const, rivets: mm(100) }, /none on a panelled door for rivets/],
  ['boardLength', { profile: 'sill' as const, boardLength: mm(900) }, /a profile of boards/],
  [
    'board',
    { profile: 'planks' as const, board: mm(3) },
    /a board of .* or more, so that its lines stay apart/,
  ],
  ['panes of', { profile: 'frame' as const, panes: { x: 40, y: 1 } }, /leave each pane 0\.6 mm/],
])('%s are refused where they make no sense', async (_, sizes, words) => {
  const piece = { ...fine, length: mm(900), depth: mm(300), ...sizes };
  await expect(drawStrip(piece)).rejects.toThrow(words);
});

test('bleed of what is cut to shape goes on as its edge is, with no shadow of it', async () => {
  const square = drawing('<rect x="10" y="10" width="20" height="20"/>');
  const strip = await drawStrip({ ...fine, outline: square, bleed: 2, strength: 1 });
  // 2 mm of bleed round 20: below its foot at 220 as dark as the line that ends there.
  const column = columnOf(strip, 120);
  expect(new Set(column.slice(218, 239)).size).toBe(1);
});

test.each([
  [
    'how far a panel stands out, where nothing round it is shown',
    { profile: 'panel' as const, rise: mm(20) },
    /around.* for rise, got "20 mm"/,
  ],
  [
    'boards longer than the piece',
    { profile: 'planks' as const, boardLength: mm(2000) },
    /boards end within the length, for boardLength, got "2000 mm/,
  ],
  [
    'rivets of a panel',
    { profile: 'panel' as const, rivets: mm(50) },
    /none on a panel for rivets, got "50 mm"/,
  ],
  [
    'a rail that leaves no pane',
    { profile: 'frame' as const, rail: mm(300) },
    /room for a pane, for rail, got "30 mm of paper"/,
  ],
  [
    'a quoin too low for its lines',
    { profile: 'quoins' as const, block: mm(3) },
    /lines stay apart, for block, got "0.3 mm of paper"/,
  ],
])('%s is refused by its own name', async (_, piece, words) => {
  const asked = { ...fine, ...piece, depth: mm(600), length: mm(900) };
  await expect(drawStrip(asked)).rejects.toThrow(words);
});
