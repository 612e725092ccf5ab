import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildJob } from '@gaugerod/core';
import { workFolder } from '../in-folder.js';
import { drawings } from '../drawing-seeds.js';
import { measuredWall } from '../measured-wall.js';
import { promise, type Reader } from '../reader.js';
import { yamlWords } from '../yaml-words.js';

const folder = workFolder();
const path = join(folder, 'works.yaml');

const jobs = [
  `gaugerod: 1
scale: N-UK
dpi: 300
output: out
surfaces:
  engine-house: { photo: wall.png, course: uk-metric }
  slates: { photo: wall.png, mend: { axis: x } }
parts:
  gable:  { surface: engine-house, size: 40x30mm, datum: [3, 2], bleed: 1mm, weather: { soot: 0.3, damp: 0.2 } }
  side:   { surface: slates, realSize: 3x2m, corner: left=60mm }
  girder: { relief: { section: UB 533x210x92, length: 5m, layers: true }, colour: firebrick }
  front:  { drawing: front.svg, paint: { "#b5432e": engine-house, .shed: slates } }
sheets:
  walls: { paper: A4, parts: [gable, side, girder, girder], margin: 5mm }
`,
  `gaugerod: 1
scale: [N-UK, 1:76.2]
surfaces: &all
  house:
    photo: wall.png
    course: 75mm
parts:
  door: { surface: house, outline: front.svg#gable }
  small: { drawing: front.svg, slim: {}, dpi: 300 }
sheets:
  page: { parts: [door], file: page.png }
`,
];

/** A job: read, checked and planned, nothing of it made. */
export const job: Reader = {
  name: 'job',
  tried: 40,
  words: [
    ...yamlWords,
    ...[
      'surface:',
      'photo:',
      'course:',
      'parts:',
      'sheets:',
      'scale:',
      'size:',
      'relief:',
      'weather:',
      'drawing:',
      'paint:',
    ],
    ...[
      'output: ..',
      'output: /',
      'photo: /dev/zero',
      'wall.png',
      'front.svg',
      'works.yaml',
      'out',
      'N',
      '-1mm',
      '1e9mm',
      '""',
    ],
  ],
  seeds: async () => {
    const wall = await measuredWall();
    writeFileSync(join(folder, 'wall.png'), wall.photo);
    writeFileSync(join(folder, 'wall.surface.json'), wall.sidecar);
    writeFileSync(join(folder, 'front.svg'), drawings[0] ?? '');
    return jobs.map((text) => Buffer.from(text));
  },
  read: async (bytes) => {
    writeFileSync(path, bytes);
    await buildJob(path, { dryRun: true });
    const names = readdirSync(folder).sort();
    promise(
      names.join() === 'front.svg,wall.png,wall.surface.json,works.yaml',
      `nothing is made: ${names.join()}`,
    );
  },
};
