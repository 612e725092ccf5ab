import { fromSrgb, toSrgb } from '../../colour/srgb.js';
import { changeColours, type ColourTable, makeTable } from './colour-table.js';

/** What is done to colours so that they print well; what is left out is not done. */
export interface PrintTone {
  /** How much more colourful, 1 being as it is; 0 to 2. */
  readonly saturation?: number;
  /** What to send to a printer, learnt from its strip. */
  readonly printer?: ColourTable;
  /** How much larger than it should be a dot of half the paper prints, as a share of the paper, 0 to 0.24. */
  readonly dotGain?: number;
  /** The most ink, the sum of what red, green and blue fall short of white, above 0 to 3. */
  readonly inkLimit?: number;
}

// Between the corners of a printer's table there is one more.
const corners = 33;
// From so much of the most ink on it is held back more and more.
const knee = 0.8;

/**
 * Put all that is done to colours for print in one table.
 *
 * @param tone - What is done: more or less colourful first, then what the printer asks for, then less ink.
 * @returns The table, or null where nothing is done.
 */
export function toPrintTable(tone: PrintTone): ColourTable | null {
  const { saturation = 1, printer, dotGain = 0, inkLimit = 3 } = tone;
  if (saturation === 1 && printer === undefined && dotGain === 0 && inkLimit === 3) return null;
  const table = makeTable(corners, (colour) => {
    if (dotGain !== 0) colour.forEach((level, i) => (colour[i] = darken(level, dotGain)));
    if (saturation !== 1) saturate(colour, saturation);
    if (printer !== undefined) changeColours(printer, colour);
    if (dotGain !== 0) colour.forEach((level, i) => (colour[i] = lighten(level, dotGain)));
    if (inkLimit < 3) holdInk(colour, inkLimit);
  });
  if (dotGain === 0) return table;
  // Near black the curve of a gain bends within a corner or two: the table begins behind it.
  const shaper = Float32Array.from({ length: steps + 1 }, (_, i) => lighten(i / steps, dotGain));
  return { ...table, shaper };
}

// Of a level each, so that at the largest gain a step near black is no more than a few.
const steps = 4096;

// Away from the grey of the same luma (ITU-R BT.709).
function saturate(colour: Float32Array, much: number): void {
  const grey = 0.2126 * colour[0]! + 0.7152 * colour[1]! + 0.0722 * colour[2]!;
  colour.forEach((level, i) => {
    colour[i] = Math.min(1, Math.max(0, grey + much * (level - grey)));
  });
}

// What throws back a share of light is covered by dots over the rest of the paper (A. Murray 1936). They grow by
// 4 times the gain times what is covered times what is not: of half the paper, by the gain. So as much less is sent.
function lighten(level: number, gain: number): number {
  const dot = 1 - fromSrgb(level);
  const grown = 1 + 4 * gain;
  const sent = (grown - Math.sqrt(grown * grown - 16 * gain * dot)) / (8 * gain);
  return toSrgb(1 - sent);
}

// What a level comes out as whose dots have grown: the way back.
function darken(level: number, gain: number): number {
  const dot = 1 - fromSrgb(level);
  return toSrgb(Math.max(0, 1 - dot - 4 * gain * dot * (1 - dot)));
}

// From the knee as it is, in a curve that reaches the limit where there is most ink, and is none at a limit of 3.
function holdInk(colour: Float32Array, limit: number): void {
  const ink = 3 - colour[0]! - colour[1]! - colour[2]!;
  const from = knee * limit;
  if (ink <= from) return;
  const [span, room] = [3 - from, limit - from];
  const far = (ink - from) / span;
  const held = from + (span * far) / (1 + (span / room - 1) * far);
  colour.forEach((level, i) => (colour[i] = 1 - ((1 - level) * held) / ink));
}
