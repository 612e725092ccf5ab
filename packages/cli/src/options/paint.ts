import type { Paint } from '@gaugerod/core';
import type { ListOption } from './option.js';
import { parsePath } from './parse-path.js';

/** What is covered with what. */
export const paint: ListOption<Paint> & { readonly required: true } = {
  flag: '--paint <key=photo>',
  help: 'which outlines are covered with which photo: their fill colour (#b5432e), the #id of one or of a group, or a .class; give it again for more',
  many: true,
  required: true,
  parse: (text, reading) => {
    const { name, core } = reading;
    const at = text.indexOf('=');
    if (at < 1) throw core.outOfRange('a key and a photo such as "#b5432e=wall.jpg"', name, text);
    const key = core.parsePaintKey(text.slice(0, at), name);
    return { key, surface: parsePath(text.slice(at + 1), reading) };
  },
};
