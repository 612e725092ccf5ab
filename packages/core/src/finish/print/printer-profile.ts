import type { ColourTable } from './colour-table.js';

/** What a file of a printer says it is. */
export const printerSchema = 'gaugerod.printer/1';

/** What a printer makes of colours, and what to send it instead: learnt from its test strip. */
export interface PrinterProfile {
  /** Which strip it was learnt from. */
  readonly strip: number;
  /** CIE 1976 lightness of the darkest grey that it prints, its paper being 100. */
  readonly darkest: number;
  /** Ink past which it grows no darker, in per cent of one full ink: 300 is all of three. */
  readonly inkLimitPercent: number;
  /** How far off it prints colours of walls and steel as they are: mean CIEDE2000. */
  readonly offBefore: number;
  /** How far off they are to be with this profile, by what was learnt, those that it cannot print among them. */
  readonly offAfter: number;
  /** How many of them come out within a CIEDE2000 of 2, in per cent: those that the printer can print. */
  readonly metPercent: number;
  /** How much a colour differs from place to place of the strip: mean CIEDE2000. */
  readonly unsteady: number;
  /** What to send, of what is meant. */
  readonly table: ColourTable;
}

/**
 * Word a printer's profile as a file.
 *
 * @param profile - It.
 * @returns JSON, a line break at its end.
 */
export function toPrinterJson(profile: PrinterProfile): string {
  const { table, ...learnt } = profile;
  const round = (value: number): number => Number(value.toFixed(2));
  const told = Object.entries(learnt).map(([name, value]) => [name, round(value)] as const);
  const { size, values } = table;
  const levels = Array.from(values, (value) => round(255 * value));
  const file = { schema: printerSchema, ...Object.fromEntries(told), table: { size } };
  // A row of the table to a line: a person can look at it, and a difference of two files is short.
  const rows = Array.from({ length: size * size }, (_, row) =>
    JSON.stringify(levels.slice(3 * size * row, 3 * size * (row + 1))).slice(1, -1),
  );
  const head = JSON.stringify(file, null, 2).replace(/\n {2}\}\n\}$/, '');
  return `${head},\n    "levels": [\n${rows.join(',\n')}\n    ]\n  }\n}\n`;
}
