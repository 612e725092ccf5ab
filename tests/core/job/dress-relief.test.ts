import { existsSync } from 'node:fs';
import { join } from 'node:path';
import {
  dressDrawing,
  type DressReliefWish,
  parseDressRelief,
  parsePaintKey,
} from '@gaugerod/core';
import { type Rendered, renderers } from '@gaugerod/fixtures';
import { describe, expect, test } from 'vitest';
import { dress, dressFolder, paintOf, scale, svg } from '../../support/dress-drawings.js';

const wish = (key: string, what: string): DressReliefWish => ({
  key: parsePaintKey(key, 'relief'),
  relief: parseDressRelief(what, 'relief'),
});

// A level strip, an upright one, one turned by its transform and one by its points; a shield with a hole.
const pieces = [
  '<rect class="girder" x="3" y="3" width="40" height="6" fill="#b5432e"/>',
  '<rect class="girder" x="50" y="3" width="6" height="32" fill="#b5432e"/>',
  '<rect class="girder" x="0" y="0" width="20" height="6" transform="translate(6 14) rotate(30)" fill="#b5432e"/>',
  '<path class="girder" d="M30 14 l17.32 10 l-3 5.196 l-17.32 -10 z" fill="#b5432e"/>',
  '<path class="shield" fill-rule="evenodd" d="M4 32 h14 v7 h-14 z M8 34 h3 v3 h-3 z" fill="#b5432e"/>',
].join('\n');
const dpi = 600;
const perMm = dpi / 25.4;

const [renderer] = renderers.filter(({ isThere }) => isThere);

async function show(file: string): Promise<Rendered> {
  if (renderer === undefined) throw new Error('no renderer');
  return renderer.render(file, dpi, [60, 40]);
}

describe.runIf(renderer)('relief on a drawing', () => {
  // Depth 6 mm at 1:76.2 are 457 mm: flanges of 38.1 mm are 0.5 mm of paper, legs of 76.2 mm 1 mm.
  const girder = 'plate-girder,flange=38.1mm,leg=76.2mm,strength=1';

  test('an I-section needs no more than its strip', async () => {
    const made = await dress(dressFolder(svg(pieces)), ['#b5432e'], {
      relief: [wish('.girder', 'i')],
    });
    expect(made.outlines.map(({ relief }) => relief)).toEqual(['i', 'i', 'i', 'i', null]);
  });

  test('makes girders of strips however they lie, each edge where its sizes have it', async () => {
    const folder = dressFolder(svg(pieces));
    const flat = await show((await dress(folder, ['#b5432e'], { to: 'flat.svg' })).output);
    const made = await dress(folder, ['#b5432e'], {
      to: 'lit.svg',
      relief: [wish('.girder', girder), wish('.shield', 'panel')],
    });
    expect(made.outlines.map(({ relief }) => relief)).toEqual([
      ...['plate-girder', 'plate-girder', 'plate-girder', 'plate-girder'],
      'panel',
    ]);
    const lit = await show(join(folder, 'lit.svg'));
    // Lighter or darker there, on a patch 9 dots long along the piece: the wall under it is the same.
    const change = (
      [x, y]: readonly [number, number],
      [along, up]: readonly [readonly [number, number], readonly [number, number]],
      out: number,
    ): number => {
      let sum = 0;
      for (let i = -4; i <= 4; i++) {
        const px = Math.floor((x + out * up[0]) * perMm + i * along[0]);
        const py = Math.floor((y + out * up[1]) * perMm + i * along[1]);
        const at = 4 * (py * lit.width + px) + 1;
        sum += (lit.data[at] ?? 0) - (flat.data[at] ?? 0);
      }
      return sum / 9;
    };
    const [c, s] = [Math.cos(Math.PI / 6), 0.5];
    // The middle of each, along it, and out to its top.
    const lying = [
      [
        [23, 6],
        [
          [1, 0],
          [0, -1],
        ],
      ],
      [
        [6 + 10 * c - 3 * s, 14 + 10 * s + 3 * c],
        [
          [c, s],
          [s, -c],
        ],
      ],
      [
        [30 + 8.66 - 1.5, 14 + 5 + 2.598],
        [
          [c, s],
          [s, -c],
        ],
      ],
    ] as const;
    for (const [middle, way] of lying) {
      // Top line 0 to 0.3 mm below the top, 3 mm from the middle; the underside's line 0.5 to 0.7; the foot's last 0.3.
      expect(change(middle, way, 2.85)).toBeGreaterThan(8);
      expect(change(middle, way, 2.4)).toBeLessThan(-8);
      expect(change(middle, way, -2.85)).toBeLessThan(-8);
      expect(change(middle, way, -2.4)).toBeGreaterThan(4);
    }
    // The upright one stands on its foot: light from above runs along its flanges, whose edges stay as they are,
    // and its web lies deeper.
    const upright = [
      [1, 0],
      [0, -1],
    ] as const;
    expect(Math.abs(change([53, 19], [upright[1], upright[0]], 2.85))).toBeLessThan(6);
    expect(change([53, 19], [upright[1], upright[0]], 0)).toBeLessThan(-6);
    // The shield: its top light, its foot dark, the head of its hole dark and the sill of that light.
    const level = [
      [1, 0],
      [0, -1],
    ] as const;
    expect(change([15, 32.15], level, 0)).toBeGreaterThan(8);
    expect(change([15, 38.85], level, 0)).toBeLessThan(-8);
    expect(change([9.5, 33.85], level, 0)).toBeLessThan(-8);
    expect(change([9.5, 37.15], level, 0)).toBeGreaterThan(8);
  });

  test('leaves its light to each key, and the weather under it', async () => {
    const folder = dressFolder(svg(pieces));
    const above = await dress(folder, ['#b5432e'], {
      ...{ to: 'a.svg', weather: { soot: 0.5, seed: 3 } },
      relief: [wish('.girder', girder)],
    });
    const below = await dress(folder, ['#b5432e'], {
      ...{ to: 'b.svg', weather: { soot: 0.5, seed: 3 } },
      relief: [wish('.girder', `${girder},light=below`)],
    });
    expect(above.weather).not.toBeNull();
    const [one, other] = [await show(above.output), await show(below.output)];
    const at = (x: number, y: number): number =>
      4 * (Math.floor(y * perMm) * one.width + Math.floor(x * perMm)) + 1;
    const top = at(20, 3.15);
    const foot = at(20, 8.85);
    expect(one.data[top]).toBeGreaterThan((other.data[top] ?? 0) + 8);
    expect(one.data[foot]).toBeLessThan((other.data[foot] ?? 0) - 8);
  });
});

describe.runIf(renderer)('boards of a length', () => {
  // 1.5 m at 1:76.2 are 19.69 mm: of the long strip the first row ends there, the second half a board before.
  const strips = [
    '<rect class="long" x="3" y="3" width="30" height="3" fill="#b5432e"/>',
    '<rect class="short" x="3" y="10" width="8" height="3" fill="#b5432e"/>',
  ].join('\n');
  const fence = 'planks,board=150mm,board-length=1.5m,strength=1';

  test('end where an outline is long enough, and run through where it is not', async () => {
    const folder = dressFolder(svg(strips));
    const flat = await show((await dress(folder, ['#b5432e'], { to: 'flat.svg' })).output);
    const made = await dress(folder, ['#b5432e'], {
      to: 'lit.svg',
      relief: [wish('#b5432e', fence)],
    });
    expect(made.codes).not.toContain('no-joints');
    const lit = await show(made.output);
    // How much darker the middle of the first row is, a dot wide.
    const darker = (x: number, y: number): number => {
      const at = 4 * (Math.floor(y * perMm) * lit.width + Math.floor(x * perMm)) + 1;
      return (flat.data[at] ?? 0) - (lit.data[at] ?? 0);
    };
    expect(darker(3 + 19.69, 4)).toBeGreaterThan(20);
    for (let x = 3.5; x < 22; x += 0.1) expect(darker(x, 4)).toBeLessThan(10);
    for (let x = 3.5; x < 10.5; x += 0.1) expect(darker(x, 11)).toBeLessThan(10);
  });

  test('are told of where no outline is long enough', async () => {
    const folder = dressFolder(svg(strips));
    const short = await dress(folder, ['#b5432e'], { relief: [wish('.short', fence)] });
    expect(short.messages).toContain(
      'no board of .short ends within an outline: none is long enough for boards of 1500 mm',
    );
  });
});

test.each([
  [
    'a ring as a girder',
    '<circle id="a" cx="9" cy="9" r="5" fill="red"/>',
    'i,flange=20mm',
    /is no I-section: it is not a rectangle$/,
  ],
  [
    'an upright fence',
    '<rect id="a" x="2" y="2" width="5" height="9" transform="rotate(3)" fill="red"/>',
    'planks,board=9mm',
    /is no row of planks: expected a board of/,
  ],
  [
    'a strip too shallow for its lines',
    '<rect id="a" x="2" y="2" width="9" height="0.8" fill="red"/>',
    'i,flange=9mm',
    /rect.* is no I-section: expected a depth of .* so that its lines stay apart/,
  ],
  [
    'a strip that is no such section',
    '<rect id="a" x="2" y="2" width="30" height="5" fill="red"/>',
    'UB 533x210x92',
    /expected an outline 7 mm deep, or a profile .*, for section, got "5 mm"/,
  ],
])('%s is refused by its name, and nothing is written', async (_, inner, what, words) => {
  const folder = dressFolder(svg(inner.replace('id="a"', 'class="a"')));
  await expect(dress(folder, ['.a'], { relief: [wish('.a', what)] })).rejects.toThrow(words);
  expect(existsSync(join(folder, 'dressed.svg'))).toBe(false);
});

test('relief that nothing lies under, and keys that mean nothing, are refused', async () => {
  const folder = dressFolder(svg(pieces));
  const asked = { output: join(folder, 'out.svg'), scale, paint: paintOf(folder, ['.shield']) };
  const path = join(folder, 'front.svg');
  const bare = await dressDrawing(path, { ...asked, relief: [wish('.girder', 'panel')] });
  expect(bare).toMatchObject({ ok: false, code: 'no-outline' });
  const none = await dressDrawing(path, { ...asked, relief: [wish('.gider', 'panel')] });
  expect(none).toMatchObject({ ok: false, code: 'no-outline' });
  await expect(
    dressDrawing(path, { ...asked, relief: [wish('.shield', 'frame')] }),
  ).rejects.toThrow(/a panel, which shows the edges of holes as well, for relief/);
  await expect(
    dressDrawing(path, { ...asked, relief: [wish('.shield', 'plate-girder')] }),
  ).rejects.toThrow(
    /thickness of the flange of a plate girder.*, flange of \.shield, for relief, got undefined/,
  );
  await expect(
    dressDrawing(path, { ...asked, relief: [wish('.shield', 'panel,rise=20mm')] }),
  ).rejects.toThrow(
    'expected sunk beside it, for a raised panel shows no shadow, rise of .shield, for relief, got "20 mm"',
  );
});

test.each([
  ['girder', /expected one of i, channel/],
  ['panel,rise', /rise= and its value/],
  ['panel,sunk=1', /sunk alone/],
  ['planks,upright=yes', /upright alone/],
  ['panel,depth=3m', /sizes by name, each once/],
  ['panel,rise=3m,rise=4m', /sizes by name, each once/],
])('%s is no relief', (text, words) => {
  expect(() => parseDressRelief(text, 'relief')).toThrow(words);
});

test('what is written of relief is what the library takes', () => {
  expect(
    parseDressRelief('plate-girder, flange=40mm, rivet-head=1in, splice=3m', 'relief'),
  ).toEqual({
    ...{ profile: 'plate-girder', flange: 40, rivetHead: 25.4, splices: [3000] },
  });
  expect(parseDressRelief('UB 203x133x25,light=left', 'relief')).toMatchObject({
    ...{ section: { name: 'UB 203x133x25' }, light: 'left' },
  });
  expect(parseDressRelief('panel,sunk,rise=20mm', 'relief')).toEqual({
    ...{ profile: 'panel', isSunk: true, rise: 20 },
  });
  expect(parseDressRelief('planks,upright,board=8in', 'relief')).toEqual({
    ...{ profile: 'planks', isUpright: true, board: 203.2 },
  });
});
