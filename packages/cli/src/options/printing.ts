import type { Core, TextOption, Values } from './option.js';
import { notExpected } from './not-expected.js';
import { parsePath } from './parse-path.js';

type Printing = NonNullable<Parameters<Core['fillPhoto']>[1]['printing']>;

function percent(
  flag: string,
  help: string,
  [least, most]: readonly [number, number],
): TextOption<number> {
  return {
    flag,
    help,
    parse: (text, { name }) => {
      const value = /^\d{1,3}(\.\d{1,4})? ?%$/.test(text) ? Number.parseFloat(text) : NaN;
      if (value >= least && value <= most) return value / 100;
      throw notExpected(
        `${least} to ${most} % (such as ${least + (most - least) / 2}%)`,
        name,
        text,
      );
    },
  };
}

function factor(flag: string, help: string): TextOption<number> {
  return {
    flag,
    help,
    parse: (text, { name }) => {
      const value = /^\d{1,2}(\.\d{1,4})?$/.test(text) ? Number(text) : NaN;
      if (value >= 0 && value <= 2) return value;
      throw notExpected('a number from 0 to 2', name, text);
    },
  };
}

const printer: TextOption<string> = {
  flag: '--printer <file>',
  help: "a printer's profile, which sheet --strip-photo writes: colours are sent so that they print as on the screen; once, where a part is made or where it is laid on a page",
  parse: parsePath,
};
const dotGain: TextOption<number> = percent(
  '--dot-gain <%>',
  'without a profile: how much larger a dot of half the paper prints (18%); it is printed that much lighter',
  [0, 24],
);
const inkLimit: TextOption<number> = percent(
  '--ink-limit <%>',
  'the most ink, all three inks together being 300% (default: 300%)',
  [100, 300],
);
const saturation: TextOption<number> = factor(
  '--saturation <0-2>',
  'more or less colourful than the screen shows (default: 1)',
);
const sharpen: TextOption<number> = factor(
  '--sharpen <0-2>',
  'how much detail finer than 0.12 mm of paper is sharpened (default: 0)',
);

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
