import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, findPaper, sheetParts, type SheetPartsOptions, writePicture } from '@gaugerod/core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

// Red but for one corner, upper left, that is blue: how it lies can be told.
async function writePart(path: string, width: number, height: number): Promise<void> {
  await writePicture(path, {
    width,
    height,
    dpi: dpi(600),
    *rows() {
      for (let y = 0; y < height; y++) {
        yield Uint8Array.from({ length: 3 * width }, (_, i) => {
          const corner = y < height / 2 && i < 1.5 * width;
          return (corner ? [0, 0, 255] : [255, 0, 0])[i % 3]!;
        });
      }
    },
  });
}

// Programs that read what we write, each skipped where it is not installed.
const [drawer, teller] = ['pdftoppm', 'pdfinfo'];
const has = (tool: string): boolean => {
  if (spawnSync(tool, ['-v']).error === undefined) return true;
  console.log(`skipped: ${tool} is not installed`);
  return false;
};

interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Seen {
  /** The colour at a place of the page, mm. */
  readonly at: (x: number, y: number) => readonly number[];
  /** The box of all that is dark or coloured, mm. */
  readonly bounds: () => readonly number[];
}

const a4 = { x: 0, y: 0, width: 210, height: 297 };

// A window of a page, mm, as another program draws it.
async function drawn(file: string, resolution: number, window: Window = a4): Promise<Seen> {
  const stem = file.replace(/\.pdf$/, '');
  const dots = [window.x, window.y, window.width, window.height].map((mm) =>
    Math.round((mm * resolution) / 25.4),
  );
  const crop = ['-x', '-y', '-W', '-H'].flatMap((flag, i) => [flag, `${dots[i] ?? 0}`]);
  spawnSync(drawer, ['-r', `${resolution}`, ...crop, '-png', '-singlefile', file, stem]);
  const [left = 0, top = 0] = dots;
  return seen(`${stem}.png`, resolution, { left, top });
}

async function seen(
  file: string,
  resolution: number,
  { left, top }: { readonly left: number; readonly top: number } = { left: 0, top: 0 },
): Promise<Seen> {
  const { data, info } = await sharp(file)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const perMm = resolution / 25.4;
  return {
    at: (x, y) => {
      const i = 3 * ((Math.floor(y * perMm) - top) * info.width + Math.floor(x * perMm) - left);
      return [...data.subarray(i, i + 3)];
    },
    bounds: () => {
      let [first, above, last, below] = [Infinity, Infinity, 0, 0];
      for (let i = 0; i < data.length; i += 3) {
        if (data[i + 1]! > 128) continue;
        const [x, y] = [(i / 3) % info.width, Math.floor(i / 3 / info.width)];
        [first, last] = [Math.min(first, x), Math.max(last, x + 1)];
        [above, below] = [Math.min(above, y), Math.max(below, y + 1)];
      }
      return [left + first, top + above, left + last, top + below].map((side) => side / perMm);
    },
  };
}

const isRed = ([r = 0, g = 0]: readonly number[]): boolean => r > 128 && g < 128;

async function sheeted(
  parts: readonly string[],
  options: SheetPartsOptions,
): ReturnType<typeof sheetParts> {
  const outcome = await sheetParts(parts, options);
  expect(outcome.ok).toBe(true);
  return outcome;
}

test('a page is as large as its paper', async () => {
  const folder = tempFolder();
  const part = join(folder, 'part.png');
  await writePart(part, 600, 300);
  for (const [name, size] of [
    // ISO 216 and ANSI/ASME Y14.1 in points of 1/72 in: ISO 32000-1, 8.3.2.3.
    ['A4', '595.276 x 841.89'],
    ['A3 landscape', '1190.55 x 841.89'],
    ['Letter', '612 x 792'],
  ] as const) {
    const output = join(folder, 'page.pdf');
    await sheeted([part], { output, paper: findPaper(name) });
    if (!has(teller)) return;
    const { stdout } = spawnSync(teller, [output], { encoding: 'utf8' });
    expect(stdout).toMatch(new RegExp(`Page size: +${size} pts`));
    expect(stdout).not.toContain('CreationDate');
  }
});

test('parts lie where they are said to lie, at true size, to 0.05 mm', async () => {
  const folder = tempFolder();
  const part = join(folder, 'part.png');
  // 1200 x 900 dots at 600 dpi are 50.8 x 38.1 mm.
  await writePart(part, 1200, 900);
  const output = join(folder, 'page.pdf');
  const outcome = await sheeted([part], { output });
  if (!outcome.ok || !has(drawer)) return;
  const [place] = outcome.value.parts;
  const { xMm = 0, yMm = 0 } = place ?? {};
  // Nearer than 0.5 mm to a print stand no marks.
  const window = { x: xMm - 0.4, y: yMm - 0.4, width: 51.6, height: 38.9 };
  const bounds = (await drawn(output, 1200, window)).bounds();
  for (const [i, meant] of [xMm, yMm, xMm + 50.8, yMm + 38.1].entries()) {
    expect(Math.abs((bounds[i] ?? 0) - meant)).toBeLessThan(0.05);
  }
});

test('the bars measure 100 mm to 0.05 mm, and more in the file where the printer makes them short', async () => {
  const folder = tempFolder();
  const part = join(folder, 'part.png');
  await writePart(part, 600, 300);
  for (const [printer, meant] of [
    [100, 100],
    // 100 / 0.994: what comes out short by 0.6 % is 100 mm then.
    [99.4, 100.6036],
  ] as const) {
    const output = join(folder, 'page.pdf');
    await sheeted([part], { output, printerX: printer, printerY: printer });
    if (!has(drawer)) return;
    // The bars stand 1 mm inside a margin of 5 mm, their ends' ticks 0.15 mm wide: half of it either
    // side. The windows hold ticks alone, not the words behind them.
    const foot = { x: 8, y: 289, width: 106, height: 1 };
    const side = { x: 7, y: 180, width: 1, height: 108 };
    const [left = 0, , right = 0] = (await drawn(output, 1200, foot)).bounds();
    const [, top = 0, , bottom = 0] = (await drawn(output, 1200, side)).bounds();
    expect(Math.abs(right - left - 0.15 - meant)).toBeLessThan(0.05);
    expect(Math.abs(bottom - top - 0.15 - meant)).toBeLessThan(0.05);
  }
});

test.each(['pdf', 'png'])(
  'turned and mirrored parts lie as they should (%s)',
  async (kind) => {
    const folder = tempFolder();
    const part = join(folder, 'part.png');
    // 254 x 50.8 mm fits A4 only on its side: its left edge comes to lie on top.
    await writePart(part, 6000, 1200);
    const output = join(folder, `page.${kind}`);
    const outcome = await sheeted([part], { output, dpi: dpi(150) });
    if (!outcome.ok || (kind === 'pdf' && !has(drawer))) return;
    const [place] = outcome.value.parts;
    expect(place).toMatchObject({ turned: true, piece: null });
    const { xMm = 0, yMm = 0, widthMm = 0, heightMm = 0 } = place ?? {};
    expect(widthMm).toBeCloseTo(50.8, 3);
    expect(heightMm).toBeCloseTo(254, 3);
    const page = kind === 'pdf' ? await drawn(output, 150) : await seen(output, 150);
    const corners = [
      [5, 5],
      [widthMm - 5, 5],
      [5, heightMm - 5],
      [widthMm - 5, heightMm - 5],
    ].map(([x = 0, y = 0]) => (isRed(page.at(xMm + x, yMm + y)) ? 'red' : 'blue'));
    // Turned a quarter to the right, the upper left corner comes to lie at the upper right.
    expect(corners).toEqual(['red', 'blue', 'red', 'red']);
  },
  60_000,
);

test('a picture is stored once, however often it is shown', async () => {
  const folder = tempFolder();
  const part = join(folder, 'part.png');
  await writePart(part, 300, 200);
  const output = join(folder, 'page.pdf');
  await sheeted([part, part], { output, copies: 9 });
  const text = readFileSync(output, 'latin1');
  expect(text.match(/\/Subtype \/Image/g)).toHaveLength(1);
});

test('the same parts give the same file', async () => {
  const folder = tempFolder();
  const part = join(folder, 'part.png');
  await writePart(part, 300, 200);
  const files = ['a', 'b'].map((name) => join(folder, name, 'page.pdf'));
  for (const output of files) {
    mkdirSync(join(output, '..'));
    await sheeted([part], { output });
  }
  const [a, b] = files.map((file) => readFileSync(file));
  expect(a && b && a.equals(b)).toBe(true);
});

test('nothing that a camera notes reaches a page', async () => {
  const folder = tempFolder();
  const part = join(folder, 'photo.jpg');
  const exif = {
    IFD0: { Make: 'SecretMaker' },
    IFD3: { GPSLatitudeRef: 'N', GPSMapDatum: 'SecretPlace' },
  };
  const picture = sharp({ create: { width: 600, height: 400, channels: 3, background: 'red' } });
  await picture.withMetadata({ density: 300 }).withExifMerge(exif).jpeg().toFile(part);
  expect(readFileSync(part, 'latin1')).toContain('SecretMaker');
  const output = join(folder, 'page.pdf');
  await sheeted([part], { output });
  expect(readFileSync(output, 'latin1')).not.toMatch(/Secret/);
});

test('a layer without print shows the shape of its part, mirrored where asked', async () => {
  const folder = tempFolder();
  const part = join(folder, 'corner.png');
  // Opaque but for the lower right quarter.
  const pixels = Buffer.alloc(600 * 600 * 4, 255);
  for (let y = 300; y < 600; y++) pixels.fill(0, 4 * (600 * y + 300), 4 * (600 * y + 600));
  await sharp(pixels, { raw: { width: 600, height: 600, channels: 4 } })
    .withMetadata({ density: 600 })
    .png()
    .toFile(part);
  const output = join(folder, 'page.png');
  const outcome = await sheeted([part], {
    output,
    layers: 2,
    mirror: true,
    turn: false,
    dpi: dpi(150),
  });
  if (!outcome.ok) return;
  const blank = outcome.value.parts.find(({ layer }) => layer === 2);
  const page = await seen(output, 150);
  const { xMm = 0, yMm = 0 } = blank ?? {};
  const tone = (x: number, y: number): number => page.at(xMm + x, yMm + y)[0] ?? 0;
  expect([tone(6, 6), tone(19, 6), tone(19, 19)]).toEqual([226, 226, 226]);
  expect(tone(6, 19)).toBe(255);
});

test('a picture whose end is missing, though nothing of it is, is printed all the same', async () => {
  const folder = tempFolder();
  const part = join(folder, 'part.png');
  await writePart(part, 300, 200);
  // PNG Specification, 5.6: the last chunk is IEND, 12 bytes; decoders do without it.
  writeFileSync(part, readFileSync(part).subarray(0, -12));
  const output = join(folder, 'page.pdf');
  await sheeted([part], { output });
  expect(readFileSync(output, 'latin1').match(/\/Subtype \/Image/g)).toHaveLength(1);
});

test('of several parts that cannot be read the first is told of', async () => {
  const folder = tempFolder();
  const at = (name: string): string => join(folder, name);
  // Larger than what comes after it, which is found out sooner.
  await writePart(at('torn.png'), 2000, 1500);
  writeFileSync(at('torn.png'), readFileSync(at('torn.png')).subarray(0, -400));
  await writePart(at('whole.png'), 30, 20);
  const parts = ['whole.png', 'torn.png', 'nowhere.png', 'not-there.png'].map(at);
  const opened = sheetParts(parts, { output: at('page.pdf') });
  await expect(opened).rejects.toMatchObject({
    code: 'damaged-picture',
    message: expect.stringContaining(`${at('torn.png')} is damaged: `) as string,
  });
});

test('several pages become several pictures', async () => {
  const folder = tempFolder();
  const part = join(folder, 'part.png');
  await writePart(part, 1500, 1500);
  const output = join(folder, 'sheets.png');
  const outcome = await sheeted([part], { output, copies: 12, dpi: dpi(72) });
  if (!outcome.ok) return;
  expect(outcome.value.files.map((file) => file.replace(`${folder}/`, ''))).toEqual([
    'sheets-1.png',
    'sheets-2.png',
  ]);
  for (const file of outcome.value.files) {
    // A4 at 72 dpi: 210 and 297 mm by 72 / 25.4, to the nearest dot.
    expect(await sharp(file).metadata()).toMatchObject({ width: 595, height: 842, density: 72 });
  }
});

test('a picture that says no size is refused, with what would work', async () => {
  const folder = tempFolder();
  const part = join(folder, 'bare.png');
  writeFileSync(
    part,
    await sharp({ create: { width: 60, height: 40, channels: 3, background: 'red' } })
      .png()
      .toBuffer(),
  );
  const output = join(folder, 'page.pdf');
  await expect(sheetParts([part], { output })).rejects.toMatchObject({
    code: 'no-print-size',
    message: `${part} does not say how large it is on paper`,
  });
  const outcome = await sheeted([part], { output, dpi: dpi(300) });
  // 60 dots at 300 dpi: 60 * 25.4 / 300.
  if (outcome.ok) expect(outcome.value.parts[0]?.widthMm).toBeCloseTo(5.08, 6);
});
