import { inches } from '../units/inches.js';
import type { CourseEntry } from './course-entry.js';

const asBrickwork = 'laid to gauge within 1 % as brickwork is, common practice, no source';

/** Blockwork. Its tolerance is the brickwork's it is bonded to: 1 % of the course. */
export const blocks: readonly CourseEntry[] = [
  {
    id: 'uk-block',
    alsoCalled: ['block'],
    name: 'UK block, 440 x 215 face',
    kind: 'block',
    course: 225,
    tolerance: 2.25,
    toleranceSource: asBrickwork,
    unit: null,
    joint: 10,
    stretcher: 450,
    header: null,
    source: 'a concrete-block size guide; three brick courses of 75 mm',
  },
  {
    id: 'us-cmu',
    alsoCalled: ['cmu'],
    name: 'US concrete masonry unit, 8 x 8 x 16 in',
    kind: 'block',
    course: inches(8),
    tolerance: inches(0.08),
    toleranceSource: asBrickwork,
    unit: [inches(15.625), inches(7.625), inches(7.625)],
    joint: inches(3 / 8),
    stretcher: inches(16),
    header: null,
    source: 'ASTM C90 size tables',
  },
];
