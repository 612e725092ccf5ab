import { withLimits } from '../../read/held-limits.js';
import { srgbToLinear } from '../../colour/srgb.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { boxOfLoops } from '../../fill/outline/part-outline.js';
import { refuseUnended } from '../../finish/relief/butt-joints.js';
import { drawRelief } from '../../finish/relief/draw-relief.js';
import type { DrawnRelief } from '../../finish/relief/drawn-relief.js';
import { createRaster, type Raster } from '../../raster/raster.js';
import { dpi as toDpi } from '../../units/units.js';
import { checkOpacity } from '../../write/check-opacity.js';
import { checkOutput } from '../../write/check-output.js';
import { checkQuality } from '../../write/check-quality.js';
import { pictureFormats } from '../../write/formats/index.js';
import type { SurfaceRefusal, TakeSurface } from '../surface/made-surface.js';
import { beginStep } from '../job-options.js';
import type { ReliefGround } from './lay-relief.js';
import {
  openPrinting,
  printColours,
  reportPrinting,
  sharpenSurface,
  isChanging,
} from '../print/open-printing.js';
import { checkPaper, planRelief, type ReliefSheet } from './plan-relief.js';
import type { DrawnShape } from './size-relief.js';
import type { ReadAlong } from './read-along.js';
import { checkReliefPrinting, printingFiles } from '../print/printing-options.js';
import { edgeLedges, settleReliefWeather } from './relief-weather.js';
import type { MakeReliefOptions } from './relief-options.js';
import { type MeasurementReport, reportMeasurement } from '../measure/report-measurement.js';
import { type MadeRelief, reportPiece } from './report-relief.js';
import { meanOfWall } from '../weather/mean-of-wall.js';
import { reportWeather } from '../weather/report-weather.js';
import type { WeatherOptions } from '../weather/weather-options.js';
import type { WeatheredSurface } from '../weather/weather-part.js';
import { reportScale } from '../measure/report-scale.js';
import { warnOfRelief } from './warn-of-relief.js';
import { layerFiles, writeRelief } from './write-relief.js';

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
  return withLimits(options, () => reliefFrom(openSurface, path, options));
}

// What reads and measures photos is loaded for those who have one.
const openSurface: TakeSurface = async (path, options) => {
  const { makeSurface, openForSurface } = await import('../surface/make-surface.js');
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
  refuseUnended(sheet.plan, drawn.joints);
  if (along !== null) checkPaper(drawn.size, ['along', 'along'], sheet);
  const inputs = inputsOf(path, options);
  await checkOutputs(output, drawn, inputs);
  const printing = await openPrinting(options.printing, path === null ? [] : [path]);
  const ground = await openGround(take, path, { ...options, dpi: sheet.dpi, colour: sheet.colour });
  if (!ground.ok) return ground;
  const { measurement } = ground.value;
  const surface = sharpenSurface(ground.value.surface, printing, sheet.dpi);
  const { raster: tile, origin } = surface.made;
  beginStep('writing', options);
  const told = weather && {
    ...weather,
    ledges: [...edgeLedges(drawn, sheet.plan), ...(weather.ledges ?? [])],
  };
  const wall = told && (await weathered(surface, sheet, { ...options, weather: told }));
  const { finishes } = printColours({ tile, isCovered: true }, printing);
  const mean = meanOfWall({ tile, origin, wall });
  const written = await writeRelief({ tile, origin, wall, mean, finishes }, drawn, {
    sheet,
    output,
    quality,
    inputs,
    isPrinted: isChanging(printing),
  });
  const value: MadeRelief = {
    output,
    ...written.size,
    dpi: sheet.dpi,
    scale: reportScale(options.scale),
    ...reportPiece(sheet, drawn, { options, along, files: [output, ...written.layers] }),
    weather: weather && reportWeather(weather, weather.seed),
    printing: reportPrinting(printing),
    photo: path,
    colour: path === null ? sheet.colour : null,
    measurement,
  };
  const warnings = [...ground.warnings, ...warnOfRelief(sheet, mean, path), ...written.warnings];
  return { ok: true, value, warnings };
}

async function checkOutputs(
  output: string,
  { cards, outline }: DrawnRelief,
  inputs: readonly string[],
): Promise<void> {
  const layers = layerFiles(output, cards);
  for (const file of [output, ...layers])
    await checkOutput(file, { inputs, extensions: reliefExtensions });
  if (outline !== null || layers.length > 0) checkOpacity(output);
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
  const { readOutline } = await import('../fill/read-outline.js');
  const { shape, size } = await readOutline(outline, dpi);
  const { x0, y0 } = boxOfLoops(shape.loops);
  const loops = shape.loops.map((loop) => loop.map((mm, i) => mm - (i % 2 === 0 ? x0 : y0)));
  return { area: { loops, rule: shape.rule }, size: { x: size.width, y: size.height } };
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
  const { weatherPart } = await import('../weather/weather-part.js');
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
  const { scale, dpi, course, references, even = true, onProgress, signal } = options;
  const made = await take(path, {
    scale,
    dpi,
    even,
    method: 'auto',
    ...(course && { course }),
    ...(references && { references }),
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
