import { outOfRange } from '../errors/out-of-range.js';
import type { Warning } from '../errors/warning.js';
import type { PerAxis } from '../surface/measurement.js';
import { mmPerInch, realMm, toDots, toPrint } from '../units/units.js';
import type { Dpi, ModelScale, RealMm } from '../units/units.js';

/** What is to be printed, and how. */
export interface PrintOptions {
  /** Real millimetres per pixel of the photo. */
  readonly mmPerPx: PerAxis<number>;
  /** Of the model. */
  readonly scale: ModelScale;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** A mortar joint of the work, where it has one: 10 mm is usual. */
  readonly joint?: RealMm | null;
}

/** How much of the print a photo can fill. */
export interface ResolutionVerdict {
  /** Photo pixels to an inch of paper. */
  readonly photoDpi: PerAxis<number>;
  /** Printed dots per photo pixel: what a length in the photo is times on paper. */
  readonly factor: PerAxis<number>;
  /** In words: `this photo holds 212 dots per inch at 1:76.2; 600 asked`. */
  readonly verdict: string;
  /** `low-resolution` where the photo holds less than asked, `fine-mortar` under two dots a joint. */
  readonly warnings: readonly Warning[];
}

/**
 * Say what a photo holds at a model's scale, beside what a printer asks.
 *
 * @param options - Photo, scale and printer.
 * @returns Numbers, words and warnings.
 * @throws RangeError when `mmPerPx` is not above 0.
 */
export function judgeResolution(options: PrintOptions): ResolutionVerdict {
  const { mmPerPx, scale, dpi, joint = null } = options;
  for (const value of [mmPerPx.x, mmPerPx.y]) {
    if (!(value > 0 && value < Infinity)) {
      throw outOfRange('finite millimetres per pixel above 0', 'mmPerPx', value);
    }
  }
  const factor = {
    x: toDots(toPrint(realMm(mmPerPx.x), scale), dpi),
    y: toDots(toPrint(realMm(mmPerPx.y), scale), dpi),
  };
  const photoDpi = { x: dpi / factor.x, y: dpi / factor.y };
  const holds = Math.round(Math.min(photoDpi.x, photoDpi.y));
  const ratio = Number(scale.toPrecision(6));
  const verdict = `this photo holds ${holds} dots per inch at 1:${ratio}; ${dpi} asked`;
  const warnings: Warning[] = [];
  // Half a per cent: a photo that fits by a hair is not told off for the rounding.
  if (Math.min(photoDpi.x, photoDpi.y) < 0.995 * dpi) {
    warnings.push({ code: 'low-resolution', message: verdict });
  }
  const dots = joint === null ? Infinity : toDots(toPrint(joint, scale), dpi);
  if (joint !== null && dots < 2) {
    const paper = (dots * mmPerInch) / dpi;
    warnings.push({
      code: 'fine-mortar',
      message: `a joint of ${Number(joint.toPrecision(3))} mm is ${dots.toFixed(1)} dots (${paper.toFixed(2)} mm) on paper: mortar may print unevenly`,
    });
  }
  return { photoDpi, factor, verdict, warnings };
}
