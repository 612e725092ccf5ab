import { limitsOf, mostBytes } from '../options/limits.js';
import type { CatalogueEntry, FoundReference, KeptReference, Outcome } from '@gaugerod/core';
import { longFlag } from '../options/long-flag.js';
import type { Values } from '../options/option.js';
import { ownOf, ownReference } from '../options/own-reference.js';
import { add, referenceFile, remove } from '../options/reference-file.js';
import { inDigits } from '../print/in-digits.js';
import { UsageError } from '../print/usage-error.js';
import type { Command, Surroundings } from './command.js';
import { defineCommand } from './define-command.js';

const options = { add, ...ownReference, remove, file: referenceFile, mostBytes };

/** `gaugerod reference`. */
export const reference: Command = defineCommand({
  argumentHelp: 'part of a name (uk, slate, N, english); everything where left out',
  description:
    'Look up what the other commands know by name: scales, brick formats, bonds, roofing, timber and rolled sections, each with its size in mm and where that comes from. With --add it learns bricks, blocks, roofs and boards of your own.',
  examples: [
    { line: 'reference uk-metric', does: 'One brick format:' },
    { line: 'reference slate', does: 'Whatever has slate in its name:' },
    { line: 'reference scale', does: 'All scales:' },
    {
      line: 'reference --add dye-house --course 76mm --tolerance 1mm --source "measured by me over 20 courses"',
      does: 'A brick that no book has:',
    },
    { line: 'measure wall.jpg --course dye-house', does: 'What it is good for:' },
  ],
  options,
  run: async (words, values, surroundings): Promise<Outcome<Known, string>> => {
    const { core, settings } = surroundings;
    const { add: id, remove: gone, file } = values;
    refuseTogether(words, values);
    const limits = limitsOf(values);
    if (id !== undefined)
      return core.addReference(fileOf(values, surroundings), ownOf(id, values), limits);
    if (gone !== undefined) return core.removeReference(fileOf(values, surroundings), gone, limits);
    const own = file === undefined ? settings : await core.readReferences(file, limits);
    return core.searchReference(words, own.references);
  },
  describe: (known) => [
    ...known.entries.flatMap((entry, index) =>
      entry.kind === known.entries[index - 1]?.kind
        ? entryLines(entry)
        : [...(index === 0 ? [] : ['']), entry.kind, ...entryLines(entry)],
    ),
    ...('done' in known
      ? [known.done === 'added' ? `kept in ${known.file}` : `taken out of ${known.file}`]
      : []),
  ],
});

type Known = FoundReference | KeptReference;
type Given = Values<typeof options>;

function refuseTogether(words: string, values: Given): void {
  const { add: id, remove: gone } = values;
  if (id !== undefined && gone !== undefined) {
    throw new UsageError('expected --add or --remove, got both');
  }
  const does = id === undefined ? '--remove' : '--add';
  if (words !== '' && (id ?? gone) !== undefined) {
    throw new UsageError(`expected no word beside ${does}, got ${JSON.stringify(words)}`);
  }
  if (id !== undefined) return;
  const alone = Object.entries(ownReference).find(([name]) => Object.hasOwn(values, name));
  if (alone !== undefined) {
    throw new UsageError(`expected --add beside ${longFlag(alone[1])}, got none`);
  }
}

function fileOf({ file }: Given, { settings }: Pick<Surroundings, 'settings'>): string {
  const path = file ?? settings.referenceFile;
  if (path !== null) return path;
  throw new UsageError('expected --file, where this system or --no-config leaves no usual one');
}

function entryLines({ id, name, sizesMm, ratio, source, own }: CatalogueEntry): string[] {
  const sizes = Object.entries(sizesMm).map(([word, mm]) => `${word} ${inDigits(mm, 5)}`);
  const what = [ratio === null ? name : `1:${inDigits(ratio, 6)}, ${name}`, ...sizes].join(', ');
  return [`  ${id}${own ? ' (your own)' : ''}: ${what}`, `      source: ${source}`];
}
