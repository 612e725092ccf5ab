import type { Warning } from '../errors/warning.js';
import type { Raster } from '../raster/raster.js';
import { inspectAxis, leastLength } from './inspect-axis.js';
import { isMirrored } from './is-mirrored.js';
import { sampleLines, type SampledLines } from './sample-lines.js';

/** How well a picture meets itself along one axis. */
export interface Seam {
  /** The step across the wrap over the 95th percentile of steps inside: 1 is the border. */
  readonly seamScore: number;
  /** Whether the score is 1 or less. */
  readonly seamless: boolean;
}

/** How well a picture repeats. */
export interface SeamInspection {
  /** Laid side by side. */
  readonly x: Seam;
  /** Laid one above the other. */
  readonly y: Seam;
  /** In words. */
  readonly verdict: string;
  /** What else a person would want to know. */
  readonly warnings: readonly Warning[];
}

// Enough that a seam across some of them is not missed.
const mostLines = 192;

/**
 * Tell whether a picture repeats without a seam, along each axis: the step where it meets itself is
 * held against the steps inside it, at several widths. Under 32 px it cannot tell, and warns.
 *
 * @param raster - In linear light.
 * @returns Scores, and a verdict in words.
 */
export function inspectSeams(raster: Raster): SeamInspection {
  const rows = sampleLines(raster, 'x', mostLines);
  const columns = sampleLines(raster, 'y', mostLines);
  const x = seamOf(inspectAxis(rows));
  const y = seamOf(inspectAxis(columns));
  const found = [tooSmall(raster), mirrored(rows, 'x'), mirrored(columns, 'y')];
  const warnings = found.filter((one) => one !== null);
  return { x, y, verdict: inWords(x.seamless, y.seamless), warnings };
}

function tooSmall({ width, height }: Raster): Warning | null {
  if (Math.min(width, height) >= leastLength) return null;
  const message = `${width} x ${height} px is too small to tell a seam by: ${leastLength} px each way are the least`;
  return { code: 'too-small-to-tell', message };
}

function mirrored(lines: SampledLines, axis: 'x' | 'y'): Warning | null {
  if (!isMirrored(lines)) return null;
  const way = axis === 'x' ? 'side by side' : 'one above the other';
  const message = `repeats ${way} as in a mirror: bricks come out double and the eye finds it`;
  return { code: 'mirrored', message };
}

function seamOf(seamScore: number): Seam {
  return { seamScore, seamless: seamScore <= 1 };
}

function inWords(x: boolean, y: boolean): string {
  if (x && y) return 'repeats without a seam both ways';
  if (x) return 'repeats without a seam side by side, but not one above the other';
  if (y) return 'repeats without a seam one above the other, but not side by side';
  return 'shows a seam both ways';
}
