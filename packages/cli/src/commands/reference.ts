import type { CatalogueEntry } from '@gaugerod/core';
import { inDigits } from '../print/in-digits.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod reference`. */
export const reference: Command = defineCommand({
  argumentHelp: 'part of a name (uk, slate, N, english); everything where left out',
  description:
    'Look up what the other commands know by name: scales, brick formats, bonds, roofing, timber and rolled sections, each with its size in mm and where that comes from.',
  examples: [
    { line: 'reference uk-metric', does: 'One brick format:' },
    { line: 'reference slate', does: 'Whatever has slate in its name:' },
    { line: 'reference scale', does: 'All scales:' },
  ],
  options: {},
  run: (words, _values, { core }) => Promise.resolve(core.searchReference(words)),
  describe: ({ entries }) =>
    entries.flatMap((entry, index) =>
      entry.kind === entries[index - 1]?.kind
        ? entryLines(entry)
        : [...(index === 0 ? [] : ['']), entry.kind, ...entryLines(entry)],
    ),
});

function entryLines({ id, name, sizesMm, ratio, source }: CatalogueEntry): string[] {
  const sizes = Object.entries(sizesMm).map(([word, mm]) => `${word} ${inDigits(mm, 5)}`);
  const what = [ratio === null ? name : `1:${inDigits(ratio, 6)}, ${name}`, ...sizes].join(', ');
  return [`  ${id}: ${what}`, `      source: ${source}`];
}
