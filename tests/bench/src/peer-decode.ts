import sharp from 'sharp';

// A peer to be timed against: decode a picture whole, and nothing else.
const [photo] = process.argv.slice(2);
if (photo === undefined) throw new Error('peer-decode PHOTO');
await sharp(photo).raw().toBuffer();
