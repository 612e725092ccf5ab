import sharp, { type Sharp } from 'sharp';

// Red and green corners on grey, which no turn and no crop leaves as they are.
function corners(): Sharp {
  const block = (background: string) => ({
    create: { width: 8, height: 8, channels: 3 as const, background },
  });
  const grey = { width: 24, height: 16, channels: 3 as const, background: '#808080' };
  return sharp({ create: grey }).composite([
    { input: block('#ff0000'), left: 0, top: 0 },
    { input: block('#00ff00'), left: 16, top: 0 },
  ]);
}

const drawn = await corners().png().toBuffer();
const open = (): Sharp => sharp(drawn);
const noted = (): Sharp =>
  open()
    .withMetadata({ density: 300, orientation: 6 })
    .withExifMerge({
      IFD0: { Artist: 'Tansy Wharf' },
      IFD2: { FocalLength: '35/1', FocalLengthIn35mmFilm: '52' },
      IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1' },
    });

const grown = async (picture: Sharp): Promise<Buffer> => picture.toBuffer();

/** Small pictures of one format, each stored another way. */
export const pictureSeeds = {
  png: () =>
    Promise.all([
      grown(noted().png()),
      grown(open().png({ palette: true })),
      grown(open().toColourspace('rgb16').png()),
      grown(open().greyscale().png({ progressive: true })),
      grown(open().ensureAlpha(0.5).withIccProfile('p3').png({ compressionLevel: 0 })),
    ]),
  jpeg: () =>
    Promise.all([
      grown(noted().jpeg()),
      grown(open().jpeg({ progressive: true, chromaSubsampling: '4:4:4' })),
      grown(open().greyscale().jpeg()),
      grown(open().toColourspace('cmyk').jpeg()),
      grown(open().withIccProfile('p3').jpeg({ quality: 30 })),
    ]),
  tiff: () =>
    Promise.all([
      grown(noted().tiff({ compression: 'none' })),
      grown(
        open().tiff({ compression: 'deflate', predictor: 'horizontal', xres: 23.6, yres: 23.6 }),
      ),
      grown(open().tiff({ compression: 'lzw', tile: true, tileWidth: 16, tileHeight: 16 })),
      grown(
        open().tiff({
          compression: 'jpeg',
          pyramid: true,
          tile: true,
          tileWidth: 16,
          tileHeight: 16,
        }),
      ),
      grown(open().toColourspace('rgb16').tiff({ compression: 'packbits' })),
      grown(open().tiff({ bigtiff: true, compression: 'deflate' })),
    ]),
  webp: () =>
    Promise.all([
      grown(noted().webp()),
      grown(open().webp({ lossless: true })),
      grown(open().ensureAlpha(0.5).webp()),
      grown(sharp([drawn, drawn], { join: { animated: true } }).webp()),
    ]),
  gif: () =>
    Promise.all([
      grown(open().gif()),
      grown(sharp([drawn, drawn], { join: { animated: true } }).gif()),
    ]),
  avif: () =>
    Promise.all([
      grown(open().avif({ effort: 0 })),
      grown(noted().avif({ lossless: true, effort: 0 })),
    ]),
} as const;

/**
 * Camera's notes, as they lie in files.
 *
 * @returns With and without their mark.
 */
export async function exifSeed(): Promise<readonly Buffer[]> {
  const { exif = Buffer.alloc(0) } = await sharp(await noted().jpeg().toBuffer()).metadata();
  return [exif, exif.subarray(6)];
}
