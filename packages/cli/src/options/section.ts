import type { SectionReference } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** What rolled section the spans lie across. */
export const section: TextOption<SectionReference> = {
  flag: '--section <name>',
  help: 'the rolled section whose depth, over the flanges, --span goes across (UB 203x133x25)',
  hint: 'gaugerod reference section lists the rolled sections',
  parse: (text, { name, core }) => core.findSection(text, name),
};
