import type { ProfileId } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** What kind of section a piece is. */
export const profile: TextOption<ProfileId> = {
  flag: '--profile <kind>',
  help: 'or its kind, and its sizes below: i, channel, angle, tee, plate, box, plate-girder; of timber beam, planks, weatherboard; sill, string-course, panel, door, frame, quoins',
  parse: (text, { name, core }) => core.parseProfile(text, name),
};
