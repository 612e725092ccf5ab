import { angle } from './angle.js';
import { box } from './box.js';
import { channel } from './channel.js';
import { i } from './i.js';
import { plate } from './plate.js';
import { plateGirder } from './plate-girder.js';
import type { Profile } from './profile.js';
import { tee } from './tee.js';

/** Every kind of section that can be drawn, the commonest first. */
export const profiles: readonly Profile[] = [i, channel, angle, tee, plate, box, plateGirder];
