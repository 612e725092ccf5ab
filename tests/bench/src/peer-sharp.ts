import sharp from 'sharp';

// The plain way to the same page, as a peer to be timed against: decode, resize by the known
// factor, tile over a page at 600 dpi, A4 unless told, write PNG. It neither measures nor mends.
const [photo, output, factor, columns = '4961', rows = '7016'] = process.argv.slice(2);
if (photo === undefined || output === undefined || factor === undefined) {
  throw new Error('peer-sharp PHOTO OUTPUT FACTOR [COLUMNS ROWS]');
}
const { width, height } = await sharp(photo).metadata();
const tile = await sharp(photo)
  .resize(Math.round(width * Number(factor)), Math.round(height * Number(factor)), { fit: 'fill' })
  .png({ compressionLevel: 0 })
  .toBuffer();
await sharp({
  create: { width: Number(columns), height: Number(rows), channels: 3, background: '#000' },
  limitInputPixels: false,
})
  .composite([{ input: tile, tile: true, gravity: 'northwest' }])
  .withMetadata({ density: 600 })
  .png()
  .toFile(output);
