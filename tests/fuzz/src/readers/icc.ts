import sharp from 'sharp';
import { inspectProfile } from '../../../../packages/core/dist/read/inspect-profile.js';
import { promise, type Reader } from '../reader.js';

const verdicts = ['usual', 'wide', 'broken'];

/** A colour profile. */
export const icc: Reader = {
  name: 'icc',
  tried: 1500,
  words: ['acsp', 'RGB ', 'CMYK', 'GRAY', 'rXYZ', 'gXYZ', 'bXYZ', 'XYZ ', 'mntr', 'curv', 'A2B0'],
  seeds: async () => {
    const create = { width: 4, height: 4, channels: 3, background: '#808080' } as const;
    return Promise.all(
      ['srgb', 'p3'].map(async (profile) => {
        const png = await sharp({ create }).withIccProfile(profile).png().toBuffer();
        return (await sharp(png).metadata()).icc ?? Buffer.alloc(0);
      }),
    );
  },
  read: (bytes) => {
    for (const space of ['srgb', 'rgb16', 'b-w', 'cmyk', 'constructor']) {
      promise(verdicts.includes(inspectProfile(bytes, space)), 'a verdict');
    }
  },
};
