// The GPS directory's tag (CIPA DC-008, 4.6.3) in the first directory of a TIFF.
const gpsTag = 0x8825;

function inExif(block: Buffer): boolean {
  const at = block.toString('latin1', 0, 6) === 'Exif\0\0' ? 6 : 0;
  const tiff = block.subarray(at);
  if (tiff.length < 10) return false;
  const little = tiff.toString('latin1', 0, 2) === 'II';
  const short = (place: number): number =>
    little ? tiff.readUInt16LE(place) : tiff.readUInt16BE(place);
  const start = little ? tiff.readUInt32LE(4) : tiff.readUInt32BE(4);
  if (start + 2 > tiff.length) return false;
  const count = short(start);
  for (let i = 0; i < count; i++) {
    const place = start + 2 + i * 12;
    if (place + 12 > tiff.length) return false;
    if (short(place) === gpsTag) return true;
  }
  return false;
}

/**
 * Whether a picture says where it was taken.
 *
 * @param bytes - The file.
 * @param exif - Its EXIF block, or undefined.
 * @returns Yes where EXIF or XMP does.
 */
export function holdsPosition(bytes: Buffer, exif: Buffer | undefined): boolean {
  if (exif !== undefined && inExif(exif)) return true;
  return bytes.subarray(0, 1_000_000).includes('exif:GPSLatitude');
}
