import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, sheetParts, type SheetPartsOptions } from '@gaugerod/core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { drawn, image, png, svg, uri } from '../../support/part-drawings.js';
import { tempFolder } from '../../support/temp-folder.js';

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

const clip = '<clipPath id="c"><rect width="3" height="3"/></clipPath>';

test.each([
  ['words', svg(`${image}<text>wall</text>`), /holds <text>/],
  ['nothing', svg(''), /shows no picture and no shape/],
  ['half a picture', svg(image.replace('"/>', '!"/>')), /no whole base64/],
  ['no size', svg(image, 'width="20" height="10"'), /does not say how large it is on paper/],
  ['no XML', '<svg', /not well-formed/],
  [
    'a gradient',
    svg('<rect id="r" width="9" height="9" fill="url(#a)"/>'),
    /shows #r that has a fill of url\(#a\)/,
  ],
  ['a clear colour', svg('<rect width="9" height="9" fill="#f008"/>'), /<rect> that has a fill of/],
  ['a mask', svg(`<g id="g" mask="url(#m)">${image}</g>`), /shows #g that has mask: url\(#m\)/],
  ['a filter', svg(`<g style="filter:blur(1px)">${image}</g>`), /has filter: blur/],
  ['what is half clear', svg(`<g opacity=".5">${image}</g>`), /has opacity: \.5/],
  ['blending', svg(`<g style="mix-blend-mode:multiply">${image}</g>`), /has mix-blend-mode/],
  [
    'markers',
    svg('<path d="M0 0h9v9" stroke="red" marker-end="url(#m)"/>'),
    /has marker-end: url\(#m\)/,
  ],
  [
    'a clip of two shapes',
    svg(`${clip.replace('</', '<circle r="9"/></')}<g clip-path="url(#c)">${image}</g>`),
    /is clipped by more than one plain shape/,
  ],
  [
    'a clip by its own box',
    svg(
      `${clip.replace(' id', ' clipPathUnits="objectBoundingBox" id')}<g clip-path="url(#c)">${image}</g>`,
    ),
    /is clipped by its own box/,
  ],
  ['a path past all paper', svg('<path d="M0 0L1e308 9 9 9z"/>'), /whose figures make no sense/],
  [
    'a line wider than all paper',
    svg('<path d="M0 0H5" stroke="red" stroke-width="1e300"/>'),
    /has a stroke-width of 1e300/,
  ],
  [
    'a scale past all paper',
    svg('<rect width="1" height="1"/>', 'width="50mm" height="40mm" viewBox="0 0 1e-300 1e-300"'),
    /at a scale that makes no sense/,
  ],
  [
    'more shapes than pages hold',
    svg('<rect width="1" height="1"/>'.repeat(50_001)),
    /over 50000 shapes/,
  ],
  ['a broken path', svg('<path d="M0 0L9 q"/>'), /a path that makes no sense/],
])('a drawing of %s is refused, and said', async (_, text, words) => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'page.pdf'), 'old');
  await expect(sheeted(folder, text)).rejects.toThrow(words);
  expect(readFileSync(join(folder, 'page.pdf'), 'utf8')).toBe('old');
});

test('a drawing of a thousand kilometres is refused before it is cut up', async () => {
  for (const size of ['width="1e9mm" height="1e9mm"', 'width="1e9mm" height="9mm"']) {
    const outcome = await sheeted(tempFolder(), svg('<rect width="9" height="9"/>', size));
    expect(outcome).toMatchObject({ ok: false, code: 'too-many-pieces' });
  }
});

const renderer = 'rsvg-convert';
const renders = draws && spawnSync(renderer, ['--version']).error === undefined;

test.skipIf(!renders).each(Object.entries(drawn))(
  'on the page is what another program shows of the drawing: %s',
  async (_, inner) => {
    const folder = tempFolder();
    const page = 'width="80mm" height="60mm" viewBox="0 0 80 60"';
    const outcome = await sheeted(folder, svg(inner, page));
    if (!outcome.ok) throw new Error(outcome.message);
    const [part] = outcome.value.parts;
    const resolution = '300';
    const rsvg = ['-d', resolution, '-p', resolution, '-b', 'white', join(folder, 'part.svg')];
    spawnSync(renderer, [...rsvg, '-o', join(folder, 'drawing.png')]);
    const cairo = ['-r', resolution, '-png', '-singlefile', join(folder, 'page.pdf')];
    spawnSync(drawer, [...cairo, join(folder, 'page')]);
    const dots = (mm = 0): number => Math.round((mm * 300) / 25.4);
    const [width, height] = [dots(80), dots(60)];
    const read = async (name: string, left: number, top: number): Promise<Buffer> =>
      sharp(join(folder, name))
        .removeAlpha()
        .toColourspace('srgb')
        .extract({ left, top, width, height: height - 1 })
        .raw()
        .toBuffer();
    const theirs = await read('drawing.png', 0, 0);
    const ours = await read('page.png', dots(part?.xMm), dots(part?.yMm));
    // Either lays edges on dots of its own: 8.5 mm are 100.4 of them.
    let far = 0;
    for (let i = 0; i < ours.length; i += 3) {
      const off = Math.max(
        ...[0, 1, 2].map((c) => Math.abs((ours[i + c] ?? 0) - (theirs[i + c] ?? 0))),
      );
      if (off > 160) far++;
    }
    expect(far / (width * height)).toBeLessThan(2e-4);
    expect(ours.some((byte) => byte < 128)).toBe(true);
  },
);

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
