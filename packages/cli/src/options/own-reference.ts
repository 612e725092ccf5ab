import type { OwnKind, OwnReference } from '@gaugerod/core';
import type { Core, TextOption, Values } from './option.js';
import { UsageError } from '../print/usage-error.js';

type Length = ReturnType<Core['parseRealLength']>;

const length = (flag: string, help: string): TextOption<Length> => ({
  flag: `--${flag} <length>`,
  help,
  parse: (text, { name, core }) => core.parseRealLength(text, name),
});

const note = (flag: string, help: string): TextOption<string> => ({
  flag: `--${flag} <text>`,
  help,
  parse: (text, { name, core }) => core.parseNote(text, name),
});

const kind: TextOption<OwnKind> = {
  flag: '--kind <kind>',
  help: 'what it is: brick, block, roofing or timber (default: brick)',
  parse: (text, { name, core }) => core.parseChoice(text, name, core.ownKinds),
};

// An alias, not an interface: commands look options up by any name.
type OwnGroup = Readonly<
  Record<
    'course' | 'tolerance' | 'length' | 'lengthTolerance' | 'width' | 'joint',
    TextOption<Length>
  > &
    Record<'source' | 'name', TextOption<string>> & { kind: TextOption<OwnKind> }
>;

/** What is told of a reference of one's own. */
export const ownReference: OwnGroup = {
  course: length('course', 'bed joint to bed joint, or what shows of a board or tile (76mm)'),
  tolerance: length('tolerance', 'how far the course may be off, either way (1mm)'),
  source: note('source', 'what is published of it, or who measured it and how'),
  name: note('name', 'as you would say it (default: the id)'),
  kind,
  length: length('length', 'of its long face, without mortar (228mm)'),
  lengthTolerance: length(
    'length-tolerance',
    'how far that may be off (default: what BS EN 771-1 allows)',
  ),
  width: length('width', 'of its short face, without mortar, beside --length and --joint (110mm)'),
  joint: length('joint', 'the mortar between two (9mm)'),
};

/**
 * Put what was told of a reference of one's own together.
 *
 * @param id - Of it.
 * @param values - The options as read.
 * @returns The reference.
 * @throws UsageError where what cannot be left out was.
 */
export function ownOf(id: string, values: Values<OwnGroup>): OwnReference {
  const { course: high, tolerance: off, source: told } = values;
  if (high === undefined) throw missing('--course, its height from joint to joint,');
  if (off === undefined) throw missing('--tolerance, how far the course may be off,');
  if (told === undefined) throw missing('--source, where its sizes are from,');
  return {
    id,
    name: values.name ?? id,
    kind: values.kind ?? 'brick',
    course: high,
    tolerance: off,
    length: values.length ?? null,
    lengthTolerance: values.lengthTolerance ?? null,
    width: values.width ?? null,
    joint: values.joint ?? null,
    source: told,
  };
}

function missing(what: string): UsageError {
  return new UsageError(`expected ${what} beside --add, got none`);
}
