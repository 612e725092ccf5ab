import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Photo, readPhoto } from '@gaugerod/core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import {
  corners,
  exifBlock,
  exifSegment,
  pngChunk,
  pngFile,
  withSegments,
} from '../../support/picture-files.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-read-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

let files = 0;
async function read(bytes: Uint8Array, name = 'wall'): Promise<Photo> {
  const path = join(folder, `${files++}-${name}`);
  writeFileSync(path, bytes);
  return readPhoto(path);
}

const light = ({ raster }: Photo, x: number, y: number): number[] =>
  raster.planes.map((plane) => plane[y * raster.width + x] ?? Number.NaN);

const codes = ({ warnings }: Photo): string[] => warnings.map(({ code }) => code);

// Which corner is red, and which is green: by the channel that outshines the others.
function findCorners(photo: Photo): readonly [red: string, green: string] {
  const at = { left: 4, right: photo.width - 5, top: 4, bottom: photo.height - 5 };
  const found = ['red', 'green'].map((_, channel) =>
    (['top left', 'top right', 'bottom right', 'bottom left'] as const).find((name) => {
      const [row, column] = name.split(' ') as ['top' | 'bottom', 'left' | 'right'];
      const sample = light(photo, at[column], at[row]);
      return sample.every((value, i) => (i === channel ? value > 0.7 : value < 0.15));
    }),
  );
  return [found[0] ?? 'none', found[1] ?? 'none'];
}

// CIPA DC-008 (Exif 2.32), tag 274: "the 0th row is the visual … side, the 0th column the visual …
// side". Red is stored where both meet; green at the other end of the 0th row.
const upright: readonly (readonly [orientation: number, red: string, green: string])[] = [
  [1, 'top left', 'top right'],
  [2, 'top right', 'top left'],
  [3, 'bottom right', 'bottom left'],
  [4, 'bottom left', 'bottom right'],
  [5, 'top left', 'bottom left'],
  [6, 'top right', 'bottom right'],
  [7, 'bottom right', 'top right'],
  [8, 'bottom left', 'top left'],
];

const orientedFiles = new Map<string, (orientation: number) => Promise<Buffer>>([
  [
    'JPEG',
    async (orientation) =>
      withSegments(await corners().jpeg({ chromaSubsampling: '4:4:4', quality: 100 }).toBuffer(), [
        exifSegment(exifBlock([[274, orientation]])),
      ]),
  ],
  [
    'PNG',
    async (orientation) => {
      const png = await corners().png().toBuffer();
      const exif = pngChunk('eXIf', exifBlock([[274, orientation]]));
      return Buffer.concat([png.subarray(0, 33), exif, png.subarray(33)]);
    },
  ],
  [
    'WebP',
    (orientation) => corners().webp({ lossless: true }).withMetadata({ orientation }).toBuffer(),
  ],
  [
    'TIFF',
    (orientation) =>
      corners().tiff({ compression: 'deflate' }).withMetadata({ orientation }).toBuffer(),
  ],
]);

test.each(
  [...orientedFiles].flatMap(([name, make]) => upright.map((row) => [name, ...row, make] as const)),
)('a %s stored in orientation %i is read upright', async (_, orientation, red, green, make) => {
  const photo = await read(await make(orientation));
  expect(findCorners(photo)).toEqual([red, green]);
  expect(photo.orientation).toBe(orientation);
  expect([photo.width, photo.height]).toEqual(orientation >= 5 ? [16, 24] : [24, 16]);
  expect([photo.raster.width, photo.raster.height]).toEqual([photo.width, photo.height]);
});

test.each([0, 9, 65_535])(
  'orientation %i does not exist and means upright',
  async (orientation) => {
    const jpeg = await corners().jpeg().toBuffer();
    const photo = await read(withSegments(jpeg, [exifSegment(exifBlock([[274, orientation]]))]));
    expect(photo).toMatchObject({ orientation: 1, width: 24, height: 16 });
  },
);

test.each([
  ['jpeg', () => corners().jpeg({ chromaSubsampling: '4:4:4', quality: 100 })],
  ['png', () => corners().png()],
  ['webp', () => corners().webp({ lossless: true })],
  ['tiff', () => corners().tiff({ compression: 'deflate' })],
  ['avif', () => corners().avif({ lossless: true, chromaSubsampling: '4:4:4' })],
  ['gif', () => corners().gif()],
] as const)('%s is read, whatever its name', async (format, make) => {
  const photo = await read(await make().toBuffer(), 'wall.txt');
  expect(photo.format).toBe(format);
  expect(findCorners(photo)).toEqual(['top left', 'top right']);
  expect(photo.warnings).toEqual([]);
  // IEC 61966-2-1: byte 128 is 0.21586 of white; lossy kinds may be a level off, which is 0.0034.
  for (const value of light(photo, 12, 12)) expect(value).toBeCloseTo(0.21586, 2);
});

test('hash and size are of the bytes that were read', async () => {
  const bytes = await corners().png().toBuffer();
  const photo = await read(bytes);
  expect(photo.sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
  expect(photo.bytes).toBe(bytes.length);
  expect(readFileSync(photo.path).equals(bytes)).toBe(true);
});

test('every byte is read as its light in sRGB', async () => {
  const pixels = Uint8Array.from({ length: 768 }, (_, i) => Math.floor(i / 3));
  const photo = await read(pngFile({ width: 256, height: 1, pixels }));
  // IEC 61966-2-1:1999.
  expect(light(photo, 10, 0)[0]).toBeCloseTo(0.00303527, 7);
  expect(light(photo, 11, 0)[1]).toBeCloseTo(0.00334654, 7);
  expect(light(photo, 128, 0)[2]).toBeCloseTo(0.2158605, 7);
  expect(light(photo, 255, 0)).toEqual([1, 1, 1]);
});

test('16 bits stay 16 bits', async () => {
  const pixels = Buffer.alloc(12);
  [32_896, 32_897, 32_898, 128, 0, 65_535].forEach((word, i) => pixels.writeUInt16BE(word, i * 2));
  const photo = await read(pngFile({ width: 2, height: 1, depth: 16, pixels }));
  const [red = 0, green = 0, blue = 0] = light(photo, 0, 0);
  // 32896 = 128 * 257, the light of byte 128; one step of 65535 there is
  // 2.4 / 1.055 * ((0.50196 + 0.055) / 1.055) ^ 1.4 / 65535 = 1.42e-5.
  expect(red).toBeCloseTo(0.2158605, 6);
  expect(green - red).toBeCloseTo(1.42e-5, 6);
  expect(blue - green).toBeCloseTo(1.42e-5, 6);
  // On the straight line: 128 / 65535 / 12.92.
  expect(light(photo, 1, 0)[0]).toBeCloseTo(0.000151174, 8);
});

test('16-bit grey is read too', async () => {
  const pixels = Buffer.from([0x80, 0x80, 0x80, 0x81]);
  const photo = await read(pngFile({ width: 2, height: 1, depth: 16, colour: 0, pixels }));
  const [left = 0, right = 0] = [light(photo, 0, 0)[0], light(photo, 1, 0)[2]];
  expect(left).toBeCloseTo(0.2158605, 6);
  expect(right - left).toBeCloseTo(1.42e-5, 6);
});

test.each([1, 2, 4])('grey of %i bits is read', async (depth) => {
  const pixels = Uint8Array.of(0xff << (8 - depth));
  const photo = await read(pngFile({ width: 2, height: 1, depth, colour: 0, pixels }));
  expect([light(photo, 0, 0), light(photo, 1, 0)]).toEqual([
    [1, 1, 1],
    [0, 0, 0],
  ]);
});

test('a palette is read', async () => {
  const chunks = [pngChunk('PLTE', Uint8Array.of(255, 0, 0, 0, 255, 0))];
  const pixels = Uint8Array.of(0, 1);
  const photo = await read(pngFile({ width: 2, height: 1, colour: 3, chunks, pixels }));
  expect([light(photo, 0, 0), light(photo, 1, 0)]).toEqual([
    [1, 0, 0],
    [0, 1, 0],
  ]);
});

test('transparency is laid on white paper in linear light, and said', async () => {
  // Half of black over white is half of the light, not of the byte: 1 - 128 / 255.
  const pixels = Uint8Array.of(0, 0, 0, 128, 255, 0, 0, 255, 9, 9, 9, 0, 0, 255, 0, 255);
  const photo = await read(pngFile({ width: 4, height: 1, colour: 6, pixels }));
  expect(light(photo, 0, 0)[0]).toBeCloseTo(127 / 255, 6);
  expect(light(photo, 1, 0)).toEqual([1, 0, 0]);
  expect(light(photo, 2, 0)).toEqual([1, 1, 1]);
  expect(photo.warnings).toEqual([
    {
      code: 'transparency',
      message: `50 % of ${photo.path} lets through what is behind it: laid on white`,
    },
  ]);
});

test('alpha that hides nothing is not spoken of', async () => {
  const pixels = Uint8Array.of(1, 2, 3, 255);
  expect((await read(pngFile({ width: 1, height: 1, colour: 6, pixels }))).warnings).toEqual([]);
});

test('CMYK is converted, with a warning', async () => {
  const photo = await read(await corners().toColourspace('cmyk').jpeg().toBuffer());
  expect(codes(photo)).toEqual(['approximate-colour']);
  const [red = 0, green = 0] = light(photo, 4, 4);
  expect(red).toBeGreaterThan(green * 4);
});

test('a wide-gamut profile is converted to sRGB, with a warning', async () => {
  const grey = { width: 8, height: 8, channels: 3, background: '#c86464' } as const;
  const wide = await sharp({ create: grey }).withIccProfile('p3').png().toBuffer();
  const photo = await read(wide);
  expect(codes(photo)).toEqual(['wide-gamut']);
  // The colour that was meant, 200 and 100 of 255: 0.57758 and 0.12744 of white (IEC 61966-2-1).
  const [red = 0, green = 0, blue = 0] = light(photo, 4, 4);
  expect(red).toBeCloseTo(0.57758, 2);
  expect(green).toBeCloseTo(0.12744, 2);
  expect(blue).toBeCloseTo(0.12744, 2);
});

test('colours stated by code are not passed over in silence', async () => {
  // PNG Specification, third edition, 11.3.2.6: primaries, transfer, matrix, full range. H.273: 9 and
  // 16 are BT.2020 and PQ; 1 and 13 are sRGB.
  const stated = async (...bytes: readonly number[]): Promise<Photo> =>
    read(pngFile({ width: 4, height: 4, chunks: [pngChunk('cICP', Uint8Array.from(bytes))] }));
  expect(codes(await stated(9, 16, 0, 1))).toEqual(['approximate-colour']);
  expect(codes(await stated(1, 13, 0, 1))).toEqual([]);
});

test('an sRGB profile is not spoken of', async () => {
  expect((await read(await corners().withIccProfile('srgb').png().toBuffer())).warnings).toEqual(
    [],
  );
});

test('a broken profile costs a warning, not the picture', async () => {
  const icc = Buffer.concat([Buffer.from('ICC_PROFILE\0\x01\x01', 'latin1'), Buffer.alloc(300, 7)]);
  const segment = Buffer.concat([Buffer.from([0xff, 0xe2, 1, 60 + 2 - 4]), icc]);
  segment.writeUInt16BE(icc.length + 2, 2);
  const photo = await read(withSegments(await corners().jpeg().toBuffer(), [segment]));
  expect(codes(photo)).toEqual(['damaged-metadata']);
  expect(findCorners(photo)).toEqual(['top left', 'top right']);
});

test.each(['gif', 'webp'] as const)(
  'of an animated %s the first frame is taken',
  async (format) => {
    const frames = await Promise.all([
      corners().png().toBuffer(),
      corners().negate().png().toBuffer(),
    ]);
    const file = await sharp(frames, { join: { animated: true } })
      [format]({ lossless: true })
      .toBuffer();
    const photo = await read(file);
    expect(codes(photo)).toEqual(['several-frames']);
    expect([photo.width, photo.height]).toEqual([24, 16]);
    expect(findCorners(photo)).toEqual(['top left', 'top right']);
  },
);

test('an animated PNG gives its first picture', async () => {
  // PNG Specification, third edition, 11.3.6.1: frames, plays.
  const chunks = [pngChunk('acTL', Uint8Array.of(0, 0, 0, 2, 0, 0, 0, 0))];
  expect(codes(await read(pngFile({ width: 4, height: 4, chunks })))).toEqual(['several-frames']);
});
