import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { expect, test } from 'vitest';
import { drawPhotos, works } from '../../support/building.js';

const text = `gaugerod: 1
scale: N-UK
dpi: 300
surfaces:
  engine-house: { photo: red.png, course: uk-metric }
parts:
  gable: { surface: engine-house, size: 40x30mm, bleed: 1mm, file: gable.pdf }
  front: { surface: engine-house, outline: shape.svg, file: front.pdf }
  girder: { relief: { section: UB 533x210x92, length: 5m, layers: true }, colour: firebrick, bleed: 1mm, file: girder.pdf }
  column: { relief: { section: UB 533x210x92, length: 5m, layers: true }, colour: firebrick, bleed: 1mm }
sheets:
  iron: { parts: [column] }
`;

// A ring, so that what is clear lies within it as well.
const shape = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30">
<path fill-rule="evenodd" d="M2 28V8l12-6 12 6v20zM8 12h10v10H8z"/></svg>`;

// The picture of a part's file, by its id.
function shown(page: string, id: string): Buffer {
  const [, base64 = ''] = new RegExp(`<image\\s+id="${id}"[^>]*base64,([^"]+)"`).exec(page) ?? [];
  return Buffer.from(base64, 'base64');
}

// Coarser than bricks, which are two dots high: what is held against each other here is colour.
const coarse = { width: 48, height: 12, fit: 'fill' } as const;

async function decoded(picture: Sharp): Promise<Buffer> {
  return picture
    .flatten({ background: 'white' })
    .toColourspace('srgb')
    .resize(coarse)
    .raw()
    .toBuffer();
}

function meanApart(a: Buffer, b: Buffer): number {
  expect(a).toHaveLength(b.length);
  return a.reduce((sum, value, i) => sum + Math.abs(value - b[i]!), 0) / a.length;
}

interface Greys {
  readonly width: number;
  readonly height: number;
  readonly data: Buffer;
}

async function greys(picture: Buffer | string): Promise<Greys> {
  const { data, info } = await sharp(picture)
    .flatten({ background: 'white' })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
}

// Mean square of what a picture differs by from one of twice its dots that is moved by some of those.
function apart(small: Greys, large: Greys, [right, down]: readonly [number, number]): number {
  const margin = 2;
  let sum = 0;
  let count = 0;
  for (let y = margin; y < small.height - margin; y++) {
    for (let x = margin; x < small.width - margin; x++) {
      const at = (2 * y + down) * large.width + 2 * x + right;
      const { data, width } = large;
      const mean = (data[at]! + data[at + 1]! + data[at + width]! + data[at + width + 1]!) / 4;
      sum += (small.data[y * small.width + x]! - mean) ** 2;
      count++;
    }
  }
  return sum / count;
}

// Dots that it lies off, to a fraction: the foot of a parabola through a dot to either side.
function offBy(small: Greys, large: Greys): { readonly x: number; readonly y: number } {
  const here = apart(small, large, [0, 0]);
  const foot = (before: number, after: number): number =>
    before === after ? 0 : (before - after) / (2 * (before + after - 2 * here));
  return {
    x: foot(apart(small, large, [-1, 0]), apart(small, large, [1, 0])),
    y: foot(apart(small, large, [0, -1]), apart(small, large, [0, 1])),
  };
}

// Poppler's, skipped where it is not installed.
const drawer = 'pdftoppm';
const isThere = spawnSync(drawer, ['-v']).error === undefined;
if (!isThere) console.log(`skipped: ${drawer} is not installed`);

// One build for all: it takes seconds.
test('pages are shown as another program draws them, and layers of card with their part', async () => {
  const { folder, build } = works(await drawPhotos(), text);
  writeFileSync(join(folder, 'shape.svg'), shape);
  const report = join(folder, 'record.html');
  await build({ report });
  const page = readFileSync(report, 'utf8');
  // Of gable and front one picture each, of girder and column one more for their flanges.
  const ids = [...page.matchAll(/<image\s+id="([^"]+)"/g)].map(([, id]) => id);
  expect(ids).toEqual(['v1-1', 'v2-1', 'v3-1', 'v3-2', 'v4-1', 'v4-2']);
  expect(page).not.toContain('No picture here');
  expect(page).toMatch(/Layer 2 of 2: <bdi>out\/column-2-flanges\.png</);
  const sheets = page.slice(page.indexOf('id="sheets"'));
  expect(sheets).toContain('href="#v4-1"');
  expect(sheets).toContain('href="#v4-2"');
  if (!isThere) return;
  for (const [id, name, by] of [
    ['v1-1', 'gable', 0],
    // An outline's page begins where the outline does, half a dot in.
    ['v2-1', 'front', 0.5],
    ['v3-1', 'girder', 0],
    ['v3-2', 'girder-2-flanges', 0],
  ] as const) {
    const to = join(folder, name);
    spawnSync(drawer, ['-png', '-r', '300', '-singlefile', join(folder, 'out', `${name}.pdf`), to]);
    const told = await decoded(sharp(shown(page, id)));
    const file = `${to}.png`;
    const drawn = await decoded(sharp(file));
    expect(meanApart(told, drawn), name).toBeLessThan(4);
    const { x, y } = offBy(await greys(shown(page, id)), await greys(file));
    expect(Math.abs(x - by), name).toBeLessThan(0.3);
    expect(Math.abs(y - by), name).toBeLessThan(0.3);
  }
});
