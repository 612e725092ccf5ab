import type { Settings } from '@gaugerod/core';
import { UsageError } from '../print/usage-error.js';
import { longFlag } from './long-flag.js';
import type { Core, Options, TextOption, Texts, Values } from './option.js';

type CountName = Parameters<Core['parseCount']>[2];

function most(what: string, name: CountName, help: string): TextOption<number> {
  return {
    flag: `--most-${what} <number>`,
    help,
    parse: (text, reading) => reading.core.parseCount(text, reading.name, name),
  };
}

const mostPixels: TextOption<number> = most(
  'pixels',
  'mostPixels',
  'pixels that a picture may hold: 200M (default: 100M)',
);
const mostSeconds: TextOption<number> = {
  flag: '--most-seconds <number>',
  help: 'how long decoding a picture may take (default: 10)',
  parse: (text, { name, core }) => core.parseSeconds(text, name),
};

/** How much files of any kind may hold. */
export const mostBytes: TextOption<number> = most(
  'bytes',
  'mostBytes',
  'bytes that a file may hold, whatever it is: 1G (default: by what it is, 512M of a picture)',
);
const mostElements: TextOption<number> = most(
  'elements',
  'mostElements',
  'elements that a drawing may hold (default: 500k)',
);
const mostDepth: TextOption<number> = most(
  'depth',
  'mostDepth',
  'how deep elements of a drawing may lie in one another (default: 250)',
);
const mostLinks: TextOption<number> = most(
  'links',
  'mostLinks',
  'files that a drawing may lead to (default: 5000)',
);

// Aliases, not interfaces: commands look options up by any name.
type PictureLimits = Readonly<{
  mostPixels: typeof mostPixels;
  mostBytes: typeof mostBytes;
  mostSeconds: typeof mostSeconds;
}>;
type OutlineLimits = PictureLimits &
  Readonly<{ mostElements: typeof mostElements; mostDepth: typeof mostDepth }>;
type DrawingLimits = OutlineLimits & Readonly<{ mostLinks: typeof mostLinks }>;

/** What photos may ask for. */
export const pictureLimits: PictureLimits = { mostPixels, mostBytes, mostSeconds };

/** The same, and drawings of which an outline or a line is taken. */
export const outlineLimits: OutlineLimits = { ...pictureLimits, mostElements, mostDepth };

/** The same, and drawings that lead to pictures. */
export const drawingLimits: DrawingLimits = { ...outlineLimits, mostLinks };

/** The same, where pictures go on pages as they are. */
export const pageLimits: DrawingLimits = {
  ...drawingLimits,
  mostPixels: {
    ...mostPixels,
    help: 'pixels that a picture may hold: 400M (default: 268M of a part, 100M of a photo)',
  },
  mostSeconds: { ...mostSeconds, help: 'how long decoding a picture may take (default: 30)' },
};

/**
 * Take limits out of a command's options.
 *
 * @param values - Read.
 * @returns Limits alone.
 */
export function limitsOf(values: Values<Partial<DrawingLimits>>): Partial<Values<DrawingLimits>> {
  const names = Object.keys(drawingLimits).filter((name) => name in values);
  return Object.fromEntries(names.map((name) => [name, values[name as keyof typeof values]]));
}

/**
 * Take limits out of what was typed, for files that are read before anything else is.
 *
 * @param options - Of the command.
 * @param texts - As typed.
 * @returns Options and texts of limits alone.
 */
export function limitsAmong(options: Options, texts: Texts): readonly [Options, Texts] {
  const names = Object.keys(options).filter((name) => name in drawingLimits);
  const only = <Value>(all: Readonly<Record<string, Value>>): Readonly<Record<string, Value>> =>
    Object.fromEntries(names.flatMap((name) => (name in all ? [[name, all[name]!]] : [])));
  return [only(options), only(texts)];
}

/** What a command may read, and does not this time. */
export interface UnreadInput {
  /** Named as what would be given: `a photo`. */
  readonly what: string;
  /** Limits that it would be held to, and nothing else is. */
  readonly limits: readonly (keyof DrawingLimits)[];
}

/**
 * Refuse limits of what a command reads nothing of: what is typed is not to be passed over.
 *
 * @param values - Read.
 * @param settings - What is set for all commands, which nobody meant for this one.
 * @param missing - What it would be.
 * @throws UsageError where one of them was typed.
 */
export function refuseLimits(
  values: Readonly<Record<string, unknown>>,
  settings: Settings,
  missing: UnreadInput,
): void {
  const set = limitsSet(settings);
  const { what, limits } = missing;
  const typed = limits.find((name) => values[name] !== undefined && !set.includes(name));
  if (typed === undefined) return;
  throw new UsageError(`expected ${what} for ${longFlag(drawingLimits[typed])}, got none`);
}

/**
 * Tell which limits are set for all commands: one that reads nothing of the kind has nothing against those, where it
 * refuses what is typed.
 *
 * @param settings - What is set.
 * @returns Their names.
 */
export function limitsSet(settings: Settings): readonly string[] {
  return Object.keys(drawingLimits).filter((name) => name in settings.values);
}
