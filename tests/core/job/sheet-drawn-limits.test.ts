import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { sheetParts } from '@gaugerod/core';
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
