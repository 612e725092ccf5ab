import { spawnSync } from 'node:child_process';
import {
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { dpi, slimDrawing, type SlimDrawingOptions, type SlimmedDrawing } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { meanDifference } from '../../../packages/core/src/colour/mean-difference.js';
import { encodeSrgb } from '../../../packages/core/src/colour/srgb.js';
import { exifBlock, exifSegment, withSegments } from '../../support/picture-files.js';
import { tempFolder } from '../../support/temp-folder.js';

let png: Buffer;
let jpeg: Buffer;

// 600 x 450 px of brickwork.
beforeAll(async () => {
  const { planes } = drawWall({
    bond: 'flemish',
    coursePx: 31,
    width: 600,
    height: 450,
    seed: 11,
  }).raster;
  const bytes = Buffer.alloc(600 * 450 * 3);
  planes.forEach((plane, c) => {
    plane.forEach((light, i) => (bytes[i * 3 + c] = encodeSrgb(light)));
  });
  const wall = sharp(bytes, { raw: { width: 600, height: 450, channels: 3 } });
  png = await wall.clone().png().toBuffer();
  jpeg = await wall.clone().jpeg({ quality: 95, chromaSubsampling: '4:4:4' }).toBuffer();
});

const uri = (bytes: Buffer, type = 'png'): string =>
  `data:image/${type};base64,${bytes.toString('base64')}`;

const head =
  'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="60mm" height="40mm" viewBox="0 0 60 40"';

const svg = (inner: string, more = head): string => `<svg ${more}>\n${inner}\n</svg>\n`;

interface Slimmed extends SlimmedDrawing {
  readonly text: string;
  readonly codes: readonly string[];
}

async function slim(
  folder: string,
  options: Partial<SlimDrawingOptions> = {},
  name = 'front.svg',
): Promise<Slimmed> {
  const path = join(folder, name);
  const before = readFileSync(path);
  const output = join(folder, 'small.svg');
  const outcome = await slimDrawing(path, { output, ...options });
  if (!outcome.ok) throw new Error('refused');
  expect(readFileSync(path).equals(before)).toBe(true);
  const { value, warnings } = outcome;
  const text = value.output === null ? '' : readFileSync(value.output, 'utf8');
  if (value.output !== null) expect(statSync(value.output).size).toBe(value.bytesAfter);
  return { ...value, text, codes: warnings.map(({ code }) => code) };
}

function drawingFolder(text: string | Buffer): string {
  const folder = tempFolder();
  writeFileSync(join(folder, 'front.svg'), text);
  return folder;
}

// The pictures that a drawing holds, in order.
function picturesIn(text: string): Buffer[] {
  return [...text.matchAll(/base64,([A-Za-z0-9+/=]*)/g)].map(([, data = '']) =>
    Buffer.from(data, 'base64'),
  );
}

const clip = '<clipPath id="c"><path d="M8.3 6.2h9v7l-3 2h-6z"/></clipPath>';
const image = (href: string, more = ''): string =>
  `<image x="5.13" y="5.21" width="24" height="18" ${more} xlink:href="${href}"/>`;

describe('a picture that stands several times', () => {
  test('is stored once, and what was set on each place stays', async () => {
    const text = svg(
      [0, 1, 2, 3, 4]
        .map((i) => image(uri(png), `id="w${i}" opacity=".9" transform="translate(${i} 2)"`))
        .join('\n'),
    );
    const made = await slim(drawingFolder(text), { keepClipped: true, dpi: dpi(2400) });
    expect(picturesIn(made.text).map((one) => one.equals(png))).toEqual([true]);
    expect(made.text.match(/<use /g)).toHaveLength(5);
    expect(made.text).toContain('<use id="w3" opacity=".9" transform="translate(3 2) matrix(');
    // Four fifths of it were copies.
    expect(made.bytesAfter / made.bytesBefore).toBeLessThan(0.25);
    expect(made.verdict).toContain('are 5 copies of one picture');
  });

  test('is clipped, masked and described as before', async () => {
    const text = svg(
      `${clip}${image(uri(png), 'clip-path="url(#c)"')}<s:image xmlns:s="http://www.w3.org/2000/svg" width="24" height="18" xlink:href='${uri(png)}'><s:title>a wall</s:title></s:image>`,
    );
    const made = await slim(drawingFolder(text), { keepClipped: true, dpi: dpi(2400) });
    expect(made.text).toMatch(
      /<g\s+clip-path="url\(#c\)"\s*><use transform="[^"]*" xlink:href="#gaugerod-picture-1"\/><\/g>/,
    );
    expect(made.text).toMatch(/<s:use [^>]*><s:title>a wall<\/s:title><\/s:use>/);
  });

  test.each([
    ['a sheet that goes by its name', '<style>image{opacity:.5}</style>'],
    ['a sheet that goes by where it stands', '<style>.k:first-child{fill:red}</style>'],
    ['a script', '<script>1</script>'],
  ])('is left where %s could make it show otherwise', async (_, more) => {
    const text = svg(more + image(uri(png)) + image(uri(png)));
    const made = await slim(drawingFolder(text), { dpi: dpi(2400) });
    expect(made.text).toBe(text);
    expect(made.codes).toContain('not-smaller');
  });
});

describe('a picture of which a part shows', () => {
  test('is cut to that part, and two pixels round it', async () => {
    const text = svg(`${clip}<g clip-path="url(#c)">${image(uri(png))}</g>`);
    const made = await slim(drawingFolder(text), { dpi: dpi(2400) });
    const [picture] = picturesIn(made.text);
    const { width, height } = await sharp(picture).metadata();
    // 25 px to the millimetre: 9 x 9 mm, from 3.17 mm and 0.99 mm on, and 2 px on each side:
    // from 77.25 to 306.25 and from 22.75 to 251.75, in whole pixels.
    expect([width, height]).toEqual([307 - 77, 252 - 22]);
    const { data } = await sharp(png)
      .extract({ left: 77, top: 22, width: 230, height: 230 })
      .raw()
      .toBuffer({ resolveWithObject: true });
    // Without loss.
    expect((await sharp(picture).removeAlpha().raw().toBuffer()).equals(data)).toBe(true);
  });

  test('is kept whole where that was asked, or a box is measured by it', async () => {
    const clipped = `${clip}<g clip-path="url(#c)">${image(uri(png))}</g>`;
    const kept = await slim(drawingFolder(svg(clipped)), { keepClipped: true, dpi: dpi(2400) });
    expect(kept.text).toBe(svg(clipped));
    const masked = `<mask id="m"><rect width="9" height="9" fill="#fff"/></mask><g mask="url(#m)">${clipped}</g>`;
    expect((await slim(drawingFolder(svg(masked)), { dpi: dpi(2400) })).text).toBe(svg(masked));
  });

  test('is part of a pattern, and is only stored once', async () => {
    const inside = `<pattern id="p" width="9" height="9" patternUnits="userSpaceOnUse">${image(uri(png))}</pattern>`;
    const text = svg(`${inside}<rect width="9" height="9" fill="url(#p)"/>${image(uri(png))}`);
    const made = await slim(drawingFolder(text));
    expect(picturesIn(made.text).map((one) => one.equals(png))).toEqual([true]);
  });
});

const rsvg = spawnSync('rsvg-convert', ['--version']).status === 0;

async function render(folder: string, name: string): Promise<{ data: Buffer; width: number }> {
  const target = join(folder, `${name}.png`);
  const words = ['--dpi-x', '600', '--dpi-y', '600', '-o', target, join(folder, name)];
  expect(spawnSync('rsvg-convert', words).status).toBe(0);
  const flat = sharp(target).flatten({ background: '#ffffff' });
  const { data, info } = await flat.raw().toBuffer({ resolveWithObject: true });
  return { data, width: info.width };
}

// Every pixel that is not paper in both: mean, and the worst of the means of 8 x 8 pixels.
function compare(a: Buffer, b: Buffer, width: number): { mean: number; worst: number } {
  const [one, other]: [number[], number[]] = [[], []];
  let worst = 0;
  for (let i = 0; i < a.length; i += 3) {
    const paper = [a, b].every((x) => (x[i] ?? 0) + (x[i + 1] ?? 0) + (x[i + 2] ?? 0) === 765);
    if (paper) continue;
    one.push(...a.subarray(i, i + 3));
    other.push(...b.subarray(i, i + 3));
  }
  const height = a.length / 3 / width;
  for (let y = 0; y + 8 <= height; y += 8) {
    for (let x = 0; x + 8 <= width; x += 8) {
      const block = (from: Buffer): Buffer =>
        Buffer.concat(
          Array.from({ length: 8 }, (_, k) => {
            const at = ((y + k) * width + x) * 3;
            return from.subarray(at, at + 24);
          }),
        );
      if (!block(a).equals(block(b)))
        worst = Math.max(worst, meanDifference(block(a), block(b), 3));
    }
  }
  return { mean: meanDifference(Uint8Array.from(one), Uint8Array.from(other), 3), worst };
}

// 600 px on 12 mm are 1270 dpi, on 8 mm 1905.
const small = (href: string, more = ''): string =>
  `<image x="5.13" y="5.21" width="12" height="9" ${more} xlink:href="${href}"/>`;

describe.runIf(rsvg)('printed at 600 dpi it shows the same (rsvg-convert)', () => {
  test.each([
    ['clipped', () => svg(`${clip}<g clip-path="url(#c)">${image(uri(png))}</g>`)],
    ['finer than the print', () => svg(small(uri(png)))],
    ['finer, a JPEG', () => svg(small(uri(jpeg, 'jpeg')))],
    ['clipped, a JPEG', () => svg(`${clip}<g clip-path="url(#c)">${small(uri(jpeg, 'jpeg'))}</g>`)],
    ['turned', () => svg(small(uri(png), 'transform="rotate(20 10 10) scale(.16)"'))],
    [
      'mirrored and stretched',
      () => svg(small(uri(png), 'preserveAspectRatio="none" transform="matrix(-1 0 0 .7 30 3)"')),
    ],
    ['a quarter turned', () => svg(small(uri(png), 'transform="matrix(0 1 -1 0 25 2)"'))],
    [
      'cut off by its shape',
      () =>
        svg(
          `<image x="3.3" y="2.1" width="9" height="14" preserveAspectRatio="xMaxYMid slice" xlink:href="${uri(png)}"/>`,
        ),
    ],
    [
      'twice, off the same dots',
      () =>
        svg(
          `<g transform="scale(.4)">${small(uri(png))}${small(uri(png), 'transform="translate(17.3 9.9) scale(.9)"')}</g>`,
        ),
    ],
    [
      'used again',
      () =>
        svg(
          `<defs>${small(uri(png), 'id="a"')}</defs><use xlink:href="#a"/><use xlink:href="#a" x="20.32" y="3.683"/>`,
        ),
    ],
    [
      'in an svg inside',
      () =>
        svg(
          `<svg x="3.1" y="4.7" width="10" height="20" viewBox="0 0 20 30" preserveAspectRatio="xMinYMax slice"><image width="30" height="22" xlink:href="${uri(png)}"/></svg>`,
        ),
    ],
    ['half off the page', () => svg(small(uri(png), 'transform="translate(-9.7 -3.1)"'))],
  ])('%s', async (_, draw) => {
    const folder = drawingFolder(draw());
    const made = await slim(folder);
    expect(made.bytesAfter).toBeLessThan(made.bytesBefore);
    const [before, after] = [await render(folder, 'front.svg'), await render(folder, 'small.svg')];
    expect(after.width).toBe(before.width);
    const { mean, worst } = compare(before.data, after.data, before.width);
    expect(mean).toBeLessThanOrEqual(0.5);
    // Outlines too: where one moves or fades, its 8 x 8 pixels differ by ten and more.
    expect(worst).toBeLessThan(2.5);
  });
});

test.skipIf(rsvg)('rsvg-convert is not installed: nothing was compared as it prints', () => {
  expect(rsvg).toBe(false);
});

test('a picture is brought to the dots of the print, and no finer', async () => {
  const made = await slim(drawingFolder(svg(small(uri(png)))));
  const { width, height } = await sharp(picturesIn(made.text)[0]).metadata();
  // 12 x 9 mm at 600 dpi: 283.5 x 212.6 dots, touched in part at both ends.
  expect([width, height]).toEqual([284, 213]);
  expect(made.text).toContain('clip-path="url(#gaugerod-frame-1)"');
  expect(made.images[0]?.what).toContain('to 284 x 213 px at 600 dpi');
});

test('a JPEG stays one with full colour, and says nothing of where it was taken', async () => {
  // Tag 0x8825 of EXIF leads to the position (CIPA DC-008, 4.6.3).
  const located = withSegments(jpeg, [exifSegment(exifBlock([[0x8825, 8]]))]);
  const folder = drawingFolder(
    svg(`${clip}<g clip-path="url(#c)">${small(uri(located, 'jpeg'))}</g>`),
  );
  const made = await slim(folder);
  const { format, chromaSubsampling, exif } = await sharp(picturesIn(made.text)[0]).metadata();
  expect([format, chromaSubsampling, exif]).toEqual(['jpeg', '4:4:4', undefined]);
  const kept = await slim(drawingFolder(svg(image(uri(located, 'jpeg')))));
  expect(kept.codes).toContain('position-kept');
  expect(picturesIn(kept.text)[0]?.equals(located)).toBe(true);
});

test('a PNG keeps what is transparent', async () => {
  const clear = await sharp(png).ensureAlpha(0.4).png().toBuffer();
  const made = await slim(drawingFolder(svg(small(uri(clear)))));
  const { data, info } = await sharp(picturesIn(made.text)[0])
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect([info.channels, data[3]]).toEqual([4, 102]);
});

test('blanks, line breaks and upper case in a picture are legal', async () => {
  const broken = png.toString('base64').replace(/(.{76})/g, '$1\n');
  const text = svg(small(`DATA:IMAGE/PNG;BASE64,${broken}`) + small(uri(png)));
  const made = await slim(drawingFolder(text));
  expect(picturesIn(made.text)).toHaveLength(1);
});

test('where nothing can be saved the drawing is written as it was, byte for byte', async () => {
  const text = Buffer.concat([Buffer.from('\ufeff'), Buffer.from(svg('<title>Café</title>\r\n'))]);
  const folder = drawingFolder(text);
  await slim(folder);
  expect(readFileSync(join(folder, 'small.svg')).equals(text)).toBe(true);
});

test('a drawing that was made smaller is not made smaller again', async () => {
  const folder = drawingFolder(svg(small(uri(png)) + small(uri(png))));
  const first = await slim(folder);
  const second = await slim(folder, { output: join(folder, 'smaller.svg') }, 'small.svg');
  expect(second.text).toBe(first.text);
});

describe('links', () => {
  const linked = (href: string): string =>
    svg(`<image id="w" width="12" height="9" xlink:href="${href}"/>`);

  test('to what lies beside the drawing stay, and follow it elsewhere', async () => {
    const folder = drawingFolder(linked('pictures/wall%201.png'));
    mkdirSync(join(folder, 'pictures'));
    mkdirSync(join(folder, 'out'));
    writeFileSync(join(folder, 'pictures', 'wall 1.png'), png);
    expect((await slim(folder)).text).toBe(linked('pictures/wall%201.png'));
    const moved = await slim(folder, { output: join(folder, 'out', 'small.svg') });
    expect(moved.text).toBe(linked('../pictures/wall%201.png'));
  });

  test.each([
    '/gone/away/wall.png',
    'C:\\Users\\me\\wall.png',
    'file:///gone/wall.png',
    'gone/wall.png',
  ])('%s is mended where a file of that name lies beside the drawing', async (href) => {
    const folder = drawingFolder(linked(href));
    writeFileSync(join(folder, 'wall.png'), png);
    const made = await slim(folder);
    expect(made.text).toBe(linked('wall.png'));
    expect(made.codes).toContain('relinked');
  });

  test('a missing picture is looked for where it was said, by name and then without extension', async () => {
    const folder = drawingFolder(linked('gone/wall.png'));
    const found = tempFolder();
    mkdirSync(join(found, 'a'));
    const missing = await slim(folder, { find: found });
    expect(missing.missing).toEqual([
      { id: 'w', href: 'gone/wall.png', why: 'does not exist', likely: [] },
    ]);
    writeFileSync(join(found, 'a', 'Wall.jpg'), jpeg);
    expect((await slim(folder, { find: found })).text).toMatch(/href="[^"]*a\/Wall\.jpg"/);
    writeFileSync(join(found, 'wall.webp'), png);
    const two = await slim(folder, { find: found });
    expect(two.missing[0]?.likely.map((path) => path.slice(-8))).toEqual(['Wall.jpg', 'all.webp']);
  });

  test.each([
    ['http://127.0.0.1:9/wall.png', 'nothing is fetched'],
    ['//127.0.0.1:9/wall.png', 'nothing is fetched'],
    ['javascript:alert(1)', 'nothing is fetched'],
    ['../secret.png', 'outside'],
    ['%2e%2e/secret.png', 'outside'],
    ['link.png', 'outside'],
    ['file://somehost/wall.png', 'another machine'],
    ['wall%00.png', 'NUL'],
    ['', 'names nothing'],
    ['#w', 'the drawing itself'],
  ])('%j is not read', async (href, why) => {
    const around = tempFolder();
    const folder = join(around, 'drawing');
    mkdirSync(folder);
    writeFileSync(join(around, 'secret.png'), png);
    symlinkSync(join(around, 'secret.png'), join(folder, 'link.png'));
    writeFileSync(join(folder, 'front.svg'), linked(href));
    const made = await slim(folder, { embed: true });
    expect(made.text).toBe(linked(href));
    expect(made.missing[0]?.why).toContain(why);
  });

  test('--embed puts linked pictures into the drawing, --link all of them beside it', async () => {
    const folder = drawingFolder(linked('wall.png'));
    writeFileSync(join(folder, 'wall.png'), png);
    const embedded = await slim(folder, { embed: true, dpi: dpi(2400) });
    expect(picturesIn(embedded.text)[0]?.equals(png)).toBe(true);
    const beside = join(folder, 'beside');
    const output = join(folder, 'linked.svg');
    const made = await slim(folder, { output, link: beside, dpi: dpi(2400) }, 'small.svg');
    const [name = ''] = readdirSync(beside);
    expect(made.text).toBe(linked(`beside/${name}`));
    expect(readFileSync(join(beside, name)).equals(png)).toBe(true);
    // Again: the same file serves.
    await slim(folder, { output, link: beside, dpi: dpi(2400) }, 'small.svg');
    expect(readdirSync(beside)).toEqual([name]);
  });

  test('where the drawing cannot be written no picture is left beside it', async () => {
    const folder = drawingFolder(svg(small(uri(png))));
    const output = join(folder, 'small.svg');
    const controller = new AbortController();
    const run = slimDrawing(join(folder, 'front.svg'), {
      output,
      link: join(folder, 'beside'),
      signal: controller.signal,
      onProgress: (step) => {
        // Whatever stands there once the pictures are made: a folder is no file.
        if (step === 'writing') mkdirSync(output);
      },
    });
    await expect(run).rejects.toThrow('is a folder');
    expect(readdirSync(folder).sort()).toEqual(['front.svg', 'small.svg']);
  });
});

test('a report says what would be done and writes nothing', async () => {
  const folder = drawingFolder(svg(small(uri(png)) + small(uri(png))));
  const told = await slimDrawing(join(folder, 'front.svg'), { report: true });
  const made = await slim(folder);
  expect(told.ok && told.value).toMatchObject({ output: null, bytesAfter: made.bytesAfter });
  expect(readdirSync(folder).sort()).toEqual(['front.svg', 'small.svg']);
});

test('without an output, or with two ways at once, nothing begins', async () => {
  const folder = drawingFolder(svg(''));
  const path = join(folder, 'front.svg');
  await expect(slimDrawing(path, {})).rejects.toThrow(RangeError);
  const output = join(folder, 'small.svg');
  await expect(slimDrawing(path, { output, link: 'a', embed: true })).rejects.toThrow(RangeError);
  await expect(slimDrawing(path, { output: path })).rejects.toThrow('never written over');
  await expect(slimDrawing(path, { output, find: join(folder, 'no') })).rejects.toThrow('exist');
});

test.each([
  ['a photo', () => png, 'not-a-drawing'],
  ['text', () => 'hello', 'bad-drawing'],
  ['nothing', () => '', 'bad-drawing'],
  ['a page of the web', () => '<!doctype html><html><body></html>', 'bad-drawing'],
])('%s is refused as a drawing', async (_, bytes, code) => {
  const folder = drawingFolder(bytes());
  await expect(slim(folder)).rejects.toThrow(expect.objectContaining({ code }));
  expect(readdirSync(folder)).toEqual(['front.svg']);
});

test.each([
  ['no base64', 'data:image/png;base64,@@@@'],
  [
    'a bomb',
    uri(
      Buffer.from(
        '89504e470d0a1a0a0000000d49484452000186a0000186a008020000000000000000000000',
        'hex',
      ),
    ),
  ],
  ['a drawing', 'data:image/svg+xml;base64,PHN2Zy8+'],
  ['text', 'data:text/plain,hello'],
])('an embedded picture that is %s is left as it is, and told', async (_, href) => {
  const text = svg(small(href));
  const made = await slim(drawingFolder(text));
  expect([made.text, made.codes.includes('left-as-it-is')]).toEqual([text, true]);
});
