import { parseReferences } from '../../../../packages/core/dist/job/settings/read-references.js';
import { allFinite, type Reader } from '../reader.js';
import { yamlWords } from '../yaml-words.js';

const seeds = [
  `references:
  dye-house:
    kind: brick
    name: brick of the dye house
    course: 76mm
    tolerance: 1mm
    length: 228mm
    lengthTolerance: 2mm
    width: 110mm
    joint: 9mm
    source: measured by me over 20 courses
  shed-slate: { kind: roofing, course: 200mm, tolerance: 2mm, source: "counted" } # of the weaving shed
`,
];

/** References of one's own. */
export const references: Reader = {
  name: 'references',
  tried: 100,
  words: [
    ...yamlWords,
    'kind:',
    'course:',
    'length:',
    'joint:',
    'source:',
    'brick',
    'roofing',
    'references:',
  ],
  seeds: () => seeds.map((seed) => Buffer.from(seed)),
  read: (bytes) => {
    allFinite(parseReferences('references.yaml', bytes.toString()).references);
  },
};
