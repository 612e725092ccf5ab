import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { drawStrip, readTestStrip } from '@gaugerod/core';
import { drawPrinter, encodePhoto, takePrint } from '@gaugerod/fixtures';
import { parsePrinter } from '../../../../packages/core/dist/finish/print/parse-printer.js';
import { wholeOrNothing, workFolder } from '../in-folder.js';
import { inBytes, type Reader } from '../reader.js';

const folder = workFolder();

/** A photo of a test strip, to the printer's profile. */
export const strip: Reader = {
  name: 'strip-photo',
  tried: 3,
  isSlow: true,
  words: inBytes([
    '\xff\xd9',
    '\xff\xda',
    '\xff\xdd\0\x04\0\x01',
    '\xff\xd0',
    '\0\0\0\0',
    '\xff\xff',
  ]),
  seeds: async () => {
    const taken = takePrint(drawStrip(), drawPrinter(5), { by: 'scanner', seed: 3, width: 700 });
    return [await encodePhoto(taken, { format: 'jpeg' })];
  },
  read: async (bytes) => {
    const path = join(folder, 'strip.jpg');
    writeFileSync(path, bytes);
    const work = async (out: string): Promise<boolean> =>
      (await readTestStrip(path, { output: join(out, 'printer.json') })).ok;
    await wholeOrNothing(folder, work, (file) => void parsePrinter(file.toString()));
  },
};
