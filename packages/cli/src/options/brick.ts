import type { Core, TextOption } from './option.js';

/** What brick the spans lie along. */
export const brick: TextOption<ReturnType<Core['findBrick']>> = {
  flag: '--brick <id>',
  help: 'the brick whose long face, without mortar, --span goes along (uk-metric)',
  hint: 'gaugerod reference brick lists the brick formats',
  parse: (text, { name, core, settings }) => core.findBrick(text, name, settings.references),
};
