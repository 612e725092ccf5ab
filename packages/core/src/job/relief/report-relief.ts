import type { SectionReference } from '../../catalogue/find-section.js';
import type { DrawnRelief } from '../../finish/relief/drawn-relief.js';
import { faceLoops } from '../../finish/relief/face-loops.js';
import type { LightSide } from '../../finish/relief/light-side.js';
import type { ProfileId, SectionSizes } from '../../finish/relief/profiles/profile.js';
import type { PrintingReport } from '../print/open-printing.js';
import type { ReliefSheet } from './plan-relief.js';
import type { ReadAlong } from './read-along.js';
import type { MakeReliefOptions } from './relief-options.js';
import type { MeasurementReport } from '../measure/report-measurement.js';
import type { ScaleReport } from '../measure/report-scale.js';
import type { WeatherReport } from '../weather/report-weather.js';
import { toFigures } from '../to-figures.js';

/** A line of a piece in relief. */
export interface ReliefLine {
  /** The edge that it lies along, in words. */
  readonly edge: string;
  /** Its top, mm of paper from that of the piece. */
  readonly fromMm: number;
  /** Its foot. */
  readonly toMm: number;
}

/** A layer of card that pieces are built up from. All are cut from one picture, and lie in it at the same place. */
export interface ReliefLayer {
  /** From the back, 1, to the front. */
  readonly order: number;
  /** What it is, in words: `flanges and stiffeners`. */
  readonly name: string;
  /** Its picture, transparent where it is cut away. */
  readonly file: string;
  /** How thick the card is. */
  readonly cardMm: number;
  /** How many cards are glued together for it; the topmost is printed. */
  readonly cards: number;
  /** How many pieces one copy falls into. */
  readonly pieces: number;
  /** How many openings are cut out of them. */
  readonly openings: number;
}

/** Pieces in relief, as they were written. */
export interface MadeRelief {
  /** The file. */
  readonly output: string;
  /** Columns, bleed included. */
  readonly widthPx: number;
  /** Rows, all pieces and their bleed included. */
  readonly heightPx: number;
  /** What it is to be printed at. */
  readonly dpi: number;
  /** What it measures on paper from left to right. */
  readonly widthMm: number;
  /** What it measures on paper from top to bottom. */
  readonly heightMm: number;
  /** Of the model. */
  readonly scale: ScaleReport;
  /** The catalogue's entry that it is drawn from, or null. */
  readonly section: {
    /** Its id. */
    readonly id: string;
    /** As handbooks print it. */
    readonly name: string;
    /** Where its sizes come from. */
    readonly source: string;
    /** Whether its flanges taper: then they are drawn at their mean. */
    readonly flanges: 'parallel' | 'taper';
  } | null;
  /** What kind it is. */
  readonly profile: ProfileId;
  /** Its sizes of the real thing. */
  readonly real: SectionSizes & { readonly length: number };
  /** One piece on paper, without bleed. */
  readonly piece: {
    /** From end to end. */
    readonly lengthMm: number;
    /** From its top to its foot, plates on its flanges included. */
    readonly depthMm: number;
    /** Its flanges as drawn, wide enough for a line; null where it has none. */
    readonly flangeMm: number | null;
  };
  /** Of level edges, from the top to the foot. */
  readonly lines: readonly ReliefLine[];
  /** Where the light comes from. */
  readonly light: LightSide;
  /** How strong relief is. */
  readonly strength: number;
  /** Pieces. */
  readonly copies: number;
  /** On each piece. */
  readonly rivets: number;
  /** On each piece. */
  readonly stiffeners: number;
  /** Plates over joints of a piece's web. */
  readonly splices: number;
  /** Plates on each flange of a piece. */
  readonly covers: number;
  /** What weather was laid on each piece, or null where none was asked for. */
  readonly weather: WeatherReport | null;
  /** The line of a drawing that it follows, and where in it the picture begins, bleed and all; or null. */
  readonly along: {
    /** The drawing. */
    readonly path: string;
    /** Of the line, or null where it has none. */
    readonly id: string | null;
    /** From the left edge of the drawing's page to the piece. */
    readonly xMm: number;
    /** From its top edge. */
    readonly yMm: number;
  } | null;
  /** Layers of card, the whole first, each of which lies on the one before it; empty unless asked for. */
  readonly layers: readonly ReliefLayer[];
  /** What was done to colours so that they print as on the screen, or null where nothing was asked for. */
  readonly printing: PrintingReport | null;
  /** What lies under relief: a photo, or null where that is a colour. */
  readonly photo: string | null;
  /** That colour, or null. */
  readonly colour: string | null;
  /** Of the photo, or null. */
  readonly measurement: MeasurementReport | null;
}

function reportLayers(
  { plan }: ReliefSheet,
  { cards, outline }: DrawnRelief,
  files: readonly string[],
): readonly ReliefLayer[] {
  const { card } = plan;
  if (card === null) return [];
  const holes = outline === null ? 0 : faceLoops(outline).filter(({ isHole }) => isHole).length;
  const whole = { name: 'the whole', cards: 1, pieces: 1, openings: holes };
  return [whole, ...cards].map(({ name, cards: many, pieces, openings }, i) => ({
    ...{ order: i + 1, name, file: files[i] ?? '', cardMm: card },
    ...{ cards: many, pieces, openings },
  }));
}

function reportAlong(
  { along }: MakeReliefOptions,
  read: ReadAlong | null,
  { at }: DrawnRelief,
): MadeRelief['along'] {
  if (along === undefined || read === null) return null;
  return { path: along.path, id: read.id, xMm: toFigures(at.x, 6), yMm: toFigures(at.y, 6) };
}

function sectionOf(section: SectionReference): MadeRelief['section'] {
  const { id, name, source, flanges } = section;
  return { id, name, source, flanges };
}

/** What is said of a piece. */
export type PieceReport = Pick<
  MadeRelief,
  | 'section'
  | 'profile'
  | 'real'
  | 'piece'
  | 'lines'
  | 'light'
  | 'strength'
  | 'copies'
  | 'rivets'
  | 'stiffeners'
  | 'splices'
  | 'covers'
  | 'along'
  | 'layers'
>;

/** What a piece came of, and the files it went to. */
export interface ReportPieceOptions {
  /** As the caller gave them. */
  readonly options: MakeReliefOptions;
  /** The line that it follows, or null. */
  readonly along: ReadAlong | null;
  /** Its files, that of the whole before those of layers. */
  readonly files: readonly string[];
}

/**
 * Put what a piece is into its one form.
 *
 * @param sheet - As planned.
 * @param drawn - As drawn.
 * @param from - What it came of.
 * @returns As it is told.
 */
export function reportPiece(
  sheet: ReliefSheet,
  drawn: DrawnRelief,
  from: ReportPieceOptions,
): PieceReport {
  const { plan, depth, real, copies } = sheet;
  const { lines, flange, rivets, stiffeners } = drawn;
  const { section, length, scale } = from.options;
  const { profile, light, strength, covers, splices } = plan;
  return {
    section: section ? sectionOf(section) : null,
    profile: profile.id,
    real: {
      length: length ?? toFigures(plan.length * scale.ratio, 6),
      ...real,
      depth: toFigures(real.depth, 6),
    },
    piece: {
      lengthMm: toFigures(plan.length, 6),
      depthMm: toFigures(depth, 6),
      flangeMm: flange === null ? null : toFigures(flange, 6),
    },
    lines: lines.map(({ edge, y0, y1 }) => ({
      edge: edge.name,
      fromMm: toFigures(y0, 6),
      toMm: toFigures(y1, 6),
    })),
    light,
    strength,
    copies,
    rivets,
    stiffeners,
    splices: splices?.at.length ?? 0,
    covers: covers?.lengths.length ?? 0,
    along: reportAlong(from.options, from.along, drawn),
    layers: reportLayers(sheet, drawn, from.files),
  };
}
