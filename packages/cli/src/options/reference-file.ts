import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Put a reference of one's own beside the catalogue's. */
export const add: TextOption<string> = {
  flag: '--add <id>',
  help: 'keep a brick, block, roof or board of your own under this id, which --course and --brick then take',
  parse: (text, { name, core }) => core.parseOwnId(text, name),
};

/** Take one out again. */
export const remove: TextOption<string> = {
  flag: '--remove <id>',
  help: 'take one of your own out again',
  parse: (text) => text.trim(),
};

/** Where they are kept. */
export const referenceFile: TextOption<string> = {
  flag: '--file <file>',
  help: 'the file that keeps them (.yaml), in place of the usual one',
  parse: parsePath,
};
