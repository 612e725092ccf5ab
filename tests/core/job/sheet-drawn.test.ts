import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, sheetParts, type SheetPartsOptions } from '@gaugerod/core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

// 480 x 240 dots, 600 to the inch: 20.32 x 10.16 mm. Red but for a blue corner, upper left.
const png = await (async () => {
  const blue = await sharp({ create: { width: 240, height: 120, channels: 3, background: '#00f' } })
    .png()
    .toBuffer();
  return sharp({ create: { width: 480, height: 240, channels: 3, background: '#f00' } })
    .composite([{ input: blue, left: 0, top: 0 }])
    .png()
    .toBuffer();
})();

const uri = `data:image/png;base64,${png.toString('base64')}`;
const image = `<image x="-0.16" y="-0.08" width="20.32" height="10.16" xlink:href="${uri}"/>`;
const svg = (inner: string, size = 'width="20mm" height="10mm" viewBox="0 0 20 10"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${size}>${inner}</svg>`;

async function sheeted(
  folder: string,
  text: string,
  options: Partial<SheetPartsOptions> = {},
): ReturnType<typeof sheetParts> {
  const part = join(folder, 'part.svg');
  writeFileSync(part, text);
  return sheetParts([part], { output: join(folder, 'page.pdf'), ...options });
}

const drawer = 'pdftocairo';
const draws = spawnSync(drawer, ['-v']).error === undefined;
if (!draws) console.log(`skipped: ${drawer} is not installed`);

test.skipIf(!draws)(
  'a drawing of one picture is laid on a page at the size of the drawing',
  async () => {
    const folder = tempFolder();
    const outcome = await sheeted(folder, svg(image));
    if (!outcome.ok) throw new Error(outcome.message);
    const [part] = outcome.value.parts;
    if (part === undefined) throw new Error('no part');
    expect([part.widthMm, part.heightMm]).toEqual([20, 10]);
    // The picture's own bytes, stored once.
    expect(
      readFileSync(join(folder, 'page.pdf'), 'latin1').match(/\/Width 480\n\/Height 240/g),
    ).toHaveLength(1);
    const target = join(folder, 'page');
    const words = ['-r', '1200', '-png', '-singlefile', join(folder, 'page.pdf'), target];
    expect(spawnSync(drawer, words).status).toBe(0);
    const page = sharp(`${target}.png`, { limitInputPixels: false });
    const { data, info } = await page.removeAlpha().raw().toBuffer({ resolveWithObject: true });
    const perMm = 1200 / 25.4;
    const at = (xMm: number, yMm: number): string => {
      const i =
        3 *
        (Math.floor((part.yMm + yMm) * perMm) * info.width + Math.floor((part.xMm + xMm) * perMm));
      return data.toString('hex', i, i + 3);
    };
    // Edges to 0.05 mm at 1200 dpi: those of the part, and the blue corner's, 10.16 - 0.16 and 5.08 - 0.08.
    const edges = [
      at(-0.05, 2),
      at(0.05, 2),
      at(9.95, 2),
      at(10.05, 2),
      at(19.95, 2),
      at(20.05, 2),
    ];
    expect(edges).toEqual(['ffffff', '0000ff', '0000ff', 'ff0000', 'ff0000', 'ffffff']);
    const down = [at(2, -0.05), at(2, 0.05), at(2, 4.95), at(2, 5.05), at(2, 9.95), at(2, 10.05)];
    expect(down).toEqual(['ffffff', '0000ff', '0000ff', 'ff0000', 'ff0000', 'ffffff']);
  },
);

test('as a picture of a page it lies where it does in the PDF', async () => {
  const folder = tempFolder();
  const output = join(folder, 'page.png');
  const outcome = await sheeted(folder, svg(image), { output, dpi: dpi(600) });
  if (!outcome.ok) throw new Error(outcome.message);
  const [part] = outcome.value.parts;
  const { data, info } = await sharp(output)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const at = (xMm: number): string => {
    const [x, y] = [(part?.xMm ?? 0) + xMm, (part?.yMm ?? 0) + 2].map((mm) =>
      Math.floor((mm * 600) / 25.4),
    );
    const i = 3 * ((y ?? 0) * info.width + (x ?? 0));
    return data.toString('hex', i, i + 3);
  };
  expect([at(-0.1), at(0.1), at(9.9), at(10.1), at(19.9), at(20.1)]).toEqual([
    'ffffff',
    '0000ff',
    '0000ff',
    'ff0000',
    'ff0000',
    'ffffff',
  ]);
});

test('a picture beside the drawing is found, elsewhere it is not', async () => {
  const folder = tempFolder();
  const inner = join(folder, 'inner');
  mkdirSync(inner);
  writeFileSync(join(inner, 'part-1.png'), png);
  writeFileSync(join(folder, 'outside.png'), png);
  const linked = (href: string): string => svg(image.replace(uri, href));
  expect((await sheeted(inner, linked('part-1.png'))).ok).toBe(true);
  await expect(sheeted(inner, linked('gone.png'))).rejects.toMatchObject({ code: 'no-file' });
  await expect(sheeted(inner, linked('../outside.png'))).rejects.toMatchObject({ code: 'no-file' });
  await expect(sheeted(inner, linked('https://example.org/a.png'))).rejects.toMatchObject({
    code: 'no-file',
  });
});

test.each([
  ['a shape', svg(`${image}<path id="cut" d="M0 0h9v9z"/>`), /shows #cut, and shapes are not laid/],
  ['words', svg(`${image}<text>wall</text>`), /holds <text>/],
  ['two pictures', svg(image + image), /shows 2 pictures/],
  ['none', svg(''), /shows no picture/],
  [
    'a turned picture',
    svg(`<g transform="rotate(90)">${image}</g>`),
    /turned, slanted or mirrored/,
  ],
  [
    'a mirrored picture',
    svg(`<g transform="scale(-1 1)">${image}</g>`),
    /turned, slanted or mirrored/,
  ],
  [
    'a clipped picture',
    svg(
      `<clipPath id="c"><rect width="3" height="3"/></clipPath><g clip-path="url(#c)">${image}</g>`,
    ),
    /clipped, masked or filtered/,
  ],
  ['half a picture', svg(image.replace('"/>', '!"/>')), /no whole base64/],
  ['no size', svg(image, 'width="20" height="10"'), /does not say how large it is on paper/],
  ['no XML', '<svg', /not well-formed/],
])('a drawing of %s is refused, and said', async (_, text, words) => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'page.pdf'), 'old');
  await expect(sheeted(folder, text)).rejects.toThrow(words);
  expect(readFileSync(join(folder, 'page.pdf'), 'utf8')).toBe('old');
});

test('letters that a page does not have are told of, and accents are left off first', async () => {
  const folder = tempFolder();
  const paths = ['mur-żółty', 'Grün', '壁'].map((name) => join(folder, `${name}.svg`));
  for (const path of paths) writeFileSync(path, svg(image));
  const output = join(folder, 'page.pdf');
  const outcome = await sheetParts(paths, { output });
  if (!outcome.ok) throw new Error(outcome.message);
  const told = outcome.warnings
    .filter(({ code }) => code === 'label-letters')
    .map(({ message }) => message);
  // ł has no accent to leave off; ü is of Latin 1.
  expect(told.map((message) => /reads "(.*)"/.exec(message)?.[1])).toEqual(['mur-zó?ty', '?']);
});
