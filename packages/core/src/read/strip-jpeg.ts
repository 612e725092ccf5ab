// ITU-T T.81, table B.1: start of scan, first and last application segment, comment; segment 14 says
// how colours are coded and is needed.
const startOfScan = 0xda;
const firstApplication = 0xe1;
const lastApplication = 0xef;
const colourSegment = 0xee;
const comment = 0xfe;

/**
 * Leave out of a JPEG what is not needed to see it: places, serial numbers, thumbnails, comments.
 *
 * @param bytes - A whole JPEG that decodes.
 * @returns The same picture, bit for bit.
 * @see ITU-T T.81, B.1.1
 */
export function stripJpeg(bytes: Uint8Array): Uint8Array {
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    if (marker === startOfScan) break;
    // A marker may be led in by any number of these.
    if (marker === 0xff) {
      at++;
      continue;
    }
    const end = at + 2 + bytes[at + 2]! * 256 + bytes[at + 3]!;
    const application = marker >= firstApplication && marker <= lastApplication;
    const left = marker === comment || (application && marker !== colourSegment);
    if (!left) kept.push(bytes.subarray(at, end));
    at = end;
  }
  kept.push(bytes.subarray(at));
  return Buffer.concat(kept);
}
