import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dpi, findSection, makeRelief } from '@gaugerod/core';
import { renderers } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { drawStrip, mm, oneTo } from '../../support/relief-strip.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-bent-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

let count = 0;
function drawing(inside: string, size = [160, 80] as const): { readonly path: string } {
  const path = join(folder, `path-${++count}.svg`);
  const [width, height] = size;
  writeFileSync(
    path,
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">${inside}</svg>`,
  );
  return { path };
}

interface Picture {
  readonly width: number;
  readonly height: number;
  /** RGBA. */
  readonly data: Buffer;
}

async function read(path: string): Promise<Picture> {
  const { data, info } = await sharp(path)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
}

const at = ({ data, width }: Picture, x: number, y: number, channel = 1): number =>
  data[4 * (Math.floor(y) * width + Math.floor(x)) + channel] ?? 0;

// Half a circle of radius 60 mm about 70,75, from its left end over the top.
const arch = '<path d="M10 75 A60 60 0 0 1 130 75" fill="none"/>';
const ground = 0x60;
const perMm = 600 / 25.4;

test('an arch has its edges and its flanges where the circle and the standard say, to a dot', async () => {
  // UB 914x419x388 of EN 10365: 921 mm deep, flanges 36.6 mm.
  const strip = await drawStrip({
    ...{ section: findSection('UB 914x419x388'), scale: oneTo(76.2), colour: '#606060' },
    along: drawing(arch),
  });
  const { made } = strip;
  const picture = await read(strip.path);
  const half = 921 / 76.2 / 2;
  // Half round: pi times 60 mm.
  expect(made.piece.lengthMm).toBeCloseTo(Math.PI * 60, 2);
  expect(made.along?.xMm).toBeCloseTo(70 - 60 - half, 3);
  expect(made.along?.yMm).toBeCloseTo(75 - 60 - half, 3);
  const centre = { x: (60 + half) * perMm, y: (60 + half) * perMm };
  for (const degrees of [20, 45, 70, 90, 117, 160]) {
    const [dx, dy] = [Math.cos((degrees * Math.PI) / 180), -Math.sin((degrees * Math.PI) / 180)];
    // Past the picture there is nothing.
    const along = (radius: number, channel = 1): number =>
      at(picture, centre.x + radius * perMm * dx, centre.y + radius * perMm * dy, channel) || 0;
    const dot = 1 / perMm;
    for (const [side, sign] of [
      [60 + half, 1],
      [60 - half, -1],
    ] as const) {
      expect(along(side - sign * 1.2 * dot, 3)).toBe(255);
      expect(along(side + sign * 1.2 * dot, 3)).toBe(0);
    }
    // Light from above: a light line within the top flange, a dark one under it.
    const flange = 36.6 / 76.2;
    expect(along(60 + half - 0.1)).toBeGreaterThan(1.1 * ground);
    expect(along(60 + half - flange + 1.2 * dot)).toBe(ground);
    expect(along(60 + half - flange - 1.2 * dot)).toBeLessThan(0.8 * ground);
    // The foot's inner edge faces up, and its outer edge down.
    expect(along(60 - half + flange - 1.2 * dot)).toBe(ground);
    expect(along(60 - half + 0.1)).toBeLessThan(0.95 * ground);
  }
});

test('along a straight path a girder is the straight one', async () => {
  const girder = {
    ...{ profile: 'plate-girder' as const, depth: mm(200), flange: mm(10), leg: mm(40) },
    ...{ web: mm(6), width: mm(90), stiffeners: mm(200), rivets: mm(40), covers: [mm(500)] },
    ...{ scale: oneTo(10), dpi: dpi(254), bleed: 1, light: 'above-left' as const },
  };
  // Drawn from the right: up is up all the same.
  const bent = await drawStrip({
    ...girder,
    along: drawing('<line x1="100" y1="40" x2="20" y2="40"/>'),
  });
  const straight = await drawStrip({ ...girder, length: mm(800) });
  const [one, other] = [await read(bent.path), await read(straight.path)];
  expect([one.width, one.height]).toEqual([other.width, other.height]);
  expect(bent.made.rivets).toBe(straight.made.rivets);
  expect(bent.made.stiffeners).toBe(straight.made.stiffeners);
  let [shown, worst] = [0, 0];
  for (let i = 0; i < one.data.length; i += 4) {
    if (one.data[i + 3] !== 255) continue;
    shown++;
    worst = Math.max(worst, Math.abs((one.data[i] ?? 0) - (other.data[i] ?? 0)));
  }
  expect(worst).toBeLessThanOrEqual(1);
  // All but what lies beside the plates, and corners of the bleed.
  expect(shown / (one.width * one.height)).toBeGreaterThan(0.9);
});

test('light from the right on an arch is the mirror of light from the left on its mirror', async () => {
  const piece = {
    ...{ profile: 'i' as const, depth: mm(60), flange: mm(5), width: mm(40), web: mm(4) },
    ...{ scale: oneTo(10), dpi: dpi(254), root: mm(5), stiffeners: mm(100) },
  };
  const path = 'M20 60 C30 20 90 0 140 50';
  const mirrored = 'M140 60 C130 20 70 0 20 50';
  const left = await drawStrip({
    ...piece,
    light: 'above-left',
    along: drawing(`<path d="${path}"/>`),
  });
  const right = await drawStrip({
    ...{ ...piece, light: 'above-right' },
    along: drawing(`<path d="${mirrored}"/>`),
  });
  const [one, other] = [await read(left.path), await read(right.path)];
  expect([one.width, one.height]).toEqual([other.width, other.height]);
  // Dots begin with the left side of either, so that both may lie a part of a dot apart.
  let sum = 0;
  for (let y = 0; y < one.height; y++) {
    for (let x = 0; x < one.width; x++) {
      sum += Math.abs(at(one, x, y) - at(other, one.width - 1 - x, y));
    }
  }
  expect(sum / (one.width * one.height)).toBeLessThan(2);
});

test('round a closed path rivets and stiffeners go as often as its length holds them', async () => {
  const { made } = await drawStrip({
    ...{
      profile: 'plate-girder' as const,
      depth: mm(400),
      flange: mm(20),
      leg: mm(80),
    },
    ...{ scale: oneTo(50), along: drawing('<circle cx="60" cy="40" r="30"/>'), rivets: mm(100) },
  });
  // 2 pi 30 mm are 188.5: 94 rivets 2 mm apart in each of two rows.
  expect(made.rivets).toBe(2 * 94);
  expect(made.piece.lengthMm).toBeCloseTo(2 * Math.PI * 30, 2);
  // The ring as wide as its middle line and half its depth on either side: 8 mm.
  expect(made.widthMm).toBeCloseTo(68, 1);
});

test.each(renderers.filter(({ isThere }) => isThere))(
  '$name shows an arch in a drawing as the picture is',
  async ({ render, name }) => {
    const piece = {
      ...{ profile: 'plate-girder' as const, depth: mm(500), flange: mm(20), leg: mm(80) },
      ...{ web: mm(10), width: mm(200), stiffeners: mm(800), rivets: mm(100), bleed: 1 },
      ...{ scale: oneTo(76.2), covers: [mm(2500)], colour: '#7a543e', dpi: dpi(300) },
      along: drawing('<path d="M10 45 A25 25 0 0 1 60 45"/>'),
    };
    const png = await read((await drawStrip(piece)).path);
    const output = join(folder, `arch-${name}.svg`);
    const made = await makeRelief(null, { ...piece, output });
    if (!made.ok) throw new Error(made.message);
    const live = join(folder, `live-${name}.svg`);
    writeFileSync(
      live,
      readFileSync(output, 'utf8')
        .replace('#live{display:none;', '#live{')
        .replace('</style>', '#baked{display:none}</style>'),
    );
    const { widthMm, heightMm } = made.value;
    for (const file of [output, live]) {
      const seen = await render(file, 300, [widthMm, heightMm]);
      let [far, all] = [0, 0];
      for (let y = 1; y < png.height - 2; y++) {
        for (let x = 1; x < png.width - 2; x++) {
          // Where it is card through and through; each renderer smooths its edge in its own way.
          const isCard = [-2, 0, 2].every(
            (d) => at(png, x + d, y, 3) === 255 && at(png, x, y + d, 3) === 255,
          );
          if (!isCard) continue;
          all++;
          if (Math.abs(at(png, x, y) - at(seen, x, y)) > 16) far++;
        }
      }
      expect(all).toBeGreaterThan(20_000);
      expect(far / all).toBeLessThan(0.06);
    }
  },
  60_000,
);

describe('a path is refused', () => {
  const piece = { section: findSection('UB 533x210x92'), scale: oneTo(76.2) };

  test.each([
    [
      'with a corner',
      '<path d="M10 50 L60 20 L110 50"/>',
      /expected a path without corners for along, got "one of 62 degrees"/,
    ],
    // Half the depth is 3.498 mm of paper.
    [
      'that bends too tight',
      '<path d="M10 50 A3 3 0 0 1 16 50"/>',
      /a radius of .* \(3\.85 mm of paper\) or more all along/,
    ],
    ['of no length', '<path d="M10 50 L10 50"/>', /a line of no length|holds no line/],
    [
      'where there are two',
      '<path id="a" d="M10 50 H60"/><path id="b" d="M10 60 H60"/>',
      /holds 2 lines and a piece follows one: #a, #b/,
    ],
    ['where there is none', '<text>arch</text>', /holds no line/],
  ])('%s', async (_, inside, words) => {
    await expect(drawStrip({ ...piece, along: drawing(inside) })).rejects.toThrow(words);
  });

  test('beside a length, and for a picture that cannot be clear', async () => {
    const along = drawing(arch);
    await expect(drawStrip({ ...piece, along, length: mm(4000) })).rejects.toThrow(
      /no length beside a path/,
    );
    await expect(drawStrip(piece)).rejects.toThrow(/a length, or a path to follow, for length/);
    await expect(drawStrip({ ...piece, along }, null, 'arch.jpg')).rejects.toThrow(/jpg|JPEG/);
  });
});
