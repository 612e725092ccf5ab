import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, sheetParts } from '@gaugerod/core';
import { wholeOrNothing, workFolder } from '../in-folder.js';
import { pictureSeeds } from '../picture-seeds.js';
import { inBytes, promise, type Reader } from '../reader.js';

const folder = workFolder();
const words = inBytes([
  ...[
    'IHDR',
    'IDAT',
    'IEND',
    'PLTE',
    'tRNS',
    'pHYs',
    'iCCP',
    'eXIf',
    'acTL',
    'sRGB',
    '\x78\x9c',
    '\0\0\0\0IEND\xae\x42\x60\x82',
  ],
  ...[
    '\xff\xd8',
    '\xff\xd9',
    '\xff\xda',
    '\xff\xc0',
    '\xff\xc2',
    '\xff\xee',
    '\xff\xdd',
    '\xff\xd0',
    'Adobe\0',
    'JFIF\0',
  ],
]);

// Own bytes of a picture go on paper where they can: whoever opens the page reads them.
const onPages = (name: string, output: string, tried: number): Reader => ({
  name,
  tried,
  words,
  seeds: async () => [...(await pictureSeeds.png()), ...(await pictureSeeds.jpeg())],
  read: async (bytes) => {
    const path = join(folder, 'part.png');
    writeFileSync(path, bytes);
    const work = async (out: string): Promise<boolean> =>
      (await sheetParts([path], { output: join(out, output), dpi: dpi(100) })).ok;
    await wholeOrNothing(folder, work, (file) => {
      promise(file.length > 1000, 'a page is written whole');
    });
  },
});

/** A picture as a part on pages. */
export const partPictures: readonly Reader[] = [
  onPages('sheet-picture', 'page.pdf', 20),
  onPages('sheet-picture-dots', 'page.png', 10),
];
