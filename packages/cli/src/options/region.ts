import type { TextOption } from './option.js';

/** Where a scale's bare name is meant. */
export const region: TextOption<string> = {
  flag: '--region <region>',
  help: 'where a name such as N or O is meant: UK, EU, US, JP',
  parse: (text) => text,
};
