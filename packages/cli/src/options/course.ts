import type { Core, TextOption } from './option.js';

/** What the courses in the picture are. */
export const course: TextOption<ReturnType<Core['findCourse']>> = {
  flag: '--course <id|length>',
  help: 'what the courses are: a name from the catalogue (uk-metric), or their height bed joint to bed joint (75mm)',
  hint: 'gaugerod reference brick lists the brick formats, gaugerod reference everything else',
  parse: (text, { name, core, settings }) => core.findCourse(text, name, settings.references),
};
