import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  changeColours,
  dpi,
  drawStrip,
  dressDrawing,
  fillPhoto,
  findCourse,
  findPaper,
  findScale,
  makeRelief,
  makeTestStrip,
  parsePaintKey,
  parsePrinter,
  parsePrintSize,
  parseProfile,
  type PrintingOptions,
  readTestStrip,
  realMm,
  sheetParts,
  TextureError,
} from '@gaugerod/core';
import {
  decodePhoto,
  drawPrinter,
  drawWall,
  drawWorkColours,
  encodePhoto,
  judgePrint,
  nearestPrint,
  steepen,
  type PrintTaking,
  type Rgb,
  takePrint,
} from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { plainBrick } from '../../support/plain-brick.js';

// Programs that read what we write.
const [reader, teller] = ['pdftotext', 'pdfinfo'];
const folder = mkdtempSync(join(tmpdir(), 'gaugerod-strip-'));
const at = (name: string): string => join(folder, name);
const printer = drawPrinter(77);
const profile = at('my.printer.json');
const surface = { course: findCourse('uk-metric'), scale: findScale('OO'), dpi: dpi(254) };

beforeAll(async () => {
  writeFileSync(at('wall.png'), await encodePhoto(drawWall(plainBrick).raster, { format: 'png' }));
  const made = await makeTestStrip({ output: at('strip.png'), dpi: dpi(254) });
  expect(made).toMatchObject({ ok: true, value: { strip: 1, patches: 240 } });
  // The page as another program would send it to a printer, texts and all.
  const page = await decodePhoto(readFileSync(at('strip.png')));
  const scan = takePrint(page, printer, { by: 'scanner', seed: 8, width: 1400 });
  writeFileSync(at('scan.jpg'), await encodePhoto(scan));
  const read = await readTestStrip(at('scan.jpg'), { output: profile });
  expect(read).toMatchObject({ ok: true, value: { strip: 1, turned: 0, mirrored: false } });
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function pixels(path: string): Promise<Buffer> {
  return sharp(path).removeAlpha().raw().toBuffer();
}

async function fill(name: string, options: object): Promise<Buffer> {
  const output = at(name);
  const filled = await fillPhoto(at('wall.png'), {
    ...surface,
    size: parsePrintSize('30x20mm'),
    output,
    ...options,
  });
  if (!filled.ok) throw new Error(filled.message);
  return pixels(output);
}

// How far bytes are from what a profile makes of others, past what can be told: these were rounded, and what they stood
// for lay within half a level, each channel either way.
function farthest(sent: Buffer, shown: Buffer): number {
  const { table } = parsePrinter(readFileSync(profile, 'utf8'));
  const [least, most] = [
    new Float32Array(shown.length).fill(Infinity),
    new Float32Array(shown.length).fill(-Infinity),
  ];
  for (let corner = 0; corner < 8; corner++) {
    const colours = Float32Array.from(
      shown,
      (byte, i) => (byte + ((corner >> (i % 3)) & 1) - 0.5) / 255,
    );
    changeColours(table, colours);
    colours.forEach((level, i) => {
      least[i] = Math.min(least[i]!, 255 * level);
      most[i] = Math.max(most[i]!, 255 * level);
    });
  }
  expect(sent).toHaveLength(shown.length);
  return sent.reduce((off, byte, i) => Math.max(off, least[i]! - byte, byte - most[i]!), 0);
}

test('the strip as a page, printed and scanned, makes colours come out within a CIEDE2000 of 2', () => {
  const { table } = parsePrinter(readFileSync(profile, 'utf8'));
  const colours = drawWorkColours(5).filter((colour) => nearestPrint(printer, colour) < 0.5);
  const off = colours.map((colour) => {
    const sent = Float32Array.from(colour);
    changeColours(table, sent);
    const [r = 0, g = 0, b = 0] = sent;
    return judgePrint(printer, colour, [r, g, b] satisfies Rgb);
  });
  expect(off.reduce((sum, value) => sum + value, 0) / off.length).toBeLessThanOrEqual(2);
});

test('words on the strip can be searched, and it is as large as its paper', async () => {
  await makeTestStrip({ output: at('strip.pdf'), paper: findPaper('Letter') });
  if (spawnSync(reader, ['-v']).error !== undefined) {
    console.log(`skipped: ${reader} is not installed`);
    return;
  }
  const words = spawnSync(reader, [at('strip.pdf'), '-'], { encoding: 'utf8' }).stdout;
  expect(words).toContain('gaugerod test strip 1');
  expect(words).toContain('Print at 100 %');
  // Letter is 8.5 x 11 in, and a point 1/72 in.
  const info = spawnSync(teller, [at('strip.pdf')], { encoding: 'utf8' }).stdout;
  expect(info).toMatch(/Page size: +612 x 792 pts/);
});

test('a fill sends what the profile says, and repeats as before', async () => {
  const plain = await fill('plain.png', {});
  const sent = await fill('sent.png', { printing: { printer: profile } });
  expect(farthest(sent, plain)).toBeLessThan(0.75);
  expect(sent.equals(plain)).toBe(false);
});

test('weathered rows are sent as the profile says, once all is laid on them', async () => {
  const weather = { preset: 'grimy', seed: 4 };
  const plain = await fill('old.png', { weather });
  const sent = await fill('old-sent.png', { weather, printing: { printer: profile } });
  expect(farthest(sent, plain)).toBeLessThan(0.75);
});

test('relief is sent as the profile says, light and all, but not where its lines stay lines', async () => {
  const girder = {
    profile: parseProfile('plate', 'profile'),
    depth: realMm(600),
    length: realMm(1500),
    scale: findScale('OO'),
    colour: '#7a543e',
  };
  await makeRelief(null, { ...girder, output: at('girder.png') });
  const printing: PrintingOptions = { printer: profile };
  await makeRelief(null, { ...girder, printing, output: at('girder-sent.png') });
  const sent = await pixels(at('girder-sent.png'));
  expect(farthest(sent, await pixels(at('girder.png')))).toBeLessThan(0.75);
  const svg = makeRelief(null, { ...girder, printing, output: at('girder.svg') });
  await expect(svg).rejects.toThrow(/for printer, got/);
});

test('pages send parts as the profile says, pictures and flat fills alike', async () => {
  await fill('part.png', {});
  writeFileSync(
    at('flat.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30"><path d="M0 0h40v30z" fill="#a06a50"/></svg>',
  );
  for (const part of ['part.png', 'flat.svg']) {
    const options = { dpi: dpi(254), turn: false };
    const parts = await sheetParts([at(part)], { ...options, output: at('page.png') });
    const printing: PrintingOptions = { printer: profile };
    await sheetParts([at(part)], { ...options, printing, output: at('page-sent.png') });
    if (!parts.ok) throw new Error(parts.message);
    const { xMm = 0, yMm = 0 } = parts.value.parts[0] ?? {};
    // Inside the part, clear of its edges and of those of the triangle.
    const window = {
      left: Math.round(10 * xMm) + 150,
      top: Math.round(10 * yMm) + 20,
      width: 60,
      height: 30,
    };
    const cut = (name: string): Promise<Buffer> =>
      sharp(at(name)).extract(window).removeAlpha().raw().toBuffer();
    expect(farthest(await cut('page-sent.png'), await cut('page.png'))).toBeLessThan(0.75);
  }
});

test('a dressed drawing shows the colours to be sent', async () => {
  writeFileSync(
    at('house.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20"><rect fill="#b5432e" width="15" height="15"/></svg>',
  );
  const options = {
    ...surface,
    paint: [{ key: parsePaintKey('#b5432e', 'paint'), surface: at('wall.png') }],
  };
  const dress = async (name: string, printing?: PrintingOptions): Promise<Buffer> => {
    const link = at(name);
    const told = printing === undefined ? {} : { printing };
    await dressDrawing(at('house.svg'), { ...options, ...told, link, output: at(`${name}.svg`) });
    const [file = ''] = readdirSync(link);
    return pixels(join(link, file));
  };
  const sent = await dress('sent', { printer: profile });
  expect(farthest(sent, await dress('shown'))).toBeLessThan(0.75);
});

test('sharpening leaves the mean and what repeats, and makes detail stronger', async () => {
  const plain = await fill('soft.png', {});
  const sharper = await fill('sharp.png', { printing: { sharpen: 1 } });
  const mean = (bytes: Buffer): number => bytes.reduce((sum, byte) => sum + byte, 0) / bytes.length;
  const detail = (bytes: Buffer): number =>
    bytes.reduce((sum, byte, i) => sum + Math.abs(byte - (bytes[i + 3] ?? byte)), 0);
  expect(Math.abs(mean(sharper) - mean(plain))).toBeLessThan(0.5);
  expect(detail(sharper)).toBeGreaterThan(1.2 * detail(plain));
  // 30 mm at 254 dpi are 300 dots: more than the tile, whose copies are alike.
  const filled = await fillPhoto(at('wall.png'), {
    ...surface,
    size: parsePrintSize('30x20mm'),
    output: at('again.png'),
    printing: { sharpen: 1 },
  });
  if (!filled.ok) throw new Error(filled.message);
  const { widthPx } = filled.value.tile;
  expect(widthPx).toBeLessThan(300);
  for (let i = 0; i < 3 * (300 - widthPx); i++) {
    expect(sharper[i]).toBe(sharper[i + 3 * widthPx]);
  }
});

test.each<readonly [string, PrintingOptions, RegExp]>([
  ['a gain of more than a quarter', { dotGain: 0.3 }, /0 to 0\.24 for dotGain/],
  ['a gain that is none', { dotGain: Number.NaN }, /for dotGain/],
  ['less than one ink', { inkLimit: 0.5 }, /1 to 3 for inkLimit/],
  ['colours turned about', { saturation: -1 }, /0 to 2 for saturation/],
  ['more than twice the detail', { sharpen: 3 }, /0 to 2 for sharpen/],
  ['a gain told twice', { printer: 'a.json', dotGain: 0.1 }, /no dot gain beside a printer/],
])('%s is refused before anything is read', async (_, printing, message) => {
  const filled = fillPhoto(at('gone.png'), {
    ...surface,
    size: parsePrintSize('9x9mm'),
    output: at('never.png'),
    printing,
  });
  await expect(filled).rejects.toThrow(message);
});

test('what is no profile is told by name, and nothing is written', async () => {
  writeFileSync(at('other.json'), '{"schema":"gaugerod.printer/9"}');
  writeFileSync(at('broken.json'), '{"schema":"gaugerod.printer/1","strip":"x"}');
  const before = readdirSync(folder).length;
  for (const [name, code] of [
    ['other.json', 'newer-printer'],
    ['broken.json', 'bad-printer'],
    ['wall.png', 'bad-printer'],
    ['gone.json', 'no-file'],
  ] as const) {
    const filled = fillPhoto(at('wall.png'), {
      ...surface,
      size: parsePrintSize('9x9mm'),
      output: at('never.png'),
      printing: { printer: at(name) },
      // Told before the photo is measured.
      onProgress: (step) => {
        expect(step).toBe('reading');
      },
    });
    const error = await filled.catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(TextureError);
    expect(error).toMatchObject({ code });
    expect(error instanceof Error ? error.message : '').toContain(name);
  }
  expect(readdirSync(folder)).toHaveLength(before);
});

test('a photo of no strip writes no profile, and no scan is written over', async () => {
  const refused = await readTestStrip(at('wall.png'), { output: at('never.json') });
  expect(refused).toMatchObject({ ok: false, code: 'no-strip' });
  expect(readdirSync(folder)).not.toContain('never.json');
  const size = statSync(at('scan.jpg')).size;
  await expect(readTestStrip(at('scan.jpg'), { output: at('scan.jpg') })).rejects.toThrow('input');
  expect(statSync(at('scan.jpg')).size).toBe(size);
  const small = await makeTestStrip({ output: at('small.pdf'), paper: findPaper('A5') });
  expect(small).toMatchObject({ ok: false, code: 'paper-too-small' });
});

test('a photo in light too even to tell contrast that its camera added is warned of, a scan is not', async () => {
  const codes = async (options: Omit<PrintTaking, 'seed'>): Promise<readonly string[]> => {
    // Of seed 66 light falls off by 1 % across and down, as drawn.
    const taken = takePrint(drawStrip(), printer, { ...options, seed: 66, width: 1000 });
    writeFileSync(at('taken.jpg'), await encodePhoto(taken));
    const read = await readTestStrip(at('taken.jpg'), { output: at('taken.printer.json') });
    if (!read.ok) throw new Error(read.message);
    expect(read.value.contrast).toBe(0);
    return read.warnings.map(({ code }) => code);
  };
  expect(await codes({ by: 'camera', camera: { fall: 0 } })).toContain('contrast-untold');
  expect(await codes({ by: 'scanner' })).not.toContain('contrast-untold');
});

test('contrast that is taken out is not said to be untold', async () => {
  // Of seed 803 light falls off by 15 % from its most to its least: much contrast is told, though not to 1 of L*.
  const camera = { curve: steepen(0.2), fall: 0 };
  const seen = takePrint(drawStrip(), drawPrinter(803), {
    by: 'camera',
    seed: 803,
    width: 1200,
    camera,
  });
  writeFileSync(at('contrast.jpg'), await encodePhoto(seen));
  const read = await readTestStrip(at('contrast.jpg'), { output: at('contrast.printer.json') });
  if (!read.ok) throw new Error(read.message);
  expect(read.value.contrast).toBeGreaterThan(1);
  expect(read.value.contrastUnsure).toBeGreaterThan(1);
  expect(read.warnings.map(({ code }) => code)).not.toContain('contrast-untold');
});
