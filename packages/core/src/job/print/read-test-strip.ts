import { withLimits } from '../../read/held-limits.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import { learnPrinter } from '../../finish/print/learn-printer.js';
import { type MeasuredStrip, measureStrip } from '../../finish/print/measure-strip.js';
import { type PrinterProfile, toPrinterJson } from '../../finish/print/printer-profile.js';
import type { StripRefusal } from '../../finish/print/strip-refusals.js';
import { openPhoto } from '../../read/open-photo.js';
import { checkPrinterOutput, writePrinter } from '../../write/write-printer.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { toFigures } from '../to-figures.js';

/** What {@link readTestStrip} needs to know. */
export interface ReadTestStripOptions extends JobOptions {
  /** The profile to write, `.json`. */
  readonly output: string;
}

/** A printer that was learnt from its test strip. */
export interface LearntPrinter {
  /** The profile written. */
  readonly output: string;
  /** The scan or photo. */
  readonly photo: string;
  /** Which strip it shows. */
  readonly strip: number;
  /** By how many degrees, clockwise, it is turned in the picture: 0, 90, 180 or 270. */
  readonly turned: number;
  /** Whether it is seen in a mirror. */
  readonly mirrored: boolean;
  /** Pixels along a patch where it is smallest. */
  readonly patchPx: number;
  /** The least light on it, in per cent of the most. */
  readonly evenPercent: number;
  /** How much contrast of the camera's own was found and taken out: root of the mean square, CIE 1976 lightness, or 0. */
  readonly contrast: number;
  /** How much of it there may be that was not found: one standard deviation of the same. */
  readonly contrastUnsure: number;
  /** How much a colour differs from place to place: mean CIEDE2000. */
  readonly unsteady: number;
  /** Lightness of the darkest grey that is printed, that of bare paper being 100. */
  readonly darkest: number;
  /** Ink past which nothing grows darker, in per cent of one full ink. */
  readonly inkLimitPercent: number;
  /** How far off colours of walls and steel are printed without the profile: mean CIEDE2000. */
  readonly offBefore: number;
  /** And with it, as far as the strip can tell. */
  readonly offAfter: number;
  /** How many of them come out within a CIEDE2000 of 2: those that the printer can print. */
  readonly metPercent: number;
}

// More pixels measure a patch of a strip no better.
const enough = 2000;
const steady = 2;
// About what a camera does that adds a little contrast.
const unsureAbout = 1;

/**
 * Read a test strip that was printed, and scanned or photographed, and learn what to send to its printer so that
 * colours come out as on the screen. Colours are taken as shares of bare paper. Contrast of a camera's own is told by light
 * that falls off over the strip, where it does; but for that, what the print is taken with is believed.
 *
 * @param path - Of the scan or photo.
 * @param options - Where to write.
 * @returns What was learnt, or why the picture does not allow it.
 * @throws TextureError when a file does not allow it.
 */
export async function readTestStrip(
  path: string,
  options: ReadTestStripOptions,
): Promise<Outcome<LearntPrinter, StripRefusal>> {
  return withLimits(options, () => readWithin(path, options));
}

async function readWithin(
  path: string,
  options: ReadTestStripOptions,
): Promise<Outcome<LearntPrinter, StripRefusal>> {
  const { output } = options;
  await checkPrinterOutput(output, [path]);
  beginStep('reading', options);
  const { look } = await openPhoto(path, { longest: enough });
  beginStep('measuring', options);
  const measured = measureStrip(look.raster);
  if (!measured.ok) return { ...measured, message: `${showPath(path)}: ${measured.message}` };
  const { evenness, patchPx, place, unsteady, curve } = measured.value;
  const profile = learnPrinter(measured.value);
  beginStep('writing', options);
  await writePrinter(output, toPrinterJson(profile), [path]);
  const value: LearntPrinter = {
    output,
    photo: path,
    strip: profile.strip,
    turned: 90 * place.turns,
    mirrored: place.mirrored,
    patchPx: toFigures(patchPx, 3),
    evenPercent: toFigures(100 * evenness, 3),
    contrast: toFigures(curve.much, 2),
    contrastUnsure: toFigures(curve.unsure, 2),
    unsteady: toFigures(unsteady, 3),
    ...reportPrinter(profile),
  };
  return { ok: true, value, warnings: [...look.warnings, ...warnOf(measured.value, path)] };
}

function reportPrinter(
  profile: PrinterProfile,
): Pick<LearntPrinter, 'darkest' | 'inkLimitPercent' | 'offBefore' | 'offAfter' | 'metPercent'> {
  const { darkest, inkLimitPercent, offBefore, offAfter, metPercent } = profile;
  return {
    darkest: toFigures(darkest, 3),
    inkLimitPercent: toFigures(inkLimitPercent, 3),
    offBefore: toFigures(offBefore, 3),
    offAfter: toFigures(offAfter, 3),
    metPercent: toFigures(metPercent, 3),
  };
}

function warnOf({ unsteady, curve, isAslant }: MeasuredStrip, path: string): readonly Warning[] {
  const warnings: Warning[] = [];
  if (unsteady > steady) {
    const message = `greys that ${showPath(path)} shows in several places differ by ${toFigures(unsteady, 2)} (CIEDE2000): the light, a reflection or the printer itself is uneven, and so will be what is corrected by it`;
    warnings.push({ code: 'strip-unsteady', message });
  }
  if (isAslant && !curve.isTold && curve.unsure > unsureAbout) {
    const message = `the light on ${showPath(path)} is too even to tell contrast that the camera added from what the printer did: if it added some, what is printed will be off by that; scan the strip, or let light fall on it from one side`;
    warnings.push({ code: 'contrast-untold', message });
  }
  return warnings;
}
