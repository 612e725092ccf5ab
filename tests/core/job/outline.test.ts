import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  dpi,
  type FilledPhoto,
  fillPhoto,
  type FillPhotoOptions,
  parsePrintLength,
  parsePrintSize,
} from '@gaugerod/core';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { readOutline } from '../../../packages/core/src/job/fill/read-outline.js';
import { wallFolder } from '../../support/fill-wall.js';

// A wall with an arched gateway, a round light and two windows, at 5,10 mm on the page.
const gable =
  'M5 50V25A15 15 0 0 1 35 25V50H24V42A4 4 0 0 0 16 42V50ZM8 30h4v6h-4zM28 30h4v6h-4zM20 17m-3 0a3 3 0 1 0 6 0a3 3 0 1 0-6 0';
const paths = `<path id="gable" fill-rule="evenodd" d="${gable}"/><rect id="side" x="40" y="20" width="9.97" height="30"/>`;
const page = (inner: string, size = 'width="60mm" height="60mm" viewBox="0 0 60 60"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size}>${inner}</svg>`;

const { folder, photo, drawing, asked, fill: fillAs } = wallFolder(501, page(paths));
const output = join(folder, 'part.png');

interface Part extends FilledPhoto {
  readonly data: Buffer;
  readonly channels: number;
}

async function fill(more: Partial<FillPhotoOptions>): Promise<Part> {
  const filled = await fillAs('part.png', more);
  const { data, info } = await sharp(filled.output).raw().toBuffer({ resolveWithObject: true });
  return { ...filled, data, channels: info.channels };
}

const outline = { path: drawing, id: 'gable' };

test('a part of any shape is its drawing at true size, windows open', async () => {
  const part = await fill({ outline });
  // 30 x 40 mm at 600 dpi are 708.66 x 944.88 dots: those that are begun.
  expect([part.widthPx, part.heightPx, part.channels]).toEqual([709, 945, 4]);
  expect(part.outline).toEqual({ ...outline, xMm: 5, yMm: 10, widthMm: 30, heightMm: 40 });
  const alpha = (xMm: number, yMm: number): number =>
    part.data[4 * (Math.floor((yMm * 600) / 25.4) * 709 + Math.floor((xMm * 600) / 25.4)) + 3] ??
    -1;
  expect([alpha(15, 7), alpha(5, 23), alpha(25, 23), alpha(15, 36), alpha(0.5, 0.5)]).toEqual([
    0, 0, 0, 0, 0,
  ]);
  expect([alpha(15, 3), alpha(5, 19), alpha(15, 26), alpha(1, 39)]).toEqual([255, 255, 255, 255]);
});

const renderer = 'rsvg-convert';
const rsvg = spawnSync(renderer, ['--version']).status === 0;

describe.skipIf(!rsvg)('against another program that draws SVG', () => {
  test('its edges are where that draws them', async () => {
    // With the corner of the part in that of its page, so that dots are the same ones.
    const moved = page(`<path fill-rule="evenodd" d="${gable}" transform="translate(-5 -10)"/>`);
    writeFileSync(join(folder, 'moved.svg'), moved);
    const target = join(folder, 'drawn.png');
    const words = ['--dpi-x', '600', '--dpi-y', '600', '-o', target, join(folder, 'moved.svg')];
    expect(spawnSync(renderer, words).status).toBe(0);
    const drawn = await sharp(target)
      .extract({ left: 0, top: 0, width: 709, height: 945 })
      .extractChannel(3)
      .raw()
      .toBuffer();
    const part = await fill({ outline });
    let [sum, worst] = [0, 0];
    for (const [i, alpha] of drawn.entries()) {
      const away = Math.abs(alpha - part.data[4 * i + 3]!);
      sum += away;
      worst = Math.max(worst, away);
    }
    // That one makes lines of curves to a tenth of a pixel, 25 of 255, and looks at 15 by 17 points of
    // it, 17 of 255 at worst.
    expect(worst).toBeLessThan(43);
    expect(sum / drawn.length).toBeLessThan(0.05);
  });
});

test('a rectangle that is drawn shows the same dots as one of that size', async () => {
  const drawn = await fill({ outline: { path: drawing, id: 'side' } });
  const plain = await fill({ size: parsePrintSize('9.97x30mm') });
  expect([drawn.widthPx, plain.widthPx]).toEqual([236, 236]);
  for (let i = 0; i < 236 * plain.heightPx; i++) {
    if (drawn.data[4 * i + 3] !== 255) continue;
    expect(drawn.data.compare(plain.data, 3 * i, 3 * i + 3, 4 * i, 4 * i + 3)).toBe(0);
  }
});

// Column of dots of a part, as text.
function column({ data, widthPx, heightPx, channels }: Part, x: number): string {
  const rows = Array.from({ length: heightPx }, (_, y) => {
    const at = channels * (y * widthPx + (x < 0 ? widthPx + x : x));
    return data.toString('hex', at, at + 3);
  });
  return rows.join();
}

test('round a corner the next wall goes on with the very next column of dots', async () => {
  const height = 'x12mm';
  const front = await fill({
    size: parsePrintSize(`19.99${height}`),
    datum: { x: 3.31, y: 2 },
    corner: { side: 'right' },
  });
  const { nextWall } = front;
  if (nextWall === null) throw new Error('nothing said');
  expect([nextWall.corner, nextWall.datumYMm]).toEqual(['right', 2]);
  const datum = { x: nextWall.datumXMm, y: nextWall.datumYMm };
  const side = await fill({
    size: parsePrintSize(`7.77${height}`),
    datum,
    corner: { side: 'left', width: parsePrintLength('19.99mm') },
  });
  // The wall as one piece: 472 dots of 19.99 mm and 184 of 7.77 mm (at 600 / 25.4 dots a mm).
  const both = await fill({
    size: parsePrintSize(`${(656 * 25.4) / 600}${height}`),
    datum: { x: 3.31, y: 2 },
  });
  expect([front.widthPx, side.widthPx, both.widthPx]).toEqual([472, 184, 656]);
  expect([column(front, 0), column(front, -1)]).toEqual([column(both, 0), column(both, 471)]);
  expect([column(side, 0), column(side, -1)]).toEqual([column(both, 472), column(both, 655)]);
  // Back round the corner that it came from: to where the first began, to the dot.
  expect(Math.round((side.nextWall?.datumXMm ?? NaN) * (600 / 25.4))).toBe(
    Math.round(3.31 * (600 / 25.4)),
  );
});

test('where a part is drawn, the next wall begins at the dot nearest to its edge', async () => {
  const { nextWall } = await fill({ outline, datum: { x: 12, y: -4 }, corner: { side: 'right' } });
  // 42 mm are 992.13 dots; 992 of them 41.9947 mm.
  expect(nextWall).toEqual({ corner: 'right', datumXMm: 41.9947, datumYMm: -4 });
});

test.each(['.tif', '.webp'])(
  'what is outside is transparent in a %s as well',
  async (extension) => {
    const part = await fill({ outline, output: join(folder, `part${extension}`) });
    const again = await fill({ outline });
    expect(part.channels).toBe(4);
    expect(part.data.equals(again.data)).toBe(true);
  },
);

const refusals: readonly (readonly [string, string, string, RegExp])[] = [
  ['two shapes', page(paths), 'no-outline', /holds 2 shapes and a part is one: #gable, #side/],
  [
    'no units',
    page('<path d="M0 0h9v9z"/>', 'width="9" height="9"'),
    'no-print-size',
    /width and height need units/,
  ],
  ['no area', page('<path d="M0 0h9"/>'), 'no-outline', /no shape that bounds an area/],
  [
    'a path of nonsense',
    page('<path d="M0 0h9,,v9z"/>'),
    'bad-drawing',
    /path that makes no sense/,
  ],
  [
    'entities',
    `<!DOCTYPE svg [<!ENTITY a "b">]>${page('<path d="M0 0h9v9z"/>')}`,
    'bad-drawing',
    /declares entities/,
  ],
  ['no XML', 'wall', 'bad-drawing', /./],
];

test.each(refusals)(
  'a drawing of %s is refused, and an older part stays',
  async (_, text, code, words) => {
    const path = join(folder, 'bad.svg');
    writeFileSync(path, text);
    writeFileSync(output, 'old');
    const filled = fillPhoto(photo, { ...asked, output, outline: { path } });
    const said = { name: 'TextureError', code, message: expect.stringMatching(words) as string };
    await expect(filled).rejects.toMatchObject(said);
    expect(readFileSync(output, 'utf8')).toBe('old');
  },
);

test('a shape larger than any paper is refused with its size', async () => {
  const path = join(folder, 'huge.svg');
  writeFileSync(path, page('<rect width="30000" height="9"/>'));
  await expect(fillPhoto(photo, { ...asked, output, outline: { path } })).rejects.toThrow(
    /up to 10 m of paper each way for outline, got "30000 x 9 mm/,
  );
});

const strokes = Array.from({ length: 6000 }, (_, i) => `${i % 2 === 0 ? 0 : 40},${(i * 0.37) % 1}`);
const scribble = `0,0 40,0 ${strokes.join(' ')}`;

test('a shape that crosses itself without end is refused by name, and an older part stays', async () => {
  const path = join(folder, 'scribble.svg');
  writeFileSync(path, page(`<polygon fill-rule="evenodd" points="${scribble}"/>`));
  writeFileSync(output, 'old');
  const filled = fillPhoto(photo, { ...asked, output, outline: { path }, dpi: dpi(150) });
  await expect(filled).rejects.toThrow(
    /scribble\.svg holds an outline that crosses itself, or is jagged, too often/,
  );
  expect(readFileSync(output, 'utf8')).toBe('old');
});

// On the 150 rows of 25.4 mm a fill takes 6 million of its 200 million: 20,000 edges, cut at the ends.
test('a comb of 10,000 fine teeth is read, for it can be filled', async () => {
  const path = join(folder, 'comb.svg');
  const teeth = Array.from(
    { length: 10_000 },
    (_, i) => `${(i + 0.5) / 200},25.4 ${(i + 1) / 200},0`,
  );
  writeFileSync(path, page(`<polygon points="0,0 ${teeth.join(' ')}"/>`));
  const { size } = await readOutline({ path }, dpi(150));
  expect(size.width).toBeCloseTo(50, 9);
  expect(size.height).toBeCloseTo(25.4, 9);
});

test('an outline is judged before the photo is read', async () => {
  const missing = join(folder, 'missing.png');
  const wrong = async (inner: string, more: Partial<FillPhotoOptions> = {}): Promise<unknown> => {
    const path = join(folder, 'wrong.svg');
    writeFileSync(path, page(inner));
    const filled = fillPhoto(missing, { ...asked, output, outline: { path }, ...more });
    return filled.catch((error: unknown) => error);
  };
  const square = 'M5 5H30V30H5Z';
  const cancelled = `<path fill-rule="evenodd" d="${square}${square}"/>`;
  expect(await wrong(cancelled)).toMatchObject({
    code: 'no-outline',
    message: expect.stringMatching(/wrong\.svg holds an outline that encloses no area/) as string,
  });
  // By nonzero one loop lies over the other: only the photo is missing.
  expect(await wrong(cancelled.replace('evenodd', 'nonzero'))).toMatchObject({ code: 'no-file' });
  expect(await wrong(`<polygon points="${scribble}"/>`)).toMatchObject({
    code: 'bad-drawing',
    hint: 'draw it with fewer points, as a line that does not cross itself',
  });
  const corner = { side: 'right' } as const;
  expect(
    await wrong(`<path d="${square}"/>`, { corner, datum: { x: 999_990, y: 0 } }),
  ).toMatchObject({
    name: 'RangeError',
    message: expect.stringMatching(/the wall round the corner begin within 1 km/) as string,
  });
});

test('bleed is the width of a few rulers at most', async () => {
  await expect(fill({ outline, bleed: 100.5 })).rejects.toThrow(
    'expected 0 to 100 mm for bleed, got "100.5 mm"',
  );
});

test('a JPEG cannot be transparent, and is refused before anything is read', async () => {
  const error = fillPhoto(join(folder, 'missing.png'), {
    ...asked,
    outline,
    output: join(folder, 'part.jpg'),
  });
  await expect(error).rejects.toMatchObject({
    code: 'unsupported-output',
    hint: 'name it .png, .tif or .webp',
  });
});

test('an outline and a size are one too many', async () => {
  const both = fillPhoto(photo, { ...asked, output, outline, size: parsePrintSize('9x9mm') });
  await expect(both).rejects.toThrow(
    /one of a size on paper, a real size and an outline for size, got "2 of them"/,
  );
});

test('the drawing is never written over', async () => {
  const error = fillPhoto(photo, { ...asked, outline, output: drawing });
  await expect(error).rejects.toThrow(/house\.svg/);
  expect(readFileSync(drawing, 'utf8')).toBe(page(paths));
});
