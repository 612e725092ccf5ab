import { srgbToLinear } from '../colour/srgb.js';
import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import { boxOfLoops } from '../fill/outline/part-outline.js';
import { drawRelief } from '../finish/relief/draw-relief.js';
import type { DrawnRelief } from '../finish/relief/drawn-relief.js';
import type { LightSide } from '../finish/relief/light-side.js';
import type { ProfileId, SectionSizes } from '../finish/relief/profiles/profile.js';
import { createRaster, type Raster } from '../raster/raster.js';
import { dpi as toDpi } from '../units/units.js';
import { checkOpacity } from '../write/check-opacity.js';
import { checkOutput } from '../write/check-output.js';
import { checkQuality } from '../write/check-quality.js';
import { pictureFormats } from '../write/formats/index.js';
import type { SurfaceRefusal, TakeSurface } from './made-surface.js';
import { beginStep } from './job-options.js';
import type { ReliefGround } from './lay-relief.js';
import {
  openPrinting,
  printColours,
  type PrintingReport,
  reportPrinting,
  sharpenSurface,
} from './open-printing.js';
import { checkPaper, planRelief, type ReliefSheet } from './plan-relief.js';
import type { DrawnShape } from './size-relief.js';
import type { ReadAlong } from './read-along.js';
import { checkReliefPrinting, printingFiles } from './printing-options.js';
import { edgeLedges, settleReliefWeather } from './relief-weather.js';
import type { MakeReliefOptions } from './relief-options.js';
import { type MeasurementReport, reportMeasurement } from './report-measurement.js';
import { reportWeather, type WeatherReport } from './report-weather.js';
import type { WeatherOptions } from './weather-options.js';
import type { WeatheredSurface } from './weather-part.js';
import { reportScale, type ScaleReport } from './report-scale.js';
import { toFigures } from './to-figures.js';
import { warnOfRelief } from './warn-of-relief.js';
import { writeRelief } from './write-relief.js';

/** A line of a piece in relief. */
export interface ReliefLine {
  /** The edge that it lies along, in words. */
  readonly edge: string;
  /** Its top, mm of paper from that of the piece. */
  readonly fromMm: number;
  /** Its foot. */
  readonly toMm: number;
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
  readonly section: { readonly id: string; readonly name: string; readonly source: string } | null;
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
  /** What was done to colours so that they print as on the screen, or null where nothing was asked for. */
  readonly printing: PrintingReport | null;
  /** What lies under relief: a photo, or null where that is a colour. */
  readonly photo: string | null;
  /** That colour, or null. */
  readonly colour: string | null;
  /** Of the photo, or null. */
  readonly measurement: MeasurementReport | null;
}

const reliefExtensions = [
  ...pictureFormats.flatMap(({ extensions }) => extensions),
  '.svg',
  '.pdf',
];

/**
 * Draw pieces of a rolled section, a plate or a girder, straight or bent, lit so that a flat print reads as
 * one, over a photo at a model's scale or over a colour.
 *
 * @param path - Where the photo lies, or null for a colour.
 * @param options - What to draw, and where to write.
 * @returns What was drawn, or why the photo does not allow it.
 * @throws RangeError when an option, or two together, make no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function makeRelief(
  path: string | null,
  options: MakeReliefOptions,
): Promise<Outcome<MadeRelief, SurfaceRefusal>> {
  return reliefFrom(openSurface, path, options);
}

// What reads and measures photos is loaded for those who have one.
const openSurface: TakeSurface = async (path, options) => {
  const { makeSurface, openForSurface } = await import('./make-surface.js');
  return makeSurface(await openForSurface(path), options);
};

/**
 * The same over a surface from elsewhere.
 *
 * @param take - Brings it.
 * @param path - Where its photo lies, or null for a colour.
 * @param options - As for {@link makeRelief}.
 * @returns Likewise.
 * @throws RangeError when an option, or two together, make no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function reliefFrom(
  take: TakeSurface,
  path: string | null,
  options: MakeReliefOptions,
): Promise<Outcome<MadeRelief, SurfaceRefusal>> {
  const { output, quality } = options;
  checkGround(path, options);
  const weather = options.weather === undefined ? null : settleReliefWeather(options.weather);
  checkQuality(output, quality);
  checkReliefPrinting(options.printing, output);
  const along = await openAlong(options);
  const shape = await openShape(options);
  const sheet = planRelief(options, { bend: along?.bend ?? null, shape });
  const drawn = drawRelief(sheet.plan);
  if (along !== null) checkPaper(drawn.size, ['along', 'along'], sheet);
  const inputs = inputsOf(path, options);
  await checkOutput(output, { inputs, extensions: reliefExtensions });
  if (drawn.outline !== null) checkOpacity(output);
  const printing = await openPrinting(options.printing);
  const ground = await openGround(take, path, { ...options, dpi: sheet.dpi, colour: sheet.colour });
  if (!ground.ok) return ground;
  const { measurement } = ground.value;
  const surface = sharpenSurface(ground.value.surface, printing, sheet.dpi);
  const { raster: tile, origin } = surface.made;
  beginStep('writing', options);
  const told = weather && { ledges: edgeLedges(drawn), ...weather };
  const wall = told && (await weathered(surface, sheet, { ...options, weather: told }));
  const { finishes } = printColours({ tile, isCovered: true }, printing);
  const written = await writeRelief({ tile, origin, wall, finishes }, drawn, {
    sheet,
    output,
    quality,
    inputs,
  });
  const value: MadeRelief = {
    output,
    ...written.size,
    dpi: sheet.dpi,
    scale: reportScale(options.scale),
    ...reportPiece(sheet, drawn, options),
    along: reportAlong(options, along, drawn),
    weather: weather && reportWeather(weather, weather.seed),
    printing: reportPrinting(printing),
    photo: path,
    colour: path === null ? sheet.colour : null,
    measurement,
  };
  const warnings = [...ground.warnings, ...warnOfRelief(sheet, tile, path), ...written.warnings];
  return { ok: true, value, warnings };
}

function inputsOf(
  path: string | null,
  { along, outline, printing }: MakeReliefOptions,
): readonly string[] {
  const told = [path, along?.path ?? null, outline?.path ?? null].filter((input) => input !== null);
  return [...told, ...printingFiles(printing)];
}

// What reads drawings is loaded for those who have one.
async function openAlong({
  along,
  dpi = toDpi(600),
}: MakeReliefOptions): Promise<ReadAlong | null> {
  if (along === undefined) return null;
  const { readAlong } = await import('./read-along.js');
  return readAlong(along, dpi);
}

async function openShape({
  outline,
  dpi = toDpi(600),
}: MakeReliefOptions): Promise<DrawnShape | null> {
  if (outline === undefined) return null;
  const { readOutline } = await import('./read-outline.js');
  const { shape, size } = await readOutline(outline, dpi);
  const { x0, y0 } = boxOfLoops(shape.loops);
  const loops = shape.loops.map((loop) => loop.map((mm, i) => mm - (i % 2 === 0 ? x0 : y0)));
  return { area: { loops, rule: shape.rule }, size: { x: size.width, y: size.height } };
}

function reportAlong(
  { along }: MakeReliefOptions,
  read: ReadAlong | null,
  { at }: DrawnRelief,
): MadeRelief['along'] {
  if (along === undefined || read === null) return null;
  return { path: along.path, id: read.id, xMm: toFigures(at.x, 6), yMm: toFigures(at.y, 6) };
}

// What a colour needs no word of.
function checkGround(path: string | null, { colour, course, even }: MakeReliefOptions): void {
  if (path !== null && colour !== undefined)
    throw outOfRange('no colour beside a photo', 'colour', colour);
  if (path !== null) return;
  if (course !== undefined) throw outOfRange('a photo of it', 'course', course.name);
  if (even === false) throw outOfRange('a photo whose light to leave', 'even', even);
}

// What weathers is loaded for those who want it.
async function weathered(
  surface: WeatheredSurface,
  { dpi }: ReliefSheet,
  { scale, weather }: MakeReliefOptions & { readonly weather: WeatherOptions },
): Promise<ReliefGround['wall']> {
  const { weatherPart } = await import('./weather-part.js');
  return weatherPart(surface, { dpi, scale, weather, foot: null });
}

interface LitGround {
  readonly surface: WeatheredSurface;
  readonly measurement: MeasurementReport | null;
}

async function openGround(
  take: TakeSurface,
  path: string | null,
  options: MakeReliefOptions & Pick<ReliefSheet, 'dpi' | 'colour'>,
): Promise<Outcome<LitGround, SurfaceRefusal>> {
  const origin = { x: 0, y: 0 };
  if (path === null) {
    const made = { raster: toTile(options.colour), origin };
    const surface = { made, lattice: null, factor: { x: 1, y: 1 } };
    const value = { surface, measurement: null };
    return { ok: true, value, warnings: [] };
  }
  beginStep('reading', options);
  const { scale, dpi, course, even = true, onProgress, signal } = options;
  const made = await take(path, {
    scale,
    dpi,
    even,
    method: 'auto',
    ...(course && { course }),
    ...(onProgress && { onProgress }),
    ...(signal && { signal }),
  });
  if (!made.ok) return made;
  const { photo, measurement, lattice } = made.value;
  const value = {
    surface: made.value,
    measurement: reportMeasurement({ ...measurement, lattice }, photo),
  };
  return { ok: true, value, warnings: made.warnings };
}

// Of one dot weather would lay thousands of copies.
const colourSide = 64;

function toTile(colour: string): Raster {
  const tile = createRaster(colourSide, colourSide);
  tile.planes.forEach((plane, i) => {
    plane.fill(srgbToLinear(parseInt(colour.slice(1 + 2 * i, 3 + 2 * i), 16)));
  });
  return tile;
}

type PieceReport = Pick<
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
>;

function reportPiece(
  { plan, depth, real, copies }: ReliefSheet,
  { lines, flange, rivets, stiffeners }: DrawnRelief,
  { section, length, scale }: MakeReliefOptions,
): PieceReport {
  const { profile, light, strength, covers, splices } = plan;
  return {
    section: section ? { id: section.id, name: section.name, source: section.source } : null,
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
  };
}
