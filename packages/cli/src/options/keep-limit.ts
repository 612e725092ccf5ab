import type { TextOption } from './option.js';

const units = new Map([
  ['kb', 1e3],
  ['mb', 1e6],
  ['gb', 1e9],
]);

/** How much may be kept for later builds. */
export const keepLimit: TextOption<number> = {
  flag: '--keep-limit <size>',
  help: 'how much may be kept beside the job to build it more quickly the next time: 500MB (default: 2GB)',
  parse: (text, { name, core }) => {
    const [, digits = '', unit = ''] = /^(\d{1,6}(?:\.\d{1,3})?) ?(kb|mb|gb)$/i.exec(text) ?? [];
    const factor = units.get(unit.toLowerCase());
    if (factor === undefined) throw core.outOfRange('a size such as 500MB or 2GB', name, text);
    return Math.round(Number(digits) * factor);
  },
};
