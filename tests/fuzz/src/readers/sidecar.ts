import { toSidecarJson } from '@gaugerod/core';
import { BadField } from '../../../../packages/core/dist/surface/fields.js';
import {
  NewerSidecar,
  parseSidecar,
} from '../../../../packages/core/dist/surface/parse-sidecar.js';
import { measuredWall, measureDrawn } from '../measured-wall.js';
import { allFinite, promise, type Reader } from '../reader.js';

const keys = [
  ...[
    'schema',
    'photo',
    'file',
    'sha256',
    'width',
    'height',
    'mmPerPx',
    'uncertaintyPercent',
    'confidence',
  ],
  ...[
    'method',
    'reference',
    'sizeMm',
    'rectification',
    'matrix',
    'lattice',
    'coursePeriodPx',
    'tile',
    'x',
    'y',
  ],
  ...['licence', 'credit'],
];

/** A measurement kept beside its photo. */
export const sidecar: Reader = {
  name: 'sidecar',
  tried: 500,
  refusals: [BadField, NewerSidecar],
  words: [
    ...[
      'null',
      'true',
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"',
      '\\u0000',
      '__proto__',
      'constructor',
      'gaugerod.surface/2',
    ],
    ...keys.map((key) => `"${key}":`),
    ...['"finished":true,', '"plain":true,'],
  ],
  seeds: async () => {
    const walls = await Promise.all([measuredWall(), measureDrawn({ tiltX: 6, width: 400 })]);
    return walls.map((wall) => wall.sidecar);
  },
  read: (bytes) => {
    const read = parseSidecar(bytes.toString());
    allFinite(read);
    // What was read is written, and read again as the same.
    const again = parseSidecar(toSidecarJson(read));
    promise(JSON.stringify(again) === JSON.stringify(read), 'what is written is what was read');
  },
};
