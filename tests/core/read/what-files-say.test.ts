import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Photo, readPhoto } from '@gaugerod/core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import {
  corners,
  exifBlock,
  exifSegment,
  jfifSegment,
  physChunk,
  pngFile,
  withSegments,
} from '../../support/picture-files.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-says-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

let files = 0;
async function read(bytes: Uint8Array): Promise<Photo> {
  const path = join(folder, `wall-${files++}`);
  writeFileSync(path, bytes);
  return readPhoto(path);
}

async function dpiOfJpeg(...segments: readonly Buffer[]): Promise<Photo['dpi']> {
  return (await read(withSegments(await corners().jpeg().toBuffer(), segments))).dpi;
}

test('a JPEG says its dots per inch in JFIF, for each axis', async () => {
  expect(await dpiOfJpeg(jfifSegment(300, 150, 1))).toEqual({ x: 300, y: 150 });
  // 236 per centimetre: 236 * 2.54 = 599.44.
  expect((await dpiOfJpeg(jfifSegment(236, 236, 2)))?.x).toBeCloseTo(599.44, 6);
});

test.each([
  ['an aspect only', jfifSegment(3, 1, 0)],
  ['zero', jfifSegment(0, 0, 1)],
  ['65535', jfifSegment(65_535, 65_535, 1)],
  ['1', jfifSegment(1, 1, 1)],
  ['a unit that does not exist', jfifSegment(300, 300, 9)],
])('%s is no density', async (_, segment) => {
  expect(await dpiOfJpeg(segment)).toBeNull();
});

// Tags 282, 283, 296 of TIFF 6.0: XResolution, YResolution, ResolutionUnit (2 inch, 3 centimetre).
const resolution = (x: number, y: number, unit: number): Buffer =>
  exifBlock([
    [282, [x, 1]],
    [283, [y, 1]],
    [296, unit],
  ]);

test('EXIF says it where JFIF does not', async () => {
  expect(await dpiOfJpeg(exifSegment(resolution(240, 240, 2)))).toEqual({ x: 240, y: 240 });
  const both = [jfifSegment(1, 1, 0), exifSegment(resolution(100, 100, 3))];
  expect(await dpiOfJpeg(...both)).toEqual({ x: 254, y: 254 });
});

test('dots per inch turn with the picture', async () => {
  const exif = exifBlock([
    [274, 6],
    [282, [300, 1]],
    [283, [150, 1]],
    [296, 2],
  ]);
  expect(await dpiOfJpeg(exifSegment(exif))).toEqual({ x: 150, y: 300 });
});

test('a PNG says it in pixels to the metre', async () => {
  const photo = await read(
    pngFile({ width: 4, height: 4, chunks: [physChunk(23_622, 11_811, 1)] }),
  );
  // 23622 * 0.0254 and 11811 * 0.0254.
  expect(photo.dpi?.x).toBeCloseTo(599.9988, 6);
  expect(photo.dpi?.y).toBeCloseTo(299.9994, 6);
});

test.each([
  ['of unknown unit', physChunk(2, 1, 0)],
  ['of zero one way', physChunk(11_811, 0, 1)],
  ['past all reason', physChunk(2 ** 31 - 1, 2 ** 31 - 1, 1)],
])('a pHYs %s is no density', async (_, chunk) => {
  expect((await read(pngFile({ width: 4, height: 4, chunks: [chunk] }))).dpi).toBeNull();
});

test('a TIFF says it for each axis', async () => {
  // The encoder takes pixels to the millimetre: 10 and 5 are 254 and 127 to the inch.
  const photo = await read(await corners().tiff({ xres: 10, yres: 5 }).toBuffer());
  expect(photo.dpi?.x).toBeCloseTo(254, 3);
  expect(photo.dpi?.y).toBeCloseTo(127, 3);
});

test('a file that says nothing has no dots per inch', async () => {
  expect((await read(pngFile({ width: 4, height: 4 }))).dpi).toBeNull();
});

test('focal length is kept; place and owner never leave the file', async () => {
  const file = await corners()
    .jpeg()
    .withExif({
      IFD0: { Artist: 'nobody-in-particular', XResolution: '300/1', YResolution: '300/1' },
      IFD2: { FocalLength: '50/1', FocalLengthIn35mmFilm: '75', BodySerialNumber: 'serial-4711' },
      IFD3: { GPSLatitude: '51/1 30/1 0/1', GPSLatitudeRef: 'N' },
    })
    .toBuffer();
  const { raster, ...rest } = await read(file);
  expect(raster.width).toBe(24);
  expect(rest.exif).toMatchObject({ focalLengthMm: 50, focalLength35mm: 75, digitalZoom: 1 });
  expect(JSON.stringify(rest)).not.toMatch(/nobody|4711|latitude/i);
});

test('zoom and the sensor are kept, for an estimate from the distance', async () => {
  const file = await corners()
    .jpeg()
    .withExif({
      IFD2: {
        FocalLength: '50/1',
        DigitalZoomRatio: '3/2',
        FocalPlaneXResolution: '2540/1',
        FocalPlaneResolutionUnit: '2',
      },
    })
    .toBuffer();
  // 2540 to the inch are 100 to the millimetre.
  expect((await read(file)).exif).toEqual({
    focalLengthMm: 50,
    focalLength35mm: null,
    digitalZoom: 1.5,
    sensorPxPerMm: 100,
    stored: { width: 24, height: 16 },
  });
});

test.each([
  ['no bytes', Buffer.alloc(0)],
  ['four bytes', Buffer.from('II*\0', 'latin1')],
  ['a directory past the end', Buffer.from('II*\0\xff\xff\0\0', 'latin1')],
  [
    'a byte order of its own',
    Buffer.concat([Buffer.from('XX'), resolution(300, 300, 2).subarray(2)]),
  ],
  [
    'a resolution of 0 / 0',
    exifBlock([
      [282, [0, 0]],
      [283, [0, 0]],
    ]),
  ],
])('EXIF of %s never costs the picture', async (_, block) => {
  const photo = await read(withSegments(await corners().jpeg().toBuffer(), [exifSegment(block)]));
  expect(photo).toMatchObject({ width: 24, height: 16, dpi: null, exif: null });
});

test('a harmless oddity costs a warning, not the picture', async () => {
  // TIFF 6.0, section 2: after its fields a directory names the next one; this one names itself.
  const tiff = await corners().tiff({ compression: 'none' }).toBuffer();
  const directory = tiff.readUInt32LE(4);
  tiff.writeUInt32LE(directory, directory + 2 + tiff.readUInt16LE(directory) * 12);
  const photo = await read(tiff);
  expect([photo.width, photo.height]).toEqual([24, 16]);
  const [warning] = photo.warnings;
  expect(warning?.code).toBe('damaged-metadata');
  expect(warning?.message).toMatch(/wall-\d+ bends the rules of its format, but is whole/);
});
