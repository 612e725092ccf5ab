import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawStrip } from '@gaugerod/core';
import { drawPrinter, drawWall, encodePhoto, takePrint } from '@gaugerod/fixtures';
import { Ajv2020 } from 'ajv/dist/2020.js';
import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { plainBrick } from '../support/plain-brick.js';
import { type Run, runGaugerod, runHere } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

const schemaFile = new URL('../../packages/core/schema/results.schema.json', import.meta.url);
const schema = JSON.parse(readFileSync(fileURLToPath(schemaFile), 'utf8')) as object;
const ajv = new Ajv2020({ allErrors: true, strict: false });
ajv.addSchema(schema);

let photo: Buffer;
let strip: Buffer;

beforeAll(async () => {
  photo = await encodePhoto(drawWall(plainBrick).raster, { format: 'png' });
  strip = await encodePhoto(
    takePrint(drawStrip(), drawPrinter(6), { by: 'scanner', seed: 1, width: 800 }),
  );
});

function wallFolder(): string {
  const folder = tempFolder();
  writeFileSync(join(folder, 'wall.png'), photo);
  return folder;
}

function done(line: string, folder: string): Run {
  const run = runGaugerod(line.split(' '), folder);
  expect([run.exit, run.stderr.includes('error:')]).toEqual([0, false]);
  return run;
}

// Small enough to be quick: 20 mm at 254 dpi are exactly 200 dots (25.4 mm to the inch).
const part = '--scale 1:148 --size 20x20mm --dpi 254';

test.each([
  ['measure', 'measure wall.png --course uk-metric'],
  ['measure', 'measure wall.png --course uk-metric --overlay joints.png'],
  ['measure', 'measure wall.png --span 0.5,0.5,100.5,0.5 --length 300mm'],
  ['formats', 'measure wall.png'],
  ['formats', 'measure wall.png --region uk'],
  ['formats', 'measure wall.png --page wall.html'],
  ['measure', 'measure wall.png --course uk-metric --page wall.html'],
  [
    'measure',
    'measure wall.png --span 0.5,0.5,100.5,0.5 --length 300mm --span 0.5,9.5,100.5,9.5 --length 1m+-1%',
  ],
  ['measure', 'measure wall.png --section IPE-200 --span 0.5,0.5,100.5,0.5'],
  ['measure', 'measure wall.png --distance 5m --focal 28mm'],
  ['error', 'measure wall.png --distance 5m'],
  ['error', 'measure wall.png --span 1,1,1,1 --length 300mm'],
  ['scaleLength', 'scale 9.9m --scale N-UK'],
  ['scalePhoto', 'scale wall.png --course 75mm --scale 1:76.2'],
  ['measure', 'measure wall.png --corners 20,20;340,20;340,240;20,240 --real-size 960x660mm'],
  ['inspect', 'inspect wall.png'],
  ['mend', 'mend wall.png -o tile.png'],
  ['extend', 'extend wall.png --times 2x1.5 -o tile.png'],
  ['extend', 'extend wall.png --course uk-metric --scale 1:148 --size 10x8mm -o tile.png'],
  ['fill', `fill wall.png --course uk-metric ${part} -o front.png`],
  [
    'fill',
    `fill wall.png --course uk-metric --scale 1:148 --dpi 254 --outline part.svg#p --corner left=9mm -o front.png`,
  ],
  ['error', `fill wall.png --course uk-metric --scale 1:148 --outline part.svg#q -o front.png`],
  ['fill', `fill wall.png --course uk-metric ${part} -o front2.svg`],
  ['fill', `fill wall.png --course uk-metric ${part} -o front.pdf`],
  ['fill', `fill wall.png --course uk-metric ${part} --weather grimy --rust 0 -o old.png`],
  ['fill', `fill wall.png --course uk-metric ${part} --sharpen 0.8 --ink-limit 240% -o ink.png`],
  ['weathered', 'weather wall.png --course uk-metric --soot 0.5 -o sooty.png'],
  ['weathered', 'weather wall.png --course uk-metric --weather derelict --repeat both -o t.png'],
  ['error', 'weather wall.png -o sooty.png'],
  ['relief', 'relief --section IPE-600 --length 2m --scale 1:76.2 -o girder.png'],
  [
    'relief',
    'relief --section IPE-600 --length 2m --scale 1:76.2 --weather grimy --foot 10 -o old.png',
  ],
  [
    'relief',
    'relief wall.png --course 75mm --profile plate --depth 300mm --rivets 90mm --length 2m --scale 1:76.2 -o a.svg',
  ],
  ['error', 'relief --section IPE-100 --length 2m --scale 1:148 -o girder.png'],
  ['dress', 'dress house.svg --paint #b5432e=wall.png --course 75mm --scale OO -o dressed.svg'],
  [
    'dress',
    'dress house.svg --paint .a=wall.png --course 75mm --scale OO --weather grimy --foot 20 -o aged.svg',
  ],
  ['dress', 'dress house.svg --paint .a=wall.png --course 75mm --scale OO --link p -o dressed.svg'],
  ['error', 'dress house.svg --paint #tower=wall.png --scale OO -o dressed.svg'],
  ['slim', 'slim front.svg -o small.svg'],
  ['slim', 'slim front.svg --report --find .'],
  ['error', 'slim wall.png -o small.svg'],
  ['error', 'slim front.svg'],
  ['sheet', 'sheet wall.png wall.png --dpi 150 -o page.pdf'],
  ['sheet', 'sheet wall.png --dpi 20 --paper A5 -o page.pdf'],
  ['built', 'build works.yaml'],
  ['built', 'build works.yaml --dry-run --only page'],
  ['cleaned', 'build works.yaml --clean'],
  ['error', 'build works.yaml --only nothing'],
  ['error', 'build wall.png'],
  ['sheet', 'sheet wall.png --dpi 150 --saturation 1.1 --dot-gain 12% -o page.pdf'],
  ['testStrip', 'sheet --test-strip --paper Letter -o strip.pdf'],
  ['printer', 'sheet --strip-photo strip.png -o my.printer.json'],
  ['error', 'sheet --strip-photo wall.png -o my.printer.json'],
  ['reference', 'reference brick'],
  ['reference', 'reference --add shed --course 76mm --tolerance 1mm --source measured'],
  ['error', 'reference --add uk-metric --course 76mm --tolerance 1mm --source measured'],
  ['error', 'measure missing.png --course uk-metric'],
  ['error', 'scale 9.9m --scale N'],
])('%s: what --json prints keeps to the published schema (%s)', async (name, line) => {
  const words = line
    .split(' ')
    .map((word) => word.replace(/^([^,;]+,[^,;]+),/, '$1 ').replaceAll(';', ' '));
  const folder = wallFolder();
  writeFileSync(
    join(folder, 'front.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"><image width="9" height="9" href="gone.png"/></svg>',
  );
  if (line.includes('strip.png')) writeFileSync(join(folder, 'strip.png'), strip);
  writeFileSync(
    join(folder, 'part.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"><path id="p" d="M1 1h7l-7 7z"/></svg>',
  );
  writeFileSync(
    join(folder, 'house.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"><rect class="a" fill="#b5432e" width="8" height="7"/></svg>',
  );
  writeFileSync(
    join(folder, 'works.yaml'),
    'gaugerod: 1\nscale: 1:148\ndpi: 254\nsurfaces: { a: { photo: wall.png, course: 75mm } }\nparts: { b: { surface: a, size: 20x20mm } }\nsheets: { page: { parts: [b] } }\n',
  );
  const { stdout, exit } = await runHere([...words, '--json'], folder);
  const check = ajv.getSchema(`gaugerod:results/1#/$defs/${name}`);
  expect(check?.(JSON.parse(stdout)), JSON.stringify(check?.errors)).toBe(true);
  expect(exit === 0).toBe(name !== 'error');
});

test('a course of 75 mm on 25 px is 3 mm a pixel, and told in figures that mean something', () => {
  const folder = wallFolder();
  const { stdout } = done('measure wall.png --course uk-metric --json', folder);
  const { mmPerPx, confidence } = JSON.parse(stdout) as {
    mmPerPx: { x: number; y: number };
    confidence: number;
  };
  expect(Math.abs(mmPerPx.y / 3 - 1)).toBeLessThan(0.01);
  expect(String(mmPerPx.y).replace('.', '').length).toBeLessThanOrEqual(6);
  expect(String(confidence).length).toBeLessThanOrEqual(6);
});

test.each(['y', 'x'] as const)(
  'the bond is told, and which way courses are counted: %s',
  async (axis) => {
    const folder = tempFolder();
    const { raster } = drawWall({
      bond: 'flemish',
      coursePx: 25,
      width: 600,
      height: 500,
      seed: 7,
    });
    const drawn = await encodePhoto(raster, { format: 'png' });
    const turned = sharp(drawn).rotate(axis === 'x' ? 90 : 0);
    writeFileSync(join(folder, 'wall.png'), await turned.png().toBuffer());
    const line = `measure wall.png --axis ${axis}`;
    const { stdout } = done(`${line} --course uk-metric`, folder);
    expect(stdout).toMatch(/^ {2}bond +flemish$/m);
    expect(/^ {2}courses +stand upright$/m.test(stdout)).toBe(axis === 'x');
    // What is said to be typed next measures the same courses.
    const { stdout: asked } = done(line, folder);
    expect(/^say what they are: .* --course uk-metric --axis x$/m.test(asked)).toBe(axis === 'x');
    const kept = runGaugerod([...line.split(' '), '--save'], folder);
    expect(kept.stderr).toMatch(/^hint: by their shape its courses are likeliest .*uk-metric/m);
    for (const known of ['', ' --course uk-metric']) {
      const { stdout: json } = done(`${line}${known} --json`, folder);
      expect(JSON.parse(json)).toMatchObject({ bond: 'flemish', axis });
    }
  },
);

test('the main job writes exactly the size asked for, and says in the file how big it prints', async () => {
  const folder = wallFolder();
  done(`fill wall.png --course uk-metric ${part} -o front.png`, folder);
  // 254 dpi are 10,000 pixels a metre, which pHYs holds exactly (PNG, third edition, 11.3.4.3).
  const { width, height, density } = await sharp(join(folder, 'front.png')).metadata();
  expect([width, height, density]).toEqual([200, 200, 254]);
  expect(readdirSync(folder).sort()).toEqual(['front.png', 'wall.png']);
});

test('two pieces cut from one wall meet: their courses run on', async () => {
  const folder = wallFolder();
  done('measure wall.png --course uk-metric --save', folder);
  const wide = part.replace('20x20mm', '40x20mm');
  done(`fill wall.png ${part} -o left.png`, folder);
  done(`fill wall.png ${part} --datum 20,0 -o right.png`, folder);
  done(`fill wall.png ${wide} -o both.png`, folder);
  const pixels = (name: string) => sharp(join(folder, name)).raw().toBuffer();
  const window = { left: 200, top: 0, width: 200, height: 200 };
  const both = sharp(join(folder, 'both.png'));
  expect(
    (await pixels('right.png')).equals(await both.clone().extract(window).raw().toBuffer()),
  ).toBe(true);
  const first = await both
    .clone()
    .extract({ ...window, left: 0 })
    .raw()
    .toBuffer();
  expect((await pixels('left.png')).equals(first)).toBe(true);
});

test('the reminder of the licence stays away once the terms are kept beside the photo', () => {
  const folder = wallFolder();
  done('measure wall.png --course uk-metric --save', folder);
  expect(done(`fill wall.png ${part} -o front.png`, folder).stderr).toContain('licence');
  done('measure wall.png --course uk-metric --save --licence CC0-1.0', folder);
  expect(done(`fill wall.png ${part} -o front.png`, folder).stderr).not.toContain('licence');
});

test('a scale error is told without a sign, and the reference by its name', () => {
  const folder = wallFolder();
  const line = 'fill wall.png --course uk-metric --scale 1:148 --size 20x20mm -o front.png --dpi';
  const errors = [150, 180, 200, 254, 300].map((dpi) => {
    const { stdout } = done(`${line} ${dpi}`, folder);
    expect(stdout).toMatch(/^ {2}reference +UK metric brick, 75 mm$/m);
    expect(stdout).toMatch(/^ {2}scale error +[\d.]+ % by rounding to whole dots$/m);
    const { stdout: json } = done(`${line} ${dpi} --json`, folder);
    return (JSON.parse(json) as { scaleErrorPercent: number }).scaleErrorPercent;
  });
  expect(Math.min(...errors)).toBeLessThan(0);
});

test('--quiet prints the result and nothing else; a pipe gets no progress', () => {
  const folder = wallFolder();
  const line = `fill wall.png --course uk-metric ${part} -o front.png`;
  expect(done(`${line} --quiet`, folder).stderr).toBe('');
  expect(done(line, folder).stderr).toMatch(/^(warning: [^\n]+\n)*$/);
});

test('mending brickwork leaves whole courses and no seam that its own inspection finds', () => {
  const folder = wallFolder();
  const { stdout } = done('mend wall.png --course uk-metric -o tile.png --json', folder);
  const { courses, height } = JSON.parse(stdout) as { courses: number; height: number };
  expect(Number.isInteger(courses)).toBe(true);
  // A course is 25 px high, as it was drawn.
  expect(Math.abs(height / (25 * courses) - 1)).toBeLessThan(0.01);
  const { x, y } = JSON.parse(done('inspect tile.png --json', folder).stdout) as Record<
    'x' | 'y',
    { seamless: boolean }
  >;
  expect([x.seamless, y.seamless]).toEqual([true, true]);
});

test('the same seed is the same weather, to the byte, in another process and at another place in the line', () => {
  const folder = wallFolder();
  const line = `fill wall.png --course uk-metric ${part}`;
  done(`${line} --weather grimy --seed 5 -o one.png`, folder);
  done(`${line} --seed 5 -o two.png --weather grimy`, folder);
  done(`${line} --weather grimy --seed 6 -o other.png`, folder);
  const [one, two, other] = ['one', 'two', 'other'].map((name) =>
    readFileSync(join(folder, `${name}.png`)),
  );
  expect(two?.equals(one ?? Buffer.alloc(0))).toBe(true);
  expect(other?.equals(one ?? Buffer.alloc(0))).toBe(false);
});

test('ledges and fixings are taken in millimetres, of any sign', () => {
  const folder = wallFolder();
  const line = ['fill', 'wall.png', '--course', 'uk-metric', ...part.split(' ')];
  const placed = [
    '--ledge',
    '-2,4 1.2cm,4',
    '--ledge',
    '2,9 9,9',
    '--fixing',
    '4,5 9,6mm',
    '--foot',
    '19',
  ];
  const run = runGaugerod(
    [...line, ...placed, '--streaks', '.5', '--damp', '.2', '--rust', '1', '-o', 'a.png'],
    folder,
  );
  expect([run.exit, run.stderr.includes('error:')]).toEqual([0, false]);
  expect(run.stdout).toMatch(/^ {2}weather +streaks 0.5, damp 0.2, rust 1, seed 1$/m);
});
