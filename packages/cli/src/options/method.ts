import type { TextOption } from './option.js';

const methods = ['auto', 'blend', 'cut', 'gradient'] as const;

/** How to mend. */
export const method: TextOption<(typeof methods)[number]> = {
  flag: '--method <name>',
  help: 'how to mend: blend (fade one side into the other), cut (along the least visible line), gradient (even out what differs), or auto (default)',
  parse: (text, { name, core }) => core.parseChoice(text, name, methods),
};
