import { outOfRange } from '../../errors/out-of-range.js';

/** What is done to colours so that they print as they show on a screen; nothing that is not told. */
export interface PrintingOptions {
  /** A printer's profile, as {@link readTestStrip} writes it. */
  readonly printer?: string;
  /**
   * How much larger than it should be a dot of half the paper prints, 0 to 0.24, for whom no strip was read: 0.18 is
   * 18 % of the paper, and grey of half the light reflects 32 %.
   */
  readonly dotGain?: number;
  /** The most ink, 1 to 3: 3 is all of three inks one over another. */
  readonly inkLimit?: number;
  /** How colourful, 0 grey to 2; 1 is as it is. */
  readonly saturation?: number;
  /** How much what is finer than 0.12 mm of paper is sharpened, 0 to 2; 0 is not at all. */
  readonly sharpen?: number;
}

const ranges = {
  dotGain: [0, 0.24],
  inkLimit: [1, 3],
  saturation: [0, 2],
  sharpen: [0, 2],
} as const;

const colours = ['printer', 'dotGain', 'inkLimit', 'saturation'] as const;

/**
 * Check what is told of printing, before anything is read.
 *
 * @param options - As the caller gave them, if at all.
 * @throws RangeError when one of them, or two together, make no sense.
 */
export function checkPrinting(options: PrintingOptions | undefined): void {
  if (options === undefined) return;
  for (const [name, [least, most]] of Object.entries(ranges)) {
    const value = options[name as keyof typeof ranges];
    if (value !== undefined && !(value >= least && value <= most)) {
      throw outOfRange(`${least} to ${most}`, name, value);
    }
  }
  const { printer, dotGain } = options;
  if (printer !== undefined && dotGain !== undefined) {
    throw outOfRange(
      'no dot gain beside a printer, whose profile holds it,',
      'dotGain',
      `${100 * dotGain} %`,
    );
  }
}

/**
 * The same where relief is laid: lines of a drawing are blended by whoever shows it, and what they come to is not known
 * here.
 *
 * @param printing - As the caller gave them.
 * @param output - The file to write.
 * @throws RangeError when one of them, or two together, make no sense.
 */
export function checkReliefPrinting(printing: PrintingOptions | undefined, output: string): void {
  checkPrinting(printing);
  const told = colours.find((name) => printing?.[name] !== undefined);
  if (told === undefined || !output.toLowerCase().endsWith('.svg')) return;
  throw outOfRange('a picture or a .pdf, whose lines are no longer blended,', told, output);
}

/**
 * List the files that are read for it.
 *
 * @param printing - As the caller gave it, if at all.
 * @returns A printer's profile, or none.
 */
export function printingFiles(printing: PrintingOptions | undefined): readonly string[] {
  return printing?.printer === undefined ? [] : [printing.printer];
}
