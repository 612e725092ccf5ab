import { colourDifference } from '../../colour/colour-difference.js';
import { changeColours } from './colour-table.js';
import { fitPrint, foretell } from './fit-print.js';
import { invertPrint } from './invert-print.js';
import { type Lab, labOf } from './lab-of.js';
import type { MeasuredStrip } from './measure-strip.js';
import type { PrinterProfile } from './printer-profile.js';

// What walls, roofs and steel are made of is no more colourful.
const mostChroma = 45;
// CIEDE2000 that nobody sees but side by side.
const met = 2;

/**
 * Learn from a strip what to send to a printer so that colours come out as meant.
 *
 * @param strip - As measured.
 * @returns The printer's profile.
 */
export function learnPrinter(strip: MeasuredStrip): PrinterProfile {
  const { sent, seen, unsteady, place } = strip;
  const model = fitPrint(sent, seen);
  const { table, darkest, inkLimit } = invertPrint(model);
  const [before, after]: [number[], number[]] = [[], []];
  const found = new Float64Array(12);
  for (let i = 0; i < sent.length; i += 3) {
    const colour = Float32Array.from(sent.subarray(i, i + 3));
    const meant = labOf(colour);
    if (Math.hypot(meant[1], meant[2]) > mostChroma) continue;
    before.push(colourDifference(meant, [seen[i]!, seen[i + 1]!, seen[i + 2]!]));
    changeColours(table, colour);
    foretell(model, [colour[0]!, colour[1]!, colour[2]!], found);
    const came: Lab = [found[0]!, found[1]!, found[2]!];
    after.push(colourDifference(meant, came));
  }
  return {
    strip: place.version,
    darkest,
    inkLimitPercent: 100 * inkLimit,
    offBefore: meanOf(before),
    offAfter: meanOf(after),
    metPercent: (100 * after.filter((off) => off <= met).length) / after.length,
    unsteady,
    table,
  };
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
