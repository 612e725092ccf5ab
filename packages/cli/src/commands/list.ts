import type { Command } from './command.js';

/** A command before it is loaded. */
export interface ListedCommand {
  /** What the user types. */
  readonly name: string;
  /** The positional argument: `<photo>`, `<photo...>` for several, `[word]` where it may be left out. */
  readonly argument: string;
  /** What else it cannot do without: `-o <file>`. */
  readonly needs?: string;
  /** Whether `--json` prints an object a line, for there may be many. */
  readonly perLine?: true;
  /** One line in the list of commands. */
  readonly summary: string;
  /** Fetch the rest: only the command that runs is loaded. */
  readonly load: () => Promise<Command>;
}

/** Every command, in the order of the journey from photo to paper. */
export const commands: readonly ListedCommand[] = [
  {
    name: 'measure',
    argument: '<photo...>',
    perLine: true,
    summary: 'find out how big the wall in a photo really is',
    load: async () => (await import('./measure.js')).measure,
  },
  {
    name: 'scale',
    argument: '<length|photo>',
    summary: 'what a length or a photo comes to in a model scale',
    load: async () => (await import('./scale.js')).scale,
  },
  {
    name: 'inspect',
    argument: '<photo>',
    summary: 'tell whether a picture repeats without a seam',
    load: async () => (await import('./inspect.js')).inspect,
  },
  {
    name: 'mend',
    argument: '<photo>',
    needs: '-o <file>',
    summary: 'make a picture repeat without a seam',
    load: async () => (await import('./mend.js')).mend,
  },
  {
    name: 'extend',
    argument: '<photo...>',
    needs: '-o <file>',
    summary: 'grow a small picture, or join several',
    load: async () => (await import('./extend.js')).extend,
  },
  {
    name: 'fill',
    argument: '<photo>',
    needs: '-o <file>',
    summary: 'the whole job: from photo to exactly sized picture',
    load: async () => (await import('./fill.js')).fill,
  },
  {
    name: 'weather',
    argument: '<photo>',
    needs: '-o <file>',
    summary: 'soot, damp, rust and moss, placed on the real wall',
    load: async () => (await import('./weather.js')).weather,
  },
  {
    name: 'relief',
    argument: '[photo]',
    needs: '-o <file>',
    summary: 'girders and plates whose edges are lit, from photo or paint',
    load: async () => (await import('./relief.js')).relief,
  },
  {
    name: 'dress',
    argument: '<drawing>',
    needs: '-o <file>',
    summary: 'cover a drawing’s outlines with photos',
    load: async () => (await import('./dress.js')).dress,
  },
  {
    name: 'slim',
    argument: '<drawing>',
    needs: '-o <file>',
    summary: 'why a drawing is so big, and a smaller one',
    load: async () => (await import('./slim.js')).slim,
  },
  {
    name: 'sheet',
    argument: '[part...]',
    needs: '-o <file>',
    summary: 'parts on pages at true size, ready to print and cut',
    load: async () => (await import('./sheet.js')).sheet,
  },
  {
    name: 'build',
    argument: '<job>',
    summary: 'all of a model from one file, again only what changed',
    load: async () => (await import('./build.js')).build,
  },
  {
    name: 'reference',
    argument: '[word]',
    summary: 'look up scales, bricks, bonds, slates and sections',
    load: async () => (await import('./reference.js')).reference,
  },
];
