import { dpi, findSection, parseProfile, realMm } from '@gaugerod/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnOf, drawStrip, mm, oneTo, type ReadStrip } from '../../support/relief-strip.js';

const plain = { length: mm(400), colour: '#606060' } as const;
const ground = 0x60;

// Depth and flange as EN 10365 prints them (IPE, HE: EN 10034 as well).
const printed = [
  ['UB 533x210x92', 533.1, 15.6],
  ['UB 914x419x388', 921, 36.6],
  ['IPE 300', 300, 10.7],
  ['IPE 600', 600, 19],
  ['HE 300 B', 300, 19],
  ['HE 600 B', 600, 30],
] as const;

describe.each(printed)('%s', (name, depth, flange) => {
  test.each([10, 20, 32])('is as deep as the standard says, to a dot, at 1:%d', async (ratio) => {
    const strip = await drawStrip({ ...plain, section: findSection(name), scale: oneTo(ratio) });
    const dots = (real: number): number => (real / ratio / 25.4) * 600;
    expect(Math.abs(strip.height - dots(depth))).toBeLessThanOrEqual(0.5);
    const column = columnOf(strip, 30);
    // Light from above: the underside of a flange is where light gives way to dark, the top of one where
    // light gives way to its plain face or its own dark line.
    const underside = column.findIndex((value) => value < 0.6 * ground);
    expect(Math.abs(underside - dots(flange))).toBeLessThanOrEqual(1);
    const light = column.findLastIndex((value) => value > 1.3 * ground);
    expect(Math.abs(light + 1 - dots(depth - flange))).toBeLessThanOrEqual(1);
  });
});

test('a girder 3.5 mm deep has lines of about 0.3 and 0.2 mm, apart from one another', async () => {
  // Common practice for a girder of 518 mm at 1:148.
  const { made, codes } = await drawStrip({
    ...plain,
    ...{ profile: 'i' as const, depth: mm(518), flange: mm(15.6), scale: oneTo(148) },
  });
  expect(made.piece.depthMm).toBe(3.5);
  for (const { fromMm, toMm } of made.lines) {
    expect(toMm - fromMm).toBeGreaterThan(0.2 - 1e-6);
    expect(toMm - fromMm).toBeLessThan(0.3 + 1e-6);
  }
  // 15.6 mm are 0.105 mm of paper, less than prints as a line: said, and drawn wider.
  expect(codes).toEqual(['drawn-wider']);
  expect(made.piece.flangeMm).toBe(0.2);
});

test('a light and a dark line lie as far from their ground as the standard of overlay says', async () => {
  // W3C Compositing and Blending 1, 10.1.3: below one half, overlay of white doubles what lies under it
  // and that of black leaves nothing, so that lines of one opacity lie equally far above and below it.
  const strip = await drawStrip({ ...plain, profile: 'plate', depth: mm(60), scale: oneTo(10) });
  const column = columnOf(strip, 9);
  const [light = 0, dark = 0] = [column[2], column.at(-3)];
  expect(column[Math.floor(strip.height / 2)]).toBe(ground);
  expect(light).toBeGreaterThan(1.3 * ground);
  expect(Math.abs(light + dark - 2 * ground)).toBeLessThanOrEqual(1);
});

function rowsOf({ data, width, height }: ReadStrip): Buffer[] {
  return Array.from({ length: height }, (_, y) =>
    data.subarray(3 * y * width, 3 * (y + 1) * width),
  );
}

// 254 dpi are 10 dots to the mm: whole dots have a middle row to mirror about.
const whole = { ...plain, scale: oneTo(20), dpi: dpi(254), length: mm(800) };

describe.each([
  ['i', { depth: mm(400), flange: mm(20), web: mm(10), width: mm(180), root: mm(16) }],
  ['channel', { depth: mm(400), flange: mm(20), web: mm(10), width: mm(100) }],
  ['box', { depth: mm(400), root: mm(30) }],
  ['plate', { depth: mm(400), rivets: mm(100) }],
  [
    'plate-girder',
    {
      ...{ depth: mm(400), flange: mm(10), leg: mm(75), web: mm(10), width: mm(180) },
      ...{ stiffeners: mm(200), rivets: mm(100), splices: [mm(310)] },
    },
  ],
] as const)('%s', (name, sizes) => {
  test('light from below is the mirror of light from above, to the byte', async () => {
    const piece = { ...whole, ...sizes, profile: parseProfile(name) };
    const above = await drawStrip({ ...piece, light: 'above' });
    const below = await drawStrip({ ...piece, light: 'below' });
    expect(above.data.equals(below.data)).toBe(false);
    expect(Buffer.concat(rowsOf(below).reverse()).equals(above.data)).toBe(true);
  });
});

test('light from the right is the mirror of light from the left, to the byte', async () => {
  const piece = {
    ...{ ...whole, profile: 'i' as const, depth: mm(400), flange: mm(20), web: mm(12) },
    ...{ stiffeners: mm(200), splices: [mm(400)], spliceWidth: mm(120), rivets: mm(60) },
  } as const;
  const left = await drawStrip({ ...piece, light: 'above-left' });
  const right = await drawStrip({ ...piece, light: 'above-right' });
  const turned = rowsOf(right).map((row) => {
    const pixels = Array.from({ length: row.length / 3 }, (_, i) => row.subarray(3 * i, 3 * i + 3));
    return Buffer.concat(pixels.reverse());
  });
  expect(Buffer.concat(turned).equals(left.data)).toBe(true);
  expect(left.data.equals(right.data)).toBe(false);
});

test('the stronger relief is, the farther all of it lies from its ground, and at 0 none is left', async () => {
  const piece = {
    ...{
      ...plain,
      profile: 'i' as const,
      depth: mm(533),
      flange: mm(15),
      web: mm(10),
      width: mm(209),
    },
    ...{ scale: oneTo(76.2), root: mm(12) },
  } as const;
  const strips = await Promise.all(
    [0, 0.25, 0.5, 1].map((strength) => drawStrip({ ...piece, strength })),
  );
  const [none, ...stronger] = strips.map((strip) => columnOf(strip, 30));
  expect(none?.every((value) => value === ground)).toBe(true);
  // The upper half: below, a light line lies in what is darkened, and either may gain.
  const half = (none?.length ?? 0) / 2;
  stronger.reduce((before, after) => {
    for (let y = 0; y < half; y++) {
      const [was, is] = [(before[y] ?? 0) - ground, (after[y] ?? 0) - ground];
      expect(Math.sign(was) * is).toBeGreaterThanOrEqual(Math.abs(was));
    }
    expect(after).not.toEqual(before);
    return after;
  });
});

// Lengths are told to six figures.
const told = 2e-4;

test('of any size, a piece has lines that print and lie apart, or is refused with a size that would do', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        depth: fc.double({ min: 20, max: 2000, noNaN: true }),
        share: fc.double({ min: 0.005, max: 0.4, noNaN: true }),
        ratio: fc.constantFrom(22.5, 32, 43.5, 76.2, 87, 148, 160, 220),
        resolution: fc.constantFrom(150, 300, 600),
      }),
      async ({ depth, share, ratio, resolution }) => {
        const piece = {
          ...{ profile: 'i' as const, depth: realMm(depth), flange: realMm(depth * share) },
          ...{ length: mm(ratio), scale: oneTo(ratio), dpi: dpi(resolution) },
        } as const;
        try {
          const { made } = await drawStrip(piece);
          made.lines.forEach(({ fromMm, toMm }, i) => {
            expect(toMm - fromMm).toBeGreaterThanOrEqual(0.2 - told);
            expect(fromMm).toBeGreaterThanOrEqual((made.lines[i - 1]?.toMm ?? 0) - told);
          });
          expect(made.piece.flangeMm).toBeGreaterThanOrEqual(0.2);
        } catch (error) {
          // Two lines and two flanges of 0.2 mm and a web as deep, or as much more as the flanges are.
          expect(error).toBeInstanceOf(RangeError);
          const thick = Math.max(0.2, (depth * share) / ratio);
          const least = 2 * thick + 3 * 0.2;
          const few = (depth / ratio / 25.4) * resolution < 6;
          expect(depth / ratio < least || few).toBe(true);
        }
      },
    ),
    { numRuns: 40 },
  );
});

test('pieces under one another are alike over a colour, white between them, bleed around each', async () => {
  const piece = { ...whole, profile: 'i', depth: mm(100), flange: mm(10), bleed: 0.5 } as const;
  const one = await drawStrip(piece);
  const three = await drawStrip({ ...piece, copies: 3, gap: 0.7 });
  // 50 dots and 5 of bleed on either side, 7 between.
  expect([one.height, three.height]).toEqual([60, 194]);
  for (const from of [0, 67, 134]) {
    const rows = three.data.subarray(3 * from * three.width, 3 * (from + 60) * three.width);
    expect(rows.equals(one.data)).toBe(true);
  }
  expect(
    rowsOf(three)
      .slice(60, 67)
      .every((row) => row.every((value) => value === 255)),
  ).toBe(true);
  // What reaches a side goes on past it.
  const column = columnOf(one, 40);
  expect(column.slice(0, 5)).toEqual(Array.from({ length: 5 }, () => column[5]));
});

test('black shows no light line, and that is said', async () => {
  const piece = { ...plain, profile: 'plate', depth: mm(500), scale: oneTo(100) } as const;
  expect((await drawStrip({ ...piece, colour: 'black' })).codes).toEqual(['faint-relief']);
  expect((await drawStrip({ ...piece, colour: 'white' })).codes).toEqual(['faint-relief']);
  expect((await drawStrip({ ...piece, colour: '#7a543e' })).codes).toEqual([]);
});

test('light from below is the mirror to the byte where a section comes to no whole dots', async () => {
  // 533.1 mm at 1:148 are 85.09 dots of 600 to the inch.
  const piece = {
    ...plain,
    section: findSection('UB 533x210x92'),
    scale: oneTo(148),
    dpi: dpi(600),
  };
  const above = await drawStrip({ ...piece, light: 'above' });
  const below = await drawStrip({ ...piece, light: 'below' });
  expect(Buffer.concat(rowsOf(below).reverse()).equals(above.data)).toBe(true);
});

describe('a splice of a plate girder', () => {
  const girder = {
    ...{ profile: 'plate-girder' as const, depth: mm(1200), flange: mm(40), leg: mm(100) },
    ...{ length: mm(5000), scale: oneTo(76.2), colour: '#606060' },
  } as const;

  test('lies between the legs of the angles and leaves them as they are', async () => {
    const without = rowsOf(await drawStrip(girder));
    const spliced = rowsOf(await drawStrip({ ...girder, splices: [mm(2500)] }));
    const changed = without.flatMap((row, y) => (row.equals(spliced[y] ?? row) ? [] : [y]));
    // Flange and leg are 140 mm: 1.837 mm of paper, 43.4 dots from either side.
    expect(changed.length).toBeGreaterThan(0);
    expect(Math.min(...changed)).toBeGreaterThanOrEqual(43);
    expect(Math.max(...changed)).toBeLessThan(without.length - 43);
  });

  test('is refused where a stiffener would hide its rivets or touch its side', async () => {
    const fitted = {
      ...girder,
      web: mm(12),
      stiffeners: mm(1000),
      rivets: mm(101.6),
      width: mm(350),
    };
    await expect(drawStrip({ ...fitted, splices: [mm(2665)] })).rejects.toThrow(
      /expected a splice beside the stiffeners, or with one of them in its middle, for splices/,
    );
    const { made } = await drawStrip({ ...fitted, splices: [mm(2500)] });
    expect(made).toMatchObject({ stiffeners: 5, splices: 1 });
  });
});

test('a flange thicker than the section is wide is refused', async () => {
  const piece = { ...plain, profile: 'angle' as const, depth: mm(150), scale: oneTo(32) };
  await expect(drawStrip({ ...piece, flange: mm(20), width: mm(10) })).rejects.toThrow(
    /less than 10 mm, the width, for flange/,
  );
});

test('a tee may have a corner as round as its stem is deep', async () => {
  const piece = { ...plain, profile: 'tee' as const, depth: mm(50), scale: oneTo(10) };
  const { made } = await drawStrip({ ...piece, flange: mm(10), root: mm(18) });
  expect(made.piece.depthMm).toBe(5);
});

test('black shows no lines at any strength, and is told so', async () => {
  const piece = { section: findSection('IPE 300'), length: mm(400), scale: oneTo(20) };
  const { messages } = await drawStrip({ ...piece, colour: 'black', strength: 0.5 });
  expect(messages).toContain('#000000 shows no lines, or hardly any: a paler one would');
});

test('a web that neither flanges nor stiffeners show is refused', async () => {
  const sizes = { profile: 'i' as const, depth: mm(300), flange: mm(11), web: mm(7) };
  const piece = { ...plain, ...sizes, scale: oneTo(20) };
  await expect(drawStrip(piece)).rejects.toThrow(
    /a width, or stiffeners, beside the thickness of the web for web/,
  );
  expect((await drawStrip({ ...piece, width: mm(150) })).made.piece.depthMm).toBe(15);
});

// 1:20, so that 20 mm are 1 mm of paper. Splices may lie 400 mm from either end; lines take 0.2 mm of paper.
test.each([
  [
    'a plate wider than where it lies allows',
    { splices: [mm(400)], spliceWidth: mm(820) },
    /expected up to 800 mm .* for spliceWidth/,
  ],
  [
    'a plate of no told width',
    { splices: [mm(100)] },
    /lie between the ends, and beside one another, for splices/,
  ],
  [
    'heads that touch where rivets are',
    { rivets: mm(60), rivetHead: mm(80) },
    /expected up to 56 mm .* for rivetHead/,
  ],
  ['rivets that touch', { rivets: mm(6) }, /a pitch of .* for rivets/],
  [
    'too many dots in one piece',
    { dpi: dpi(4800), length: mm(20_000), depth: mm(8000) },
    /dots in all for dpi/,
  ],
] as const)('%s is laid at its own door', async (_, more, words) => {
  const girder = { depth: mm(400), flange: mm(20), web: mm(10), width: mm(180) };
  await expect(drawStrip({ ...whole, profile: 'i', ...girder, ...more })).rejects.toThrow(words);
});

test('rivets that lie on lines, or are farther apart than the piece is long, are refused', async () => {
  // 1.35 mm of paper deep: the row in the middle of the upright leg has 0.28 mm to the line above it.
  const angle = { ...plain, profile: 'angle' as const, flange: mm(9), length: mm(2000) };
  const small = { ...angle, depth: mm(200), rivets: mm(200), rivetHead: mm(100) };
  await expect(drawStrip({ ...small, scale: oneTo(148) })).rejects.toThrow(
    /expected heads of .* or less, so that they stay off the lines beside them, for rivetHead/,
  );
  const far = { ...plain, profile: 'plate' as const, depth: mm(300), scale: oneTo(20) };
  await expect(drawStrip({ ...far, rivets: mm(1_000_000) })).rejects.toThrow(
    /a pitch of 400 mm \(20 mm of paper\) or less, the length, for rivets/,
  );
});
