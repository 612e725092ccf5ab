import type { ListOption } from './option.js';

/** What of a job is built. */
export const only: ListOption<string> = {
  flag: '--only <name>',
  help: 'build this part or sheet alone, and what it needs; give it again for more',
  many: true,
  parse: (text, { name, core }) => {
    if (text.trim() === '') throw core.outOfRange('the name of a part or sheet', name, text);
    return text;
  },
};
