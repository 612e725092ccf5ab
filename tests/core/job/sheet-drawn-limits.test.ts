import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, findScale, makeRelief, realMm, sheetParts } from '@gaugerod/core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

const png = await sharp({ create: { width: 480, height: 240, channels: 3, background: '#a43' } })
  .png()
  .toBuffer();
const uri = `data:image/png;base64,${png.toString('base64')}`;
const image = (href: string): string => `<image width="20" height="10" href="${href}"/>`;
const svg = (inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="10mm" viewBox="0 0 20 10">${inner}</svg>`;

async function sheeted(folder: string, inner: string, to = 'page.pdf'): Promise<string> {
  const part = join(folder, 'part.svg');
  writeFileSync(part, svg(inner));
  const output = join(folder, to);
  const outcome = await sheetParts([part], { output });
  if (!outcome.ok) throw new Error(outcome.message);
  return output;
}

test('a picture that the drawing links is not written over', async () => {
  const folder = tempFolder();
  const linked = join(folder, 'wall.png');
  writeFileSync(linked, png);
  await expect(sheeted(folder, image('wall.png'), 'wall.png')).rejects.toMatchObject({
    code: 'output-is-input',
  });
  expect(readFileSync(linked).equals(png)).toBe(true);
  await sheeted(folder, image('wall.png'), 'page.png');
});

test('a picture that stands in the drawing twice is stored in the PDF once', async () => {
  const pdf = await sheeted(tempFolder(), image(uri) + image(uri));
  expect(readFileSync(pdf, 'latin1').match(/\/Width 480\n\/Height 240/g)).toHaveLength(1);
});

const red = '<rect width="9" height="9" fill="red" clip-path="url(#c)"/>';

// CSS Masking Module Level 1, 5: a clipping path of no area lets nothing through.
test.each([
  ['a rect of no width', '<rect width="0" height="9"/>'],
  ['a path of nothing', '<path d=""/>'],
  ['a path that only moves', '<path d="M1 1"/>'],
  ['a line there and back', '<path d="M1 1H9Z"/>'],
  ['what is flattened', '<rect width="9" height="9" transform="scale(0 1)"/>'],
])('nothing shows through a clip of %s', async (_, shape) => {
  const clip = `<clipPath id="c">${shape}</clipPath>`;
  await expect(sheeted(tempFolder(), clip + red)).rejects.toThrow(/shows no picture and no shape/);
});

test.each([
  ['clear', '#f008', /has a fill of #f008/],
  ['clear by name', 'rgba(255, 0, 0, .5)', /has a fill of rgba/],
  ['unknown', 'color(display-p3 1 0 0)', /has a fill of color\(display-p3/],
])('a current colour that is %s is refused as any such fill is', async (_, colour, words) => {
  const inner = `<g color="blue"><g color="${colour}"><rect width="9" height="9" fill="currentColor"/></g></g>`;
  await expect(sheeted(tempFolder(), inner)).rejects.toThrow(words);
});

test('a fine path that is used ten thousand times is refused in little memory', async () => {
  const path = `<path id="p" d="M0 0${'h1v1'.repeat(25_000)}"/>`;
  const used = '<use href="#p"/>';
  await expect(sheeted(tempFolder(), path + used.repeat(10_000))).rejects.toThrow(
    /more than pages hold/,
  );
  await sheeted(tempFolder(), path + used.repeat(3));
});

test('text that never shows is no matter, and text that does is', async () => {
  const text = '<text id="t">wall</text>';
  await sheeted(tempFolder(), `<defs>${text}</defs><g display="none">${text}</g>${image(uri)}`);
  await expect(
    sheeted(tempFolder(), `<defs>${text}</defs><use href="#t"/>${image(uri)}`),
  ).rejects.toThrow(/holds <text>/);
});

test.each([
  ['a rectangle', '<rect width="-9" height="3"/>', /shows a <rect> that has a width of -9/],
  ['a circle', '<circle id="c" r="-.5"/>', /shows #c that has a r of -\.5/],
  [
    'a picture',
    `<image width="9" height="-3" href="${uri}"/>`,
    /shows an <image> that has a height/,
  ],
  ['a line', '<path d="M0 0H9" stroke="red" stroke-width="-1"/>', /has a stroke-width of -1/],
])('%s of a size below nothing is refused by name', async (_, inner, words) => {
  await expect(sheeted(tempFolder(), inner)).rejects.toThrow(words);
});

test.each(['-20mm', '0mm', '-0.0'])('a page of a width of %s is refused', async (width) => {
  const folder = tempFolder();
  const part = join(folder, 'part.svg');
  writeFileSync(part, svg('<path d="M0 0h9v9z"/>').replace('width="20mm"', `width="${width}"`));
  const laid = sheetParts([part], { output: join(folder, 'page.pdf') });
  await expect(laid).rejects.toThrow(`holds a width of ${width}`);
  await expect(laid).rejects.toMatchObject({ hint: /size of its page/ as unknown });
});

test('what is no XML is not told to become pictures and fills', async () => {
  const refused = await sheeted(tempFolder(), '<rect').catch((error: unknown) => error);
  expect(refused).toMatchObject({ code: 'bad-drawing' });
  expect(refused).not.toHaveProperty('hint', expect.anything());
});

test('the fault of a linked picture is laid at the picture', async () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'half.png'), png.subarray(0, png.length / 2));
  await expect(sheeted(folder, image('half.png'))).rejects.toThrow(
    /^\S*half\.png is damaged: some of it is missing, or was changed$/,
  );
  const half = `data:image/png;base64,${png.subarray(0, 300).toString('base64')}`;
  await expect(sheeted(folder, image(half))).rejects.toThrow(/^a picture in \S*part\.svg /);
});

test('a drawing that relief wrote is laid as the picture that it holds for who does not blend', async () => {
  const folder = tempFolder();
  const part = join(folder, 'girder.svg');
  const made = await makeRelief(null, {
    profile: 'plate',
    length: realMm(3000),
    depth: realMm(300),
    scale: findScale('N-UK'),
    output: part,
  });
  expect(made.ok).toBe(true);
  for (const output of ['page.pdf', 'page.png']) {
    const laid = await sheetParts([part], { output: join(folder, output), dpi: dpi(600) });
    if (!laid.ok) throw new Error(laid.message);
    const [{ widthMm, heightMm } = { widthMm: 0, heightMm: 0 }] = laid.value.parts;
    expect(widthMm).toBeCloseTo(3000 / 148, 2);
    expect(heightMm).toBeCloseTo(300 / 148, 2);
  }
  // Rules for who blends in another way may hold.
  const other = readFileSync(part, 'utf8').replace(
    '(mix-blend-mode:overlay)',
    '(not (display:grid))',
  );
  writeFileSync(part, other);
  await expect(sheetParts([part], { output: join(folder, 'page.pdf') })).rejects.toThrow(
    /@supports/,
  );
});

test('a scribble of thousands of crossings is refused on pages that are pictures, a hatching is not', async () => {
  // Spread by the golden ratio and its square: no two lines alike, the same each time.
  const spots = Array.from({ length: 40_000 }, (_, i) => [
    (20 * ((i * 0.754877666) % 1)).toFixed(3),
    (10 * ((i * 0.569840291) % 1)).toFixed(3),
  ]);
  const line = (d: string): string =>
    `<path fill="none" stroke="#000" stroke-width=".05" d="${d}"/>`;
  const scribble = line(`M${spots.map((spot) => spot.join(' ')).join(' ')}`);
  await expect(sheeted(tempFolder(), scribble, 'page.png')).rejects.toThrow(
    /lines that cross themselves more often than can be drawn in dots/,
  );
  const hatching = line(Array.from({ length: 2000 }, (_, i) => `M0 ${i * 0.005}H20`).join(''));
  await sheeted(tempFolder(), hatching, 'page.png');
});
