import type { OddPlace } from '../../seam/odd/to-odd-place.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { formatLength } from '../../units/format-length.js';
import type { RepeatAxis } from './draw-seams.js';
import { toFigures } from '../to-figures.js';

/** A place that catches the eye at each repeat, as it is reported. */
export interface OddReport extends OddPlace {
  /** Pixels after which it comes again; null where the picture is not to repeat that way. */
  readonly everyPx: PerAxis<number | null>;
  /** Millimetres of paper after which it comes again, or null where the scale is not known. */
  readonly everyMm: PerAxis<number | null> | null;
  /** In words. */
  readonly message: string;
}

/** What the report of an odd place goes by. */
export interface OddReportOptions {
  /** After how many pixels the picture repeats. */
  readonly period: Size<number>;
  /** Which way it is to repeat. */
  readonly axis: RepeatAxis;
  /** Millimetres to a pixel: of paper, or of the real thing where nobody said at what scale, or null. */
  readonly mmPerPx: PerAxis<number> | null;
  /** Whether those are millimetres of paper. */
  readonly onPaper: boolean;
}

/**
 * Report an odd place: where it lies, how it differs, and how often it will be seen.
 *
 * @param odd - As found.
 * @param options - How large it is and how it repeats.
 * @returns The same with words.
 */
export function reportOdd(odd: OddPlace, options: OddReportOptions): OddReport {
  const { period, axis, mmPerPx, onPaper } = options;
  const everyPx = {
    x: axis === 'y' ? null : period.width,
    y: axis === 'x' ? null : period.height,
  };
  const every = mmPerPx && { x: inMm(everyPx.x, mmPerPx.x), y: inMm(everyPx.y, mmPerPx.y) };
  return {
    ...odd,
    salience: toFigures(odd.salience, 3),
    difference: toFigures(odd.difference, 3),
    everyPx,
    everyMm: onPaper ? every : null,
    message: `a ${odd.way} place, ${sizeInWords(odd, mmPerPx)} at ${odd.x},${odd.y}, will repeat every ${
      every === null
        ? waysInWords(everyPx, (value) => `${value} px`)
        : `${waysInWords(every, (value) => formatLength(value, 2))} ${onPaper ? 'on paper' : 'of the real thing'}`
    }`,
  };
}

function inMm(pixels: number | null, mmPerPx: number): number | null {
  return pixels === null ? null : toFigures(pixels * mmPerPx, 4);
}

function sizeInWords({ width, height }: Size<number>, mmPerPx: PerAxis<number> | null): string {
  if (mmPerPx === null) return `${width} x ${height} px`;
  return `${formatLength(width * mmPerPx.x, 2)} x ${formatLength(height * mmPerPx.y, 2)}`;
}

function waysInWords(every: PerAxis<number | null>, inWords: (value: number) => string): string {
  const ways = [
    every.x === null ? null : `${inWords(every.x)} across`,
    every.y === null ? null : `${inWords(every.y)} down`,
  ];
  return ways.filter((way) => way !== null).join(' and ');
}
