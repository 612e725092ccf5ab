import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  dpi,
  findPaper,
  type SheetedPart,
  sheetParts,
  type SheetPartsOptions,
} from '@gaugerod/core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { drawn, image, svg, uri } from '../../support/part-drawings.js';
import { tempFolder } from '../../support/temp-folder.js';

interface Dots {
  readonly width: number;
  readonly data: Buffer;
}

async function read(file: string): Promise<Dots> {
  const picture = sharp(file, { limitInputPixels: false }).removeAlpha().toColourspace('srgb');
  const { data, info } = await picture.raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, data };
}

type Wanted = Partial<SheetPartsOptions>;

async function sheeted(
  folder: string,
  text: string,
  options: Wanted = {},
): Promise<readonly SheetedPart[]> {
  const part = join(folder, 'part.svg');
  writeFileSync(part, text);
  const output = join(folder, 'page.png');
  const outcome = await sheetParts([part], { output, dpi: dpi(600), ...options });
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value.parts;
}

const page = 'width="80mm" height="60mm" viewBox="0 0 80 60"';
const drawer = 'pdftoppm';
const draws = spawnSync(drawer, ['-v']).error === undefined;
if (!draws) console.log(`skipped: ${drawer} is not installed`);

// What differs most, and so shows how it lies.
const mixed = `${drawn['lines'] ?? ''}${drawn['pictures turned, mirrored, clipped and cut'] ?? ''}`;
const shown: Readonly<Record<string, readonly [string, Wanted]>> = {
  ...Object.fromEntries(Object.entries(drawn).map(([name, inner]) => [name, [inner, {}]])),
  'all corrected for a printer': [mixed, { printerX: 98.9, printerY: 101.2 }],
  'all copied, and mirrored in layers': [mixed, { copies: 2, layers: 2, mirror: true }],
  'all cut in pieces': [mixed, { paper: findPaper('70x105mm') }],
  'all on its side': [mixed, { paper: findPaper('90x105mm') }],
};

const steps = [-1, 0, 1];
const near = ({ width }: Dots, at: number): number[] =>
  steps.flatMap((row) => steps.map((column) => at + row * width + column));

// By how much two dots differ, of 255.
function apart(one: Dots, at: number, other: Dots, there: number): number {
  let most = 0;
  for (let c = 0; c < 3; c++) {
    most = Math.max(most, Math.abs((one.data[3 * at + c] ?? 0) - (other.data[3 * there + c] ?? 0)));
  }
  return most;
}

// Whether a dot is, channel by channel, as some of those are or between them.
function isBetween(one: Dots, at: number, others: Dots, there: readonly number[]): boolean {
  return [0, 1, 2].every((c) => {
    const ink = one.data[3 * at + c] ?? 0;
    const inks = there.map((place) => others.data[3 * place + c] ?? 0);
    return ink > Math.min(...inks) - 64 && ink < Math.max(...inks) + 64;
  });
}

// By how many dots edges in a part are apart in the mean, and dots of ours that none near theirs is like.
function compare(
  ours: Dots,
  theirs: Dots,
  { xMm, yMm, widthMm, heightMm, layer }: SheetedPart,
  { printerX = 100, printerY = 100 }: Wanted,
): { readonly off: number; readonly odd: number } {
  const [perX, perY] = [30_000 / 25.4 / printerX, 30_000 / 25.4 / printerY];
  const [left, right] = [Math.floor(xMm * perX) - 1, Math.ceil((xMm + widthMm) * perX) + 1];
  const [top, foot] = [Math.floor(yMm * perY) - 1, Math.ceil((yMm + heightMm) * perY) + 1];
  // Of a layer without print all is pale.
  const contrast = layer > 1 ? 29 : 255;
  let [sum, edges, odd] = [0, 0, 0];
  for (let y = top; y < foot; y++) {
    for (let x = left; x < right; x++) {
      const [here, there] = [y * ours.width + x, y * theirs.width + x];
      const off = apart(ours, here, theirs, there);
      sum += off / contrast;
      // An edge is as long as it is from side to side or from top to foot, whichever is more.
      const across = apart(theirs, there - 1, theirs, there + 1);
      const down = apart(theirs, there - theirs.width, theirs, there + theirs.width);
      if (Math.max(across, down) > contrast / 2) edges += 0.5;
      if (off > 64 && !isBetween(ours, here, theirs, near(theirs, there))) odd++;
    }
  }
  return { off: sum / Math.max(1, edges), odd };
}

test.skipIf(!draws).each(Object.keys(shown))(
  'a page that is a picture shows what a renderer of PDF makes of that page: %s',
  async (name) => {
    const [inner, options] = shown[name] ?? ['', {}];
    const folder = tempFolder();
    const text = svg(inner, page);
    const parts = await sheeted(folder, text, { ...options, dpi: dpi(300) });
    await sheeted(folder, text, { ...options, output: join(folder, 'page.pdf') });
    const words = ['-r', '300', '-png', join(folder, 'page.pdf'), join(folder, 'their')];
    expect(spawnSync(drawer, words).status).toBe(0);
    const names = readdirSync(folder).toSorted();
    const [ours, theirs] = [/^page.*\.png$/, /^their-\d+\.png$/].map((kind) =>
      names.filter((one) => kind.test(one)),
    );
    let seen = 0;
    for (const [i, file] of (ours ?? []).entries()) {
      const here = await read(join(folder, file));
      const there = await read(join(folder, theirs?.[i] ?? ''));
      for (const part of parts.filter(({ page: on }) => on === i + 1)) {
        const { off, odd } = compare(here, there, part, options);
        expect(off).toBeLessThan(0.5);
        expect(odd).toBeLessThan(4);
        seen++;
      }
    }
    expect(seen).toBe(parts.length);
  },
);

// Of a page at 1200 dpi, the first and last dark dot along a line through a part, mm of the part.
function darkAlong(dots: Dots, part: SheetedPart, at: number, across: boolean): readonly number[] {
  const perMm = 1200 / 25.4;
  const [from, length] = across ? [part.xMm, part.widthMm] : [part.yMm, part.heightMm];
  const other = Math.floor(((across ? part.yMm : part.xMm) + at) * perMm);
  const dark: number[] = [];
  for (let i = Math.floor(from * perMm); i < (from + length) * perMm; i++) {
    const place = across ? other * dots.width + i : i * dots.width + other;
    if ((dots.data[3 * place] ?? 255) < 128) dark.push(i);
  }
  return [(dark[0] ?? 0) / perMm - from, ((dark.at(-1) ?? 0) + 1) / perMm - from];
}

test('edges lie where the drawing says, to 0.05 mm on a page of 1200 dpi', async () => {
  // Sides are the figures in the path itself.
  const text = svg('<path d="M3.21 4.57H71.83V52.9H3.21Z"/>', page);
  const folder = tempFolder();
  for (const turned of [false, true]) {
    const options = { paper: findPaper(turned ? '90x105mm' : '110x90mm') };
    const [part] = await sheeted(folder, text, { ...options, dpi: dpi(1200) });
    if (part === undefined) throw new Error('no part');
    expect(part.turned).toBe(turned);
    const dots = await read(join(folder, 'page.png'));
    const across = darkAlong(dots, part, 30, true);
    const down = darkAlong(dots, part, 30, false);
    // On its side the left edge is on top: what was y runs from right to left.
    const told = turned ? [60 - 52.9, 60 - 4.57, 3.21, 71.83] : [3.21, 71.83, 4.57, 52.9];
    for (const [i, side] of [...across, ...down].entries()) {
      expect(Math.abs(side - (told[i] ?? NaN))).toBeLessThan(0.05);
    }
  }
});

// 600 x 400 dots at 600 dpi: 25.4 x 16.93 mm.
const noise = Buffer.from(Array.from({ length: 600 * 400 * 3 }, (_, i) => (i * 7919) % 251));
const grain = await sharp(noise, { raw: { width: 600, height: 400, channels: 3 } })
  .png()
  .toBuffer();

test.each([
  ['a picture in the drawing', `data:image/png;base64,${grain.toString('base64')}`],
  ['a picture beside it', 'grain.png'],
])('%s that is made for the page keeps every dot', async (_, href) => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'grain.png'), grain);
  const laid = `<image x="5.08" y="5.08" width="25.4" height="${25.4 / 1.5}" href="${href}"/>`;
  const [part] = await sheeted(folder, svg(`${laid}<path d="M50 40h9v9z"/>`, page));
  const [left, top] = [part?.xMm ?? 0, part?.yMm ?? 0].map((mm) => Math.round((mm * 600) / 25.4));
  const { data } = await sharp(join(folder, 'page.png'))
    .extract({ left: (left ?? 0) + 120, top: (top ?? 0) + 120, width: 600, height: 400 })
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect(data.equals(noise)).toBe(true);
});

test('a picture that is finer than the page keeps its light', async () => {
  // Black and white by turns reflect half of the light, which sRGB writes as 188 (IEC 61966-2-1).
  const fine = Buffer.from(
    Array.from({ length: 2000 * 100 * 3 }, (_, i) => 255 * (Math.floor(i / 3) % 2)),
  );
  const stripes = await sharp(fine, { raw: { width: 2000, height: 100, channels: 3 } })
    .png()
    .toBuffer();
  const href = `data:image/png;base64,${stripes.toString('base64')}`;
  const folder = tempFolder();
  const laid = `<image x="10" y="10" width="20" height="1" transform="rotate(20 20 10)" href="${href}"/>`;
  const [part] = await sheeted(folder, svg(laid, page), { dpi: dpi(300) });
  const dots = await read(join(folder, 'page.png'));
  const [x, y] = [(part?.xMm ?? 0) + 20 - 0.17, (part?.yMm ?? 0) + 10.47].map((mm) =>
    Math.floor((mm * 300) / 25.4),
  );
  expect(Math.abs((dots.data[3 * ((y ?? 0) * dots.width + (x ?? 0))] ?? 0) - 188)).toBeLessThan(6);
});

test('a line that is thinner than a dot is drawn a dot wide', async () => {
  const folder = tempFolder();
  const [part] = await sheeted(
    folder,
    svg('<path d="M10 0V60" stroke="#000" stroke-width=".001"/>', page),
    { dpi: dpi(300) },
  );
  const dots = await read(join(folder, 'page.png'));
  const row = Math.floor((((part?.yMm ?? 0) + 30) * 300) / 25.4);
  const first = Math.floor((((part?.xMm ?? 0) + 5) * 300) / 25.4);
  const ink = Array.from(
    { length: 120 },
    (_, i) => 255 - (dots.data[3 * (row * dots.width + first + i)] ?? 0),
  );
  expect(ink.reduce((sum, one) => sum + one, 0) / 255).toBeCloseTo(1, 1);
});

test('pages of TIFF take drawings as well', async () => {
  const folder = tempFolder();
  const text = svg(`${image}<path d="M0 0h9v9z"/>`);
  await sheeted(folder, text);
  await sheeted(folder, text, { output: join(folder, 'page.tif') });
  const [png, tif] = [await read(join(folder, 'page.png')), await read(join(folder, 'page.tif'))];
  expect(tif.data.equals(png.data)).toBe(true);
});

test.each([
  [
    'a clip that ends a kilometre away',
    '<clipPath id="far"><path d="M0 0L1e6 5V9z"/></clipPath><rect width="9" height="9" clip-path="url(#far)"/>',
    /reaches 1000 m off it/,
  ],
  ['a shape that ends a kilometre away', '<path d="M0 0L1e6 5V9z"/>', /reaches 1000 m off it/],
  [
    'ten million dashes',
    `<path d="M0 0H60" stroke="red" stroke-dasharray="3e-6"/>${image}`,
    /lines of more dashes than can be drawn in dots/,
  ],
])('%s goes on pages of a PDF alone', async (_, inner, words) => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'page.png'), 'old');
  const refused = sheeted(folder, svg(inner, page));
  await expect(refused).rejects.toThrow(words);
  await expect(refused).rejects.toMatchObject({ hint: 'lay it on pages of a PDF: -o page.pdf' });
  expect(readFileSync(join(folder, 'page.png'), 'utf8')).toBe('old');
  await sheeted(folder, svg(inner, page), { output: join(folder, 'page.pdf') });
});

test('dashed lines of one path are drawn as those of a path each, and are no more work', async () => {
  const each = Array.from({ length: 380 }, (_, i) => `M5 ${5 + i}H263`);
  const dashed = (d: string): string =>
    `<path d="${d}" fill="none" stroke="#000" stroke-width=".3" stroke-dasharray="1 .5"/>`;
  const a3 = 'width="268mm" height="390mm" viewBox="0 0 268 390"';
  const pages: Buffer[] = [];
  for (const inner of [dashed(each.join('')), each.map(dashed).join('')]) {
    const folder = tempFolder();
    await sheeted(folder, svg(inner, a3), { paper: findPaper('A3') });
    pages.push(readFileSync(join(folder, 'page.png')));
  }
  const [one, other] = pages;
  expect(one?.equals(other ?? Buffer.alloc(0))).toBe(true);
});

test('a clip within a hundred others, and a picture shown by any of them, come out', async () => {
  const clips = Array.from(
    { length: 100 },
    (_, i) => `<clipPath id="c${i}"><path d="M${i / 10} 0H80V60H0Z"/></clipPath>`,
  );
  const groups = clips.map((_, i) => `<g clip-path="url(#c${i})">`);
  const inner = `${clips.join('')}${groups.join('')}<image width="80" height="60" preserveAspectRatio="none" href="${uri}"/>${'</g>'.repeat(100)}`;
  const folder = tempFolder();
  const [part] = await sheeted(folder, svg(inner, page), { dpi: dpi(300) });
  const dots = await read(join(folder, 'page.png'));
  const at = (x: number, y: number): string => {
    const [column, row] = [(part?.xMm ?? 0) + x, (part?.yMm ?? 0) + y].map((mm) =>
      Math.floor((mm * 300) / 25.4),
    );
    const i = 3 * ((row ?? 0) * dots.width + (column ?? 0));
    return dots.data.toString('hex', i, i + 3);
  };
  // The last begins 9.9 mm from the left, above.
  expect([at(9, 0.5), at(11, 0.5), at(60, 0.5)]).toEqual(['ffffff', '0000ff', 'ff0000']);
});

test('a picture that does not fill its page is laid where it stands', async () => {
  const folder = tempFolder();
  const raw = { width: 8, height: 8, channels: 3 as const };
  const black = await sharp(Buffer.alloc(192), { raw }).png().toBuffer();
  const href = `data:image/png;base64,${black.toString('base64')}`;
  const text = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40"><image x="5" y="5" width="20" height="20" href="${href}"/></svg>`;
  const [part] = await sheeted(folder, text, { dpi: dpi(254), gap: 3 });
  const { width, data } = await read(join(folder, 'page.png'));
  // 254 dpi are 10 dots to the millimetre; a millimetre either side of each edge of the picture.
  const at = (x: number, y: number): number =>
    data[
      3 *
        (Math.round(10 * ((part?.yMm ?? 0) + y)) * width + Math.round(10 * ((part?.xMm ?? 0) + x)))
    ]!;
  expect([at(4, 15), at(26, 15), at(15, 4), at(15, 26), at(50, 30)]).toEqual([
    255, 255, 255, 255, 255,
  ]);
  expect([at(6, 15), at(24, 15), at(15, 6), at(15, 24)]).toEqual([0, 0, 0, 0]);
});

test('a small copy is averaged in light, whatever larger one stands beside it', async () => {
  const folder = tempFolder();
  const side = 256;
  // Rows of black and white, one by one: half the light is a level of 188 (IEC 61966-2-1).
  const rows = Buffer.alloc(3 * side * side, 255);
  for (let y = 0; y < side; y += 2) rows.fill(0, 3 * y * side, 3 * (y + 1) * side);
  const raw = { width: side, height: side, channels: 3 as const };
  const png = await sharp(rows, { raw }).png().toBuffer();
  const href = `data:image/png;base64,${png.toString('base64')}`;
  const laid = (x: number, size: number): string =>
    `<image x="${x}" y="2" width="${size}" height="${size}" href="${href}"/>`;
  const text = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">${laid(2, 30)}${laid(40, 4)}</svg>`;
  const [part] = await sheeted(folder, text, { dpi: dpi(254) });
  const { width, data } = await read(join(folder, 'page.png'));
  const at = (x: number, y: number): number =>
    data[
      3 *
        (Math.round(10 * ((part?.yMm ?? 0) + y)) * width + Math.round(10 * ((part?.xMm ?? 0) + x)))
    ]!;
  expect(Math.abs(at(42, 4) - 188)).toBeLessThan(8);
});
