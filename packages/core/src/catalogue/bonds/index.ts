import type { Bond } from './bond.js';
import { english } from './english.js';
import { englishCross } from './english-cross.js';
import { englishGardenWall3 } from './english-garden-wall-3.js';
import { englishGardenWall5 } from './english-garden-wall-5.js';
import { flemish } from './flemish.js';
import { flemishGardenWall } from './flemish-garden-wall.js';
import { header } from './header.js';
import { stack } from './stack.js';
import { stretcher } from './stretcher.js';
import { thirdLap } from './third-lap.js';
import { thirdLapAlternating } from './third-lap-alternating.js';

/** Every bond, plainest first. */
export const bonds: readonly Bond[] = [
  stack,
  stretcher,
  thirdLap,
  thirdLapAlternating,
  header,
  english,
  englishCross,
  flemish,
  englishGardenWall3,
  englishGardenWall5,
  flemishGardenWall,
];
