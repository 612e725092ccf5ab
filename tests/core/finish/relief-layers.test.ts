import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dpi, findSection, type MadeRelief, makeRelief } from '@gaugerod/core';
import { renderers } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { mm, oneTo } from '../../support/relief-strip.js';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-layers-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Buffer;
}

async function read(path: string): Promise<Picture> {
  const { data, info } = await sharp(path)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
}

let count = 0;
async function draw(
  options: Omit<Parameters<typeof makeRelief>[1], 'output' | 'isLayered'>,
  kind = 'png',
): Promise<MadeRelief & { readonly pictures: readonly Picture[] }> {
  const output = join(folder, `piece-${++count}.${kind}`);
  const made = await makeRelief(null, { ...options, output, isLayered: true });
  if (!made.ok) throw new Error(made.message);
  const pictures =
    kind === 'png' ? await Promise.all(made.value.layers.map(({ file }) => read(file))) : [];
  return { ...made.value, pictures };
}

const isCard = ({ data }: Picture, at: number): boolean => (data[4 * at + 3] ?? 0) > 127;

// Runs of card down a column, or where there is none.
function runsDown(picture: Picture, x: number): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (let y = 0; y < picture.height; y++) {
    if (!isCard(picture, y * picture.width + x)) continue;
    const last = runs.at(-1);
    if (last?.[1] === y) last[1] = y + 1;
    else runs.push([y, y + 1]);
  }
  return runs;
}

// How many pieces of card hang together, or openings with card all round them: by a flood from dot to dot.
function countApart(picture: Picture, card: boolean): number {
  const { width, height } = picture;
  const seen = new Set<number>();
  const isBorder = (at: number): boolean =>
    at % width === 0 || at % width === width - 1 || at < width || at >= width * (height - 1);
  const beside = (at: number): readonly number[] =>
    [at % width > 0 ? at - 1 : at, (at + 1) % width > 0 ? at + 1 : at, at - width, at + width]
      .filter((to) => to >= 0 && to < width * height && !seen.has(to))
      .filter((to) => isCard(picture, to) === card);
  const flood = (from: number): boolean => {
    let isOpen = false;
    const next = [from];
    for (let at = next.pop(); at !== undefined; at = next.pop()) {
      if (seen.has(at)) continue;
      seen.add(at);
      isOpen ||= isBorder(at);
      next.push(...beside(at));
    }
    return isOpen;
  };
  return Array.from({ length: width * height }, (_, at) => at).filter(
    (at) => isCard(picture, at) === card && !seen.has(at) && (!flood(at) || card),
  ).length;
}

// Laid on one another they show the flat print, and each lies on the one under it all over.
function expectWhole(pictures: readonly Picture[]): void {
  const [whole] = pictures;
  pictures.slice(1).forEach((layer, i) => {
    expect([layer.width, layer.height]).toEqual([whole?.width, whole?.height]);
    const dots = Array.from({ length: layer.width * layer.height }, (_, at) => at).filter(
      (at) => layer.data[4 * at + 3] !== 0,
    );
    const colour = (picture: Picture | undefined, at: number): string | undefined =>
      picture?.data.subarray(4 * at, 4 * at + 3).join();
    expect(dots.filter((at) => colour(layer, at) !== colour(whole, at))).toEqual([]);
    expect(dots.filter((at) => pictures[i]?.data[4 * at + 3] === 0)).toEqual([]);
  });
}

const plateGirder = {
  ...{ profile: 'plate-girder' as const, depth: mm(1200), flange: mm(40), leg: mm(100) },
  ...{ web: mm(12), width: mm(350), stiffeners: mm(1200), rivets: mm(100), colour: '#7a543e' },
};

test('a beam comes to a whole and two flanges, cut where the catalogue has them', async () => {
  // UB 914x419x388: 921 deep, flanges 36.6 mm, 420.5 wide over a web of 21.4 (EN 10365). At 1:20 and 600 dpi a mm
  // of the real thing is 600 / 25.4 / 20 = 1.1811 dots: 1087.8 deep, flanges 43.2.
  const { layers, pictures } = await draw({
    ...{ section: findSection('UB 914x419x388'), length: mm(2000), scale: oneTo(20) },
  });
  // (420.5 - 21.4) / 2 / 20 = 9.98 mm stand out: twenty cards of 0.5 mm.
  expect(layers.map(({ name, cards, pieces }) => [name, cards, pieces])).toEqual([
    ['the whole', 1, 1],
    ['flanges', 20, 2],
  ]);
  expectWhole(pictures);
  const [, flanges] = pictures;
  if (flanges === undefined) throw new Error('no flanges');
  const [[top, under] = [NaN, NaN], [over, foot] = [NaN, NaN], ...others] = runsDown(flanges, 500);
  expect(others).toEqual([]);
  expect(top).toBe(0);
  expect(Math.abs(under - 43.2)).toBeLessThanOrEqual(1);
  expect(Math.abs(over - (1087.8 - 43.2))).toBeLessThanOrEqual(1);
  expect(foot).toBe(flanges.height);
});

test('a plate girder comes to web, angles, and flanges held together by stiffeners', async () => {
  const { layers, pictures } = await draw({
    ...{ ...plateGirder, splices: [mm(3000)], covers: [mm(6000)], length: mm(9000) },
    ...{ scale: oneTo(76.2), bleed: 1, dpi: dpi(300) },
  });
  expect(layers.map(({ name }) => name)).toEqual([
    'the whole',
    'angles and splices',
    'flanges and stiffeners',
  ]);
  expectWhole(pictures);
  // Of the second and the third, counted in the picture.
  for (const [i, picture] of pictures.entries()) {
    if (i === 0) continue;
    expect(layers[i]?.pieces).toBe(countApart(picture, true));
  }
  // 8 stiffeners 1.2 m apart: seven panels between them, open ones at both ends.
  const [, , frame] = pictures;
  if (frame === undefined) throw new Error('no frame');
  expect([layers[2]?.pieces, layers[2]?.openings]).toEqual([1, 7]);
  expect(countApart(frame, false)).toBe(7);
});

test('plates on the flanges are no thinner than their card, which is told', async () => {
  const output = join(folder, 'plates.png');
  const made = await makeRelief(null, {
    ...{ ...plateGirder, covers: [mm(6000)], length: mm(9000), scale: oneTo(76.2), output },
    ...{ dpi: dpi(300), isLayered: true, card: 1 },
  });
  if (!made.ok) throw new Error(made.message);
  // 1200 mm at 1:76.2, and a card of 1 mm above and below it.
  expect(made.value.piece.depthMm).toBeCloseTo(1200 / 76.2 + 2, 3);
  expect(made.warnings.map(({ message }) => message).join()).toMatch(
    /a plate on it .* drawn 1 mm, the least that is cut from the card/,
  );
});

test('nothing that is cut is narrower than the card is thick, and what was drawn wider is told', async () => {
  const output = join(folder, 'thin.png');
  const made = await makeRelief(null, {
    ...{ ...plateGirder, length: mm(9000), scale: oneTo(148), output, dpi: dpi(600) },
    ...{ isLayered: true, card: 0.7 },
  });
  if (!made.ok) throw new Error(made.message);
  // 40 mm are 0.27 mm of paper.
  expect(made.value.piece.flangeMm).toBe(0.7);
  const told = made.warnings.map(({ message }) => message);
  expect(told[0]).toMatch(/^a flange of 40 mm is 0\.27 mm of paper: drawn 0\.7 mm, .*cut from/);
  expect(told[1]).toMatch(/^a stiffener of 12 mm is 0\.081 mm of paper: drawn 0\.3 mm/);
  const frame = await read(made.value.layers[2]?.file ?? '');
  const middle = Math.round(frame.height / 2);
  const widths = [];
  let wide = 0;
  for (let x = 0; x <= frame.width; x++) {
    if (x < frame.width && isCard(frame, middle * frame.width + x)) wide++;
    else if (wide > 0) {
      widths.push((wide * 25.4) / 600);
      wide = 0;
    }
  }
  expect(widths).toHaveLength(made.value.stiffeners);
  // To a dot: 0.042 mm.
  for (const mmWide of widths) expect(mmWide).toBeGreaterThan(0.7 - 0.043);
});

test('layers of an arch follow it', async () => {
  const along = { path: join(folder, 'arch.svg') };
  writeFileSync(
    along.path,
    '<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60"><path fill="none" d="M10 45 A25 25 0 0 1 60 45"/></svg>',
  );
  const { layers, pictures } = await draw({
    ...{
      ...plateGirder,
      depth: mm(500),
      scale: oneTo(76.2),
      along,
      bleed: 1,
      dpi: dpi(300),
      stiffeners: mm(800),
    },
  });
  expectWhole(pictures);
  for (const [i, picture] of pictures.entries()) {
    expect(layers[i]?.pieces).toBe(countApart(picture, true));
    if (i > 0) expect(layers[i]?.openings).toBe(countApart(picture, false));
  }
});

test('of a sunk panel the front has the recess cut out of it; a raised one is laid on', async () => {
  const panel = {
    ...{ profile: 'panel' as const, depth: mm(1000), length: mm(600), around: 4 },
    ...{ scale: oneTo(43.5), rise: mm(40), dpi: dpi(300), colour: '#7a543e' },
  };
  const sunk = await draw({ ...panel, isSunk: true });
  // 40 / 43.5 = 0.92 mm: two cards.
  expect(sunk.layers[1]).toMatchObject({ name: 'front', cards: 2, pieces: 1, openings: 1 });
  const raised = await draw(panel);
  expect(raised.layers[1]).toMatchObject({ name: 'panel', cards: 2, pieces: 1, openings: 0 });
  for (const { pictures } of [sunk, raised]) expectWhole(pictures);
  // 4 mm are 47.2 dots at 300 dpi, 600 / 43.5 = 13.79 mm are 162.9.
  const across = (picture: Picture | undefined, card: boolean): number => {
    if (picture === undefined) return NaN;
    const row = Math.round(picture.height / 2) * picture.width;
    return Array.from({ length: picture.width }, (_, x) => isCard(picture, row + x)).filter(
      (one) => one === card,
    ).length;
  };
  expect(Math.abs(across(sunk.pictures[1], false) - 162.9)).toBeLessThanOrEqual(1);
  expect(Math.abs(across(raised.pictures[1], true) - 162.9)).toBeLessThanOrEqual(1);
});

test('of a door the panels are cut out, or laid on', async () => {
  const door = {
    ...{ profile: 'door' as const, depth: mm(2000), length: mm(900), panes: { x: 2, y: 3 } },
    ...{ scale: oneTo(43.5), dpi: dpi(300), bleed: 1, colour: '#7a543e' },
  };
  const sunk = await draw({ ...door, isSunk: true });
  expect(sunk.layers[1]).toMatchObject({ name: 'stiles and rails', pieces: 1, openings: 6 });
  const raised = await draw(door);
  expect(raised.layers[1]).toMatchObject({ name: 'panels', pieces: 6, openings: 0 });
  const proud = await draw({ ...door, around: 3 });
  expect(proud.layers.map(({ name }) => name)).toEqual(['the whole', 'door', 'panels']);
  for (const { pictures } of [sunk, raised, proud]) expectWhole(pictures);
  const [, front] = sunk.pictures;
  // Bleed is past its outer edge: the page's own.
  expect(front && isCard(front, 0)).toBe(true);
});

test.each(renderers.filter(({ isThere }) => isThere))(
  '$name shows a layer of a drawing where the picture has it, its line to cut along too',
  async ({ render }) => {
    const piece = {
      ...{ ...plateGirder, length: mm(9000), scale: oneTo(76.2), bleed: 1, dpi: dpi(300) },
      ...{ covers: [mm(6000)], copies: 2 },
    };
    const { layers, widthMm, heightMm } = await draw(piece, 'svg');
    const file = layers[2]?.file ?? '';
    const text = readFileSync(file, 'utf8');
    const cut = join(folder, `cut-${++count}.svg`);
    writeFileSync(
      cut,
      text.replace(/<image [^>]*>/, '').replace('id="cut" fill="none"', 'fill="black"'),
    );
    const [shown, line] = [
      await render(file, 300, [widthMm, heightMm]),
      await render(cut, 300, [widthMm, heightMm]),
    ];
    // Print goes on past what is cut: they are held against each other a dot within the girders, 1200 mm deep at 1:76.2
    // between plates of 40 mm.
    const [dot, depth, plate] = [25.4 / 300, 1200 / 76.2, 40 / 76.2];
    const pitch = heightMm - depth - 2 * plate - 2;
    const isWithin = (at: number): boolean => {
      const [x, y] = [
        ((at % shown.width) + 0.5) * dot,
        (Math.floor(at / shown.width) + 0.5) * dot - 1 - plate,
      ];
      const isAlong = x > 1 + dot && x < widthMm - 1 - dot;
      return isAlong && [y, y - pitch].some((down) => down > dot && down < depth - dot);
    };
    let off = 0;
    let card = 0;
    for (let i = 3; i < Math.min(shown.data.length, line.data.length); i += 4) {
      const [one, other] = [(shown.data[i] ?? 0) > 127, (line.data[i] ?? 0) > 127];
      if (!isWithin((i - 3) / 4)) continue;
      if (one) card++;
      if (one !== other) off++;
    }
    expect(card).toBeGreaterThan(1000);
    // Along its edges, half a dot.
    expect(off / card).toBeLessThan(0.02);
  },
);

test.each([
  ['a plate, of which nothing stands out', { profile: 'plate' as const, depth: mm(300) }, /layers/],
  ['a panel alone', { profile: 'panel' as const, depth: mm(300) }, /around/],
  [
    'card too thick to be cut',
    { profile: 'tee' as const, depth: mm(300), flange: mm(10), card: 4 },
    /0\.1 to 3 mm for card/,
  ],
])('%s is refused', async (_, piece, words) => {
  const output = join(folder, 'refused.png');
  const asked = { ...piece, length: mm(900), scale: oneTo(20), output, isLayered: true };
  await expect(makeRelief(null, asked)).rejects.toThrow(words);
  expect(readdirSync(folder)).not.toContain('refused.png');
});

test('card without layers, and layers of a picture that cannot be transparent, are refused', async () => {
  const tee = { profile: 'tee' as const, depth: mm(300), flange: mm(10), length: mm(900) };
  const asked = { ...tee, scale: oneTo(20), output: join(folder, 'refused.jpg') };
  await expect(makeRelief(null, { ...asked, card: 0.5 })).rejects.toThrow(/layers .* for card/);
  await expect(makeRelief(null, { ...asked, isLayered: true })).rejects.toThrow(/transparent/);
  expect(readdirSync(folder)).not.toContain('refused.jpg');
});
