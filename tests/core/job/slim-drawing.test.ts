import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, slimDrawing } from '@gaugerod/core';
import sharp from 'sharp';
import { compareColours } from '../../../packages/core/src/colour/compare-colours.js';
import { describe, expect, test } from 'vitest';
import { exifBlock, exifSegment, withSegments } from '../../support/picture-files.js';
import {
  clip,
  drawingFolder,
  image,
  jpeg,
  picturesIn,
  png,
  slim,
  small,
  svg,
  uri,
} from '../../support/slim-drawings.js';

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
  test('is cut to that part and two pixels round it, along blocks of 16', async () => {
    const text = svg(`${clip}<g clip-path="url(#c)">${image(uri(png))}</g>`);
    const made = await slim(drawingFolder(text), { dpi: dpi(2400) });
    const [picture] = picturesIn(made.text);
    const { width, height } = await sharp(picture).metadata();
    // 25 px to the millimetre: 9 x 9 mm, from 3.17 mm and 0.99 mm on, and 2 px on each side:
    // from 77.25 to 306.25 and from 22.75 to 251.75, in whole blocks.
    expect([width, height]).toEqual([320 - 64, 256 - 16]);
    const { data } = await sharp(png)
      .extract({ left: 64, top: 16, width: 256, height: 240 })
      .raw()
      .toBuffer({ resolveWithObject: true });
    // Without loss.
    expect((await sharp(picture).removeAlpha().raw().toBuffer()).equals(data)).toBe(true);
  });

  // 46 x 46 of 64 x 64 px show from 9,9 on: with two more on each side that is less than all, and the
  // blocks of 16 that hold it are all of them.
  test('is left where the blocks that show are all of it', async () => {
    const source = await sharp(png).resize(64, 64).png({ compressionLevel: 0 }).toBuffer();
    const text = svg(
      `<clipPath id="c"><rect x="9" y="9" width="46" height="46"/></clipPath><g transform="scale(.5)"><g clip-path="url(#c)"><image width="64" height="64" xlink:href="${uri(source)}"/></g></g>`,
    );
    const made = await slim(drawingFolder(text), { dpi: dpi(2400) });
    expect(made.text).toBe(text);
    expect(made.codes).toContain('not-smaller');
    expect(made.images[0]?.what).not.toContain('cut');
  });

  test.each(['4:4:4', '4:2:0'])(
    'of a JPEG in %s comes out nearly as it was, for it is cut along its blocks',
    async (chromaSubsampling) => {
      const source = await sharp(png).jpeg({ quality: 90, chromaSubsampling }).toBuffer();
      const text = svg(`${clip}<g clip-path="url(#c)">${image(uri(source, 'jpeg'))}</g>`);
      const made = await slim(drawingFolder(text), { dpi: dpi(2400) });
      const [picture] = picturesIn(made.text);
      const cut = { left: 64, top: 16, width: 256, height: 240 };
      const before = await sharp(source).extract(cut).raw().toBuffer();
      const after = await sharp(picture).raw().toBuffer();
      // Halved colour is interpolated, and halved again: what is seen by nobody is asked for there.
      const most = chromaSubsampling === '4:4:4' ? 0.05 : 0.5;
      expect(compareColours(before, after, { channels: 3 }).mean).toBeLessThan(most);
    },
  );

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

test('a picture is brought to the dots of the print, and no finer', async () => {
  // Softer than its pixels, as a photograph is: programs agree on what fewer of them show.
  const soft = await sharp(png).blur(4).ensureAlpha(0.9).png().toBuffer();
  const made = await slim(drawingFolder(svg(small(uri(soft)))));
  const { width, height } = await sharp(picturesIn(made.text)[0]).metadata();
  // 12 x 9 mm at 600 dpi: 283.5 x 212.6 dots, touched in part at both ends.
  expect([width, height]).toEqual([284, 213]);
  expect(made.text).toContain('clip-path="url(#gaugerod-frame-1)"');
  expect(made.images[0]?.what).toContain('to 284 x 213 px at 600 dpi');
});

test('copies of a photograph as PNG, twice as fine as the print or more, become one JPEG', async () => {
  // 600 px on 8 mm are 1905 dpi; turned, its pixels never lie on the dots.
  const turned = [17, -40].map((angle) =>
    small(uri(png), `transform="rotate(${angle} 10 10) scale(.667)"`),
  );
  const made = await slim(drawingFolder(svg(turned.join(''))));
  const { format } = await sharp(picturesIn(made.text)[0]).metadata();
  expect(format).toBe('jpeg');
  expect(made.text).toContain('data:image/jpeg;base64,');
  expect(made.images[0]?.what).toContain('as JPEG');
  // As asked of drawings that hold copies.
  expect(made.bytesAfter / made.bytesBefore).toBeLessThanOrEqual(0.25);
});

test('what is drawn in flat colours, and what is nearer to the print, stays without loss', async () => {
  const flat = await sharp({
    create: { width: 600, height: 450, channels: 3, background: '#b5432e' },
  })
    .composite([
      {
        input: Buffer.from(
          '<svg width="600" height="450"><circle cx="300" cy="220" r="180" fill="#23456a"/></svg>',
        ),
      },
    ])
    .png({ compressionLevel: 0 })
    .toBuffer();
  for (const text of [small(uri(flat)), `<g transform="scale(1.3)">${small(uri(png))}</g>`]) {
    const made = await slim(drawingFolder(svg(text)));
    const { format } = await sharp(picturesIn(made.text)[0]).metadata();
    expect(format).toBe('png');
  }
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

test('copies that cannot be stored once say why', async () => {
  const cut = `<image width="9" height="14" preserveAspectRatio="xMidYMid slice" xlink:href="${uri(png)}"/>`;
  const made = await slim(drawingFolder(svg(cut + cut)));
  for (const { what } of made.images) {
    expect(what).toContain('a copy of its own, because it is cut off by its own frame (slice)');
  }
});

test('a drawing too small to be compressed is so where its name says so, and that is told', async () => {
  const folder = drawingFolder('<svg xmlns="http://www.w3.org/2000/svg"/>');
  const options = { output: join(folder, 'small.svgz') };
  const outcome = await slimDrawing(join(folder, 'front.svg'), options);
  if (!outcome.ok) throw new Error('nothing refuses it');
  // RFC 1952, 2.3.1: the two bytes that a gzip file begins with.
  expect([...readFileSync(options.output).subarray(0, 2)]).toEqual([0x1f, 0x8b]);
  // It ends with eight more, and 41 bytes of no repeats are no smaller for being compressed.
  expect(outcome.value.bytesAfter).toBeGreaterThan(outcome.value.bytesBefore);
  expect(outcome.warnings.map(({ code }) => code)).toEqual(['not-smaller']);
});
