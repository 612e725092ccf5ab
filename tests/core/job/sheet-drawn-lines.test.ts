import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, type SheetedPart, sheetParts } from '@gaugerod/core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { svg } from '../../support/part-drawings.js';
import { tempFolder } from '../../support/temp-folder.js';

const page = 'width="80mm" height="60mm" viewBox="0 0 80 60"';
const drawer = 'pdftoppm';
const draws = spawnSync(drawer, ['-v']).error === undefined;
if (!draws) console.log(`skipped: ${drawer} is not installed`);

async function sheeted(
  folder: string,
  inner: string,
  to: string,
): Promise<SheetedPart | undefined> {
  const part = join(folder, 'part.svg');
  writeFileSync(part, svg(inner, page));
  const outcome = await sheetParts([part], {
    output: join(folder, to),
    dpi: dpi(600),
    turn: false,
  });
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value.parts[0];
}

async function read(file: string): Promise<{ readonly width: number; readonly data: Buffer }> {
  const picture = sharp(file, { limitInputPixels: false }).removeAlpha().toColourspace('srgb');
  const { data, info } = await picture.raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, data };
}

test('a corner of a line thinner than a dot is drawn to its point, whatever tile that falls into', async () => {
  const folder = tempFolder();
  // A corner of 4 degrees at 571.2 dots down the part, which lies 200.8 dots down the page: its point sticks out
  // 0.5 / sin(2 degrees) = 14 dots, over the end of the first 768 rows.
  const d = 'M9.5 35 9.877 24.18 10.254 35';
  const line = `<path fill="none" stroke="#000" stroke-width=".001" stroke-miterlimit="40" d="${d}"/>`;
  const placed = await sheeted(folder, line, 'page.png');
  const dots = await read(join(folder, 'page.png'));
  const x = ((placed?.xMm ?? 0) + 9.877) * (600 / 25.4);
  const darkest = (y: number): number =>
    Math.min(...[-1, 0, 1].map((i) => dots.data[3 * (y * dots.width + Math.floor(x) + i)] ?? 255));
  for (let y = 762; y < 775; y++) expect(darkest(y), `row ${y}`).toBeLessThan(230);
});

test.skipIf(!draws)(
  'between the dashes of an open line a PDF shows nothing of its fill',
  async () => {
    const folder = tempFolder();
    const line = '<path stroke="#000" stroke-dasharray="6 6" d="M10 30H70"/>';
    const placed = await sheeted(folder, line, 'page.pdf');
    const output = join(folder, 'page.pdf');
    spawnSync(drawer, ['-r', '600', '-png', '-singlefile', output, join(folder, 'drawn')]);
    const dots = await read(join(folder, 'drawn.png'));
    const at = (mm: number, from = 0): number => Math.floor(((mm + from) * 600) / 25.4);
    const shade = (x: number): number => {
      const column = at(x, placed?.xMm);
      const rows = [-3, -2, -1, 0, 1, 2, 3].map((row) => at(30, placed?.yMm) + row);
      return Math.min(...rows.map((y) => dots.data[3 * (y * dots.width + column)] ?? -1));
    };
    expect([13, 19, 25, 31].map(shade)).toEqual([0, 255, 0, 255]);
  },
);
