import type { Warning } from '../errors/warning.js';
import type { DecodedPicture } from './decode-pixels.js';
import type { ColourCodes, PictureHeader } from './headers/header.js';
import { inspectProfile } from './inspect-profile.js';

// H.273: transfers that are near enough to sRGB's (BT.709 and its like, sRGB), or not stated.
const usualTransfers = [1, 2, 4, 5, 6, 13, 14, 15];

function isUsual({ primaries, transfer }: ColourCodes): boolean {
  return (primaries === 1 || primaries === 2) && usualTransfers.includes(transfer);
}

/**
 * Say what became of a picture's colours on their way to sRGB.
 *
 * @param path - Its name, escaped.
 * @param header - As read.
 * @param picture - As decoded.
 * @returns A warning where they are not what they were meant to be, else nothing.
 */
export function judgeColours(
  path: string,
  header: PictureHeader,
  picture: Pick<DecodedPicture, 'space' | 'profile'>,
): readonly Warning[] {
  const { space, profile } = picture;
  if (space === 'cmyk' || space === 'lab') {
    const message = `${path} is stored as ${space.toUpperCase()}: its colours are approximate`;
    return [{ code: 'approximate-colour', message }];
  }
  const { codes } = header;
  if (profile === undefined && codes !== null && !isUsual(codes)) {
    const numbers = `primaries ${codes.primaries}, transfer ${codes.transfer} of H.273`;
    const message = `${path} states other colours than sRGB (${numbers}), which are taken as sRGB`;
    return [{ code: 'approximate-colour', message }];
  }
  switch (profile === undefined ? 'usual' : inspectProfile(profile, space)) {
    case 'usual':
      return [];
    case 'broken':
      return [
        {
          code: 'damaged-metadata',
          message: `the colour profile of ${path} is broken: its colours are taken as sRGB`,
        },
      ];
    case 'wide':
      return [
        {
          code: 'wide-gamut',
          message: `${path} holds colours beyond sRGB: the strongest of them were drawn in`,
        },
      ];
  }
}
