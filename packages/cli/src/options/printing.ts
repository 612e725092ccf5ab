import type { ToldSetting } from '@gaugerod/core';
import type { Core, TextOption, Values } from './option.js';
import { parsePath } from './parse-path.js';

type Printing = NonNullable<Parameters<Core['fillPhoto']>[1]['printing']>;

const printer: TextOption<string> = {
  flag: '--printer <file>',
  help: "a printer's profile, which sheet --strip-photo writes: colours are sent so that they print as on the screen; once, where a part is made or where it is laid on a page",
  parse: parsePath,
};
const dotGain: TextOption<number> = {
  flag: '--dot-gain <%>',
  help: 'without a profile: how much larger a dot of half the paper prints (18%); it is printed that much lighter',
  parse: (text, { name, core }) => core.parseDotGain(text, name),
};
const inkLimit: TextOption<number> = {
  flag: '--ink-limit <%>',
  help: 'the most ink, all three inks together being 300% (default: 300%)',
  parse: (text, { name, core }) => core.parseInkLimit(text, name),
};
const saturation: TextOption<number> = {
  flag: '--saturation <0-2>',
  help: 'more or less colourful than the screen shows (default: 1)',
  parse: (text, { name, core }) => core.parseFactor(text, name),
};
const sharpen: TextOption<number> = {
  flag: '--sharpen <0-2>',
  help: 'how much detail finer than 0.12 mm of paper is sharpened (default: 0)',
  parse: (text, { name, core }) => core.parseFactor(text, name),
};

// An alias, not an interface: commands look options up by any name.
type ColourGroup = Readonly<{
  printer: typeof printer;
  dotGain: typeof dotGain;
  inkLimit: typeof inkLimit;
  saturation: typeof saturation;
}>;
type PrintingGroup = ColourGroup & Readonly<{ sharpen: typeof sharpen }>;

/** How colours are sent to a printer. */
export const printColours: ColourGroup = { printer, dotGain, inkLimit, saturation };

/** The same, and how sharp what repeats is made. */
export const printing: PrintingGroup = { ...printColours, sharpen };

/** What of it may be set for all commands. */
export const usualPrinting: readonly (ToldSetting & keyof PrintingGroup)[] = [
  'printer',
  'dotGain',
  'inkLimit',
  'saturation',
  'sharpen',
];

/**
 * Put what was said of printing into the one form that jobs know.
 *
 * @param values - A command's options, once read.
 * @returns What of it is of printing; nothing where none was.
 */
export function printingOf(values: Values<PrintingGroup>): { readonly printing?: Printing } {
  const told = Object.keys(printing).filter((name) => name in values);
  if (told.length === 0) return {};
  return {
    printing: Object.fromEntries(told.map((name) => [name, values[name as keyof typeof values]])),
  };
}
