import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readSettings } from '../../../../packages/core/dist/job/settings/read-settings.js';
import { takeSettings } from '../../../../packages/core/dist/job/settings/take-settings.js';
import { workFolder } from '../in-folder.js';
import { promise, type Reader } from '../reader.js';
import { yamlWords } from '../yaml-words.js';

const seeds = [
  'region: UK\nscale: N\ndpi: 300\npaper: A4\nprinterX: 99.4\nprinterY: 100.2\n',
  '# of the dye works\nscale: 1:76.2\ndpi: 600\npaper: Letter\nmargin: 5mm\nprinting: { dotGain: 12%, inkLimit: 240% }\n',
];

const path = join(workFolder(), 'gaugerod.config.yaml');

/** What was set once. */
export const config: Reader = {
  name: 'config',
  tried: 120,
  words: [
    ...yamlWords,
    'region:',
    'scale:',
    'dpi:',
    'paper:',
    'printerX:',
    'printer:',
    'saturation:',
    'sharpen:',
  ],
  seeds: () => seeds.map((seed) => Buffer.from(seed)),
  read: async (bytes) => {
    writeFileSync(path, bytes);
    const found = {
      configs: [path],
      own: path,
      references: null,
      hasReferences: false,
      places: [path],
    };
    const settings = await readSettings(found);
    const usual = takeSettings(settings);
    promise(typeof usual === 'object', 'settings are taken');
  },
};
