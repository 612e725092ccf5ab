import { mmPerInch } from '../units/units.js';

/** A size of paper, upright. */
export interface PaperEntry {
  /** Unlike any other: `A4`. */
  readonly name: string;
  /** Its short side in mm. */
  readonly widthMm: number;
  /** Its long side in mm. */
  readonly heightMm: number;
  /** Where that comes from. */
  readonly source: string;
}

const iso = 'ISO 216';
const ansi = 'ANSI/ASME Y14.1';
const custom = 'common practice, no source';

const millimetres = (
  name: string,
  sides: readonly [number, number],
  source: string,
): PaperEntry => ({
  name,
  widthMm: sides[0],
  heightMm: sides[1],
  source,
});
const inches = (name: string, sides: readonly [number, number], source: string): PaperEntry =>
  millimetres(name, [sides[0] * mmPerInch, sides[1] * mmPerInch], source);

/** Every paper, a row each; the first is the one that is proposed. */
export const papers: readonly PaperEntry[] = [
  millimetres('A4', [210, 297], iso),
  millimetres('A3', [297, 420], iso),
  millimetres('A2', [420, 594], iso),
  millimetres('A1', [594, 841], iso),
  millimetres('A0', [841, 1189], iso),
  millimetres('A5', [148, 210], iso),
  inches('Letter', [8.5, 11], ansi),
  inches('Tabloid', [11, 17], ansi),
  inches('Legal', [8.5, 14], custom),
];
