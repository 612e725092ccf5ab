import { angle } from './angle.js';
import { beam } from './beam.js';
import { box } from './box.js';
import { channel } from './channel.js';
import { door } from './door.js';
import { frame } from './frame.js';
import { i } from './i.js';
import { panel } from './panel.js';
import { planks } from './planks.js';
import { plate } from './plate.js';
import { plateGirder } from './plate-girder.js';
import type { Profile } from './profile.js';
import { quoins } from './quoins.js';
import { sill } from './sill.js';
import { stringCourse } from './string-course.js';
import { tee } from './tee.js';
import { weatherboard } from './weatherboard.js';

/** Every kind that can be drawn: of steel, of timber, of stone and joinery; the commonest first. */
export const profiles: readonly Profile[] = [
  ...[i, channel, angle, tee, plate, box, plateGirder],
  ...[beam, planks, weatherboard],
  ...[sill, stringCourse, panel, door, frame, quoins],
];
