import type { DressReliefWish } from '@gaugerod/core';
import type { ListOption } from './option.js';

/** Which outlines are in relief. */
export const dressRelief: ListOption<DressReliefWish> = {
  flag: '--relief <key=what>',
  help: 'which of them are in relief, each as long and as deep as it is drawn: a section or a profile of relief, with its sizes after commas (.girder=plate-girder,flange=40mm,leg=100mm), or panel for the edges of any outline (#door=panel,light=left); give it again for more',
  many: true,
  hint: 'gaugerod relief --help tells of profiles and sizes',
  parse: (text, { name, core }) => {
    const at = text.indexOf('=');
    if (at < 1) throw core.outOfRange('a key and what it is, such as .door=panel,', name, text);
    const key = core.parsePaintKey(text.slice(0, at), name);
    return { key, relief: core.parseDressRelief(text.slice(at + 1), name) };
  },
};
