import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dpi, findPaper, type SheetedPart, sheetParts } from '@gaugerod/core';
import sharp from 'sharp';

const drawer = 'pdftoppm';
const resolution = 1200;
const perMm = resolution / 25.4;
const paper = { width: 210, height: 148 };
// As sheets are laid out: what the printer cannot reach, and the strips that the bars stand in.
const [margin, strip] = [5, 6.5];

interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly inset: number;
}

/**
 * Where parts lie on pages at 1200 dpi, and how long the bars are: of a PDF as pdftoppm draws it, and of a
 * picture. At most 0.05 mm off is wanted, and bars of 100.00 mm to 0.05.
 *
 * @param words - How many pages of eight parts each, and where chance begins.
 */
export async function benchSheet(words: readonly string[]): Promise<void> {
  const [pages = 3, seed = 7] = words.map(Number);
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-bench-'));
  let chance = seed;
  // A generator of Park and Miller, 1988.
  const random = (): number => (chance = (chance * 48271) % 2147483647) / 2147483647;
  const worst = { pdf: 0, png: 0 };
  for (let page = 0; page < pages; page++) {
    const drawn = Array.from({ length: 8 }, (): Drawn => {
      return { width: 15 + 30 * random(), height: 12 + 25 * random(), inset: 1 + random() };
    });
    for (const kind of ['pdf', 'png'] as const) {
      const { off, bars } = await lookAt(drawn, folder, kind);
      worst[kind] = Math.max(worst[kind], off);
      if (page === 0) console.log(`${kind}: bars of ${bars.join(' and ')} mm`);
    }
  }
  for (const [kind, off] of Object.entries(worst)) {
    console.log(`${kind}: edges of ${8 * pages} parts are off by at most ${off.toFixed(3)} mm`);
  }
  rmSync(folder, { recursive: true });
}

async function lookAt(
  drawn: readonly Drawn[],
  folder: string,
  kind: 'pdf' | 'png',
): Promise<{ readonly off: number; readonly bars: readonly string[] }> {
  const paths = drawn.map((one, i) => {
    const path = join(folder, `part-${i}.svg`);
    writeFileSync(path, drawingOf(one));
    return path;
  });
  const output = join(folder, `page.${kind}`);
  const options = { output, dpi: dpi(resolution), paper: findPaper('A5 landscape') };
  const laid = await sheetParts(paths, options);
  if (!laid.ok || laid.value.pages !== 1) throw new Error('not on one page');
  const stem = join(folder, 'their');
  if (kind === 'pdf') {
    spawnSync(drawer, ['-r', `${resolution}`, '-png', '-singlefile', output, stem]);
  }
  const dots = await readDots(kind === 'pdf' ? `${stem}.png` : output);
  const offs = laid.value.parts.map((part) => {
    const one = drawn[paths.indexOf(part.name)];
    return one === undefined ? Infinity : offOf(dots, part, one);
  });
  return { off: Math.max(...offs), bars: barsOf(dots) };
}

function drawingOf({ width, height, inset }: Drawn): string {
  const path = `M${inset} ${inset}H${width - inset}V${height - inset}H${inset}Z`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}"><path d="${path}"/></svg>`;
}

/** Whether a dot is dark, by its place in mm. */
type Dots = (x: number, y: number) => boolean;

async function readDots(file: string): Promise<Dots> {
  const picture = sharp(file, { limitInputPixels: false }).removeAlpha();
  const { data, info } = await picture.raw().toBuffer({ resolveWithObject: true });
  return (x, y) =>
    (data[3 * (Math.floor(y * perMm) * info.width + Math.floor(x * perMm))] ?? 255) < 128;
}

// The first and last dark dot of a line, mm, from their outer edges.
function darkFrom(isDark: (at: number) => boolean, from: number, to: number): [number, number] {
  const [first, last] = [Math.floor(from * perMm), Math.floor(to * perMm)];
  let [low, high] = [first, last];
  while (low < last && !isDark((low + 0.5) / perMm)) low++;
  while (high > first && !isDark((high + 0.5) / perMm)) high--;
  return [low / perMm, (high + 1) / perMm];
}

function offOf(dots: Dots, part: SheetedPart, { width, height, inset }: Drawn): number {
  const { xMm, yMm, turned } = part;
  const [across, down] = turned ? [height, width] : [width, height];
  const [x0, x1] = darkFrom((x) => dots(x, yMm + down / 2), xMm, xMm + across);
  const [y0, y1] = darkFrom((y) => dots(xMm + across / 2, y), yMm, yMm + down);
  const off = [
    x0 - xMm - inset,
    xMm + across - inset - x1,
    y0 - yMm - inset,
    yMm + down - inset - y1,
  ];
  return Math.max(...off.map(Math.abs));
}

// From the outer edge of the first tick to that of the last, less the width of a line.
function barsOf(dots: Dots): string[] {
  const [x, y] = [margin + strip, paper.height - margin - strip];
  const foot = darkFrom((at) => dots(at, paper.height - margin - 2.8), x - 1, x + 101);
  const side = darkFrom((at) => dots(margin + 2.8, at), y - 101, y + 1);
  return [foot, side].map(([from, to]) => (to - from - 0.15).toFixed(2));
}
