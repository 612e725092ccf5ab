import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, fillPhoto, parsePrintSize, type RowSource } from '@gaugerod/core';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { writePartDrawing } from '../../../packages/core/src/write/write-part-drawing.js';
import { wallFolder } from '../../support/fill-wall.js';
import { tempFolder } from '../../support/temp-folder.js';

const { folder, photo, drawing, asked, fill } = wallFolder(
  733,
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path fill-rule="evenodd" d="M5 25V10L15 5L25 10V25zM10 12h6v6h-6z"/></svg>',
);
const size = parsePrintSize('20.2x15.1mm');
const outline = { path: drawing };

// Programs that read what we write, each skipped where it is not installed.
const [svgDrawer, pdfTeller, pdfLister, pdfDrawer] = [
  'rsvg-convert',
  'pdfinfo',
  'pdfimages',
  'pdftocairo',
];
const has = (tool: string): boolean => {
  if (spawnSync(tool, ['--version']).error === undefined) return true;
  console.log(`skipped: ${tool} is not installed`);
  return false;
};

interface Drawn {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
}

async function drawSvg(path: string, resolution: number): Promise<Drawn> {
  const [target, told] = [`${path}.png`, String(resolution)];
  const words = ['--dpi-x', told, '--dpi-y', told, '-o', target, path];
  expect(spawnSync(svgDrawer, words).status).toBe(0);
  const { data, info } = await sharp(target)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
}

const pixels = async (path: string): Promise<Drawn> => {
  const { data, info } = await sharp(path)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
};

// The largest difference of a colour where both are opaque, the last column and row left out: the part
// ends within them.
function worst(a: Drawn, b: Drawn): number {
  let most = 0;
  for (let y = 0; y < Math.min(a.height, b.height) - 1; y++) {
    for (let x = 0; x < Math.min(a.width, b.width) - 1; x++) {
      const [i, j] = [4 * (y * a.width + x), 4 * (y * b.width + x)];
      if (a.data[i + 3] !== 255 || b.data[j + 3] !== 255) continue;
      for (let c = 0; c < 3; c++) most = Math.max(most, Math.abs(a.data[i + c]! - b.data[j + c]!));
    }
  }
  return most;
}

// Mean difference of reds, one drawn so many dots aside.
function meanAway(a: Drawn, b: Drawn, x: number, y: number): number {
  let sum = 0;
  for (let row = 2; row < 350; row++) {
    for (let column = 2; column < 470; column++) {
      const [i, j] = [row * a.width + column, (row + y) * b.width + column + x];
      sum += Math.abs(a.data[4 * i]! - b.data[4 * j]!);
    }
  }
  return sum / (348 * 468);
}

describe('an SVG of a part', () => {
  test('says its size in millimetres, to the last digit, with its bleed', async () => {
    const part = await fill('sized.svg', { size, bleed: 1.5 });
    const text = readFileSync(part.path, 'utf8');
    // 20.2 + 2 x 1.5 and 15.1 + 2 x 1.5.
    expect(text).toContain('width="23.2mm" height="18.1mm" viewBox="0 0 23.2 18.1">');
    expect([part.widthMm, part.heightMm]).toEqual([23.2, 18.1]);
    expect(text.match(/<image /g)).toHaveLength(1);
    // 36 dots of bleed are begun in 1.5 mm, 35.43, and 478 in 20.2 mm, 477.17.
    expect([part.widthPx, part.heightPx]).toEqual([478 + 72, 357 + 72]);
  });

  test.skipIf(!has(svgDrawer))('shows the very dots of the PNG of it', async () => {
    const [svg, png] = [await fill('a.svg', { size }), await fill('a.png', { size })];
    const [drawn, dots] = [await drawSvg(svg.path, 600), await pixels(png.path)];
    expect([drawn.width, drawn.height]).toEqual([478, 357]);
    expect(worst(drawn, dots)).toBe(0);
    const plain = await drawSvg((await fill('c.svg', { outline })).path, 600);
    expect(worst(plain, await pixels((await fill('c.png', { outline })).path))).toBe(0);
  });

  // A program may draw a repeat on dots of its own, and smooth those of the part by it.
  test.skipIf(!has(svgDrawer))(
    'as a pattern it shows the same dots in the same places',
    async () => {
      const given = { size, datum: { x: 7.3, y: 3.1 } };
      const svg = await fill('p.svg', { ...given, svg: 'pattern' });
      const [drawn, dots] = [
        await drawSvg(svg.path, 600),
        await pixels((await fill('p.png', given)).path),
      ];
      const here = meanAway(drawn, dots, 0, 0);
      for (const [x, y] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        expect(meanAway(drawn, dots, x, y)).toBeGreaterThan(2 * here);
      }
      const shape = await fill('q.svg', { outline, svg: 'pattern' });
      const text = readFileSync(shape.path, 'utf8');
      // Its mean colour lies under it, in the same shape: five corners, and four of the window.
      const paths = [...text.matchAll(/<path fill="([^"]*)" fill-rule="evenodd" d="([^"]*)"/g)];
      expect(paths.map(([, fill]) => fill)).toEqual([
        expect.stringMatching(/^#[0-9a-f]{6}$/),
        'url(#wall)',
      ]);
      expect(paths[0]?.[2]).toBe('M0 20L0 5L10 0L20 5L20 20ZM5 7L11 7L11 13L5 13Z');
      expect(paths[1]?.[2]).toBe(paths[0]?.[2]);
    },
  );

  test('is told of an SVG alone, and a pattern has no bleed past an outline', async () => {
    const wrong = fillPhoto(photo, { ...asked, size, svg: 'baked', output: join(folder, 'x.png') });
    await expect(wrong).rejects.toThrow('expected an output of .svg for svg, got "baked"');
    const bled = fillPhoto(photo, {
      ...asked,
      outline,
      bleed: 1,
      svg: 'pattern',
      output: join(folder, 'x.svg'),
    });
    await expect(bled).rejects.toThrow(
      'expected baked, for a pattern has no bleed past an outline, for svg',
    );
  });
});

// Of one colour from edge to edge: any line that shows is not of the wall.
const plain = (width: number, height: number): RowSource => ({
  width,
  height,
  dpi: dpi(600),
  *rows() {
    const row = new Uint8Array(3 * width).fill(120);
    for (let y = 0; y < height; y++) yield row;
  },
});

const square = {
  page: { width: 25.4, height: 25.4 },
  bleed: 0,
  at: { x: 0, y: 0 },
  dot: 25.4 / 600,
};

async function drawPlain(kind: 'baked' | 'pattern', resolution: number): Promise<Drawn> {
  const path = join(tempFolder(), 'plain.svg');
  const loops = [Float64Array.of(0, 0, 25.4, 0, 25.4, 25.4, 0, 25.4)];
  const pattern = {
    tile: plain(97, 89),
    at: { x: -1.01, y: -2.03 },
    colour: '#ffffff',
    loops,
    rule: 'nonzero',
  } as const;
  const rows = plain(600, 600);
  const part = { ...square, rows, wall: rows };
  await writePartDrawing(path, { part, pattern: kind === 'pattern' ? pattern : null, inputs: [] });
  return drawSvg(path, resolution);
}

// 25.4 mm are as many dots as the resolution says: pages that end within a dot fade there.
test.skipIf(!has(svgDrawer)).each([300, 600, 96, 150, 233, 417, 731])(
  'no line shows in a baked part at %d dots to the inch',
  async (resolution) => {
    const { data, width } = await drawPlain('baked', resolution);
    expect(width).toBe(resolution);
    // Asked once: half a million questions take 10 s.
    const others = new Set<string>();
    for (let i = 0; i < data.length; i += 4) others.add(`${data[i]}, ${data[i + 3]}`);
    expect([...others]).toEqual(['120, 255']);
  },
);

test('a picture that is more than programs read in a drawing lies beside it', async () => {
  const made = tempFolder();
  const path = join(made, 'front.svg');
  let state = 5;
  const noise = (): number => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) >>> 24;
  const rows: RowSource = {
    ...plain(1400, 1400),
    *rows() {
      for (let y = 0; y < 1400; y++) yield Uint8Array.from({ length: 4200 }, noise);
    },
  };
  const part = { ...square, rows, wall: rows };
  const warnings = await writePartDrawing(path, { part, pattern: null, inputs: [] });
  expect(warnings.map(({ code }) => code)).toEqual(['picture-beside']);
  const [picture = ''] = readdirSync(made).filter((name) => name.endsWith('.png'));
  expect(readFileSync(path, 'utf8')).toContain(`xlink:href="${picture}"`);
  expect((await sharp(join(made, picture)).metadata()).width).toBe(1400);
  // Where the drawing cannot be written, no picture is left behind.
  const lost = tempFolder();
  const given = { part, pattern: null, inputs: [join(lost, 'front.svg')] };
  writeFileSync(join(lost, 'front.svg'), 'mine');
  await expect(writePartDrawing(join(lost, 'front.svg'), given)).rejects.toThrow(
    /never written over/,
  );
  expect(readdirSync(lost)).toEqual(['front.svg']);
});

const page = has(pdfTeller) && has(pdfDrawer) && has(pdfLister);

describe.skipIf(!page)('a PDF of a part', () => {
  test('is a page of its size, which says what is cut away', async () => {
    const part = await fill('part.pdf', { size, bleed: 1.5 });
    const { stdout } = spawnSync(pdfTeller, ['-box', part.path], { encoding: 'utf8' });
    const numbers = (name: string): number[] =>
      (new RegExp(`^${name}:\\s*(.*)$`, 'm').exec(stdout)?.[1] ?? '')
        .match(/[\d.]+/g)
        ?.map(Number) ?? [];
    // ISO 32000-1, 8.3.2.3: 72 points to the inch, 25.4 mm.
    const [width = 0, height = 0] = numbers('Page size');
    expect(Math.abs((width * 25.4) / 72 - 23.2)).toBeLessThan(0.001);
    expect(Math.abs((height * 25.4) / 72 - 18.1)).toBeLessThan(0.001);
    const trim = numbers('TrimBox').map((points) => (points * 25.4) / 72);
    for (const [i, mm] of [1.5, 1.5, 21.7, 16.6].entries()) {
      expect(Math.abs((trim[i] ?? 0) - mm)).toBeLessThan(0.002);
    }
    expect([part.widthMm, part.heightMm]).toEqual([23.2, 18.1]);
  });

  test('holds its dots once, not to be smoothed, at their resolution', async () => {
    const plainPart = await fill('one.pdf', { size });
    const list = (path: string): string[][] =>
      spawnSync(pdfLister, ['-list', path], { encoding: 'utf8' })
        .stdout.trim()
        .split('\n')
        .slice(2)
        .map((line) => line.trim().split(/\s+/));
    // page num type width height color comp bpc enc interp object ID x-ppi y-ppi
    const [only = [], ...others] = list(plainPart.path);
    expect(others).toEqual([]);
    expect([only[2], only[3], only[4], only[9], only[12], only[13]]).toEqual([
      'image',
      '478',
      '357',
      'no',
      '600',
      '600',
    ]);
    expect(readFileSync(plainPart.path, 'latin1')).toContain('/Interpolate false');
    const shaped = await fill('shaped.pdf', { outline });
    expect(list(shaped.path).map((words) => words[2])).toEqual(['image', 'smask']);
  });

  test('shows the very dots of the PNG of it, and nothing in its window', async () => {
    const inches = join(folder, 'inches.svg');
    writeFileSync(
      inches,
      '<svg xmlns="http://www.w3.org/2000/svg" width="2in" height="2in" viewBox="0 0 2 2"><path d="M0 1V.5L.5 0L1 .5V1zM.25 .5v.3h.3v-.3z"/></svg>',
    );
    for (const more of [{ size: parsePrintSize('25.4x12.7mm') }, { outline: { path: inches } }]) {
      // Whole inches, so that a page ends with a dot: programs differ on what they do with half of one.
      const pdf = await fill('dots.pdf', more);
      const stem = join(folder, 'dots');
      const words = ['-r', '600', '-png', '-singlefile', pdf.path, stem];
      expect(spawnSync(pdfDrawer, words).status).toBe(0);
      const drawn = await pixels(`${stem}.png`);
      expect(worst(drawn, await pixels((await fill('same.png', more)).path))).toBeLessThanOrEqual(
        1,
      );
      if (!('outline' in more)) continue;
      // 0.4 and 0.6 inch: the middle of the window.
      const at = 4 * (360 * drawn.width + 240);
      expect([...drawn.data.subarray(at, at + 3)]).toEqual([255, 255, 255]);
    }
  });

  test('is the same file for the same part', async () => {
    const [one, other] = [await fill('x.pdf', { size }), await fill('x.pdf', { size })];
    expect(readFileSync(one.path).equals(readFileSync(other.path))).toBe(true);
  });
});
