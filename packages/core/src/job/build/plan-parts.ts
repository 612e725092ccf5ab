import { extname } from 'node:path';
import { nameCards } from '../../finish/relief/cut-cards.js';
import { printMm } from '../../units/units.js';
import { checkSvg } from '../fill/check-svg.js';
import { planPart } from '../fill/plan-part.js';
import { planRelief } from '../relief/plan-relief.js';
import { parseShape } from '../fill/parse-wall.js';
import type { OutlineSource } from '../fill/read-outline.js';
import { settleReliefWeather } from '../relief/relief-weather.js';
import { settleWallRelief } from '../fill/wall-relief.js';
import type { WallRelief } from '../fill/wall-relief-options.js';
import { checkWeather, isWeatherTold, type WeatherOptions } from '../weather/weather-options.js';
import { layerFiles } from '../relief/write-relief.js';
import { anyDrawn } from './any-drawn.js';
import { BadJob, type JobPath } from './bad-job.js';
import type { FillStep, ReliefStep } from './build-plan.js';
import { fillFields, piecesFields, reliefFields, wallFields } from './fields/part-fields.js';
import { weatherFields } from './fields/weather-fields.js';
import { findNamed } from './find-named.js';
import { given } from '../given.js';
import { inFolder } from './in-folder.js';
import { fromTop } from './job-context.js';
import { outputOf, type PartContext, placeOf, type PlannedPart, usualDpi } from './part-place.js';
import { planDressStep } from './plan-dress-part.js';
import { planSlimStep } from './plan-slim-part.js';
import { planSurfaceStep, type TakenSurface } from './plan-surface.js';
import { checked, type Entry, takeKeys } from './take-keys.js';
import { partExtensions, refuseExtension } from './refuse-extension.js';
import { takePrinting } from './take-printing.js';

/**
 * Plan a part.
 *
 * @param name - What it is called.
 * @param entry - As written.
 * @param context - Of the job.
 * @returns What there is to do for it.
 * @throws BadJob where something of it cannot be meant.
 */
export function planPartStep(name: string, entry: Entry, context: PartContext): PlannedPart {
  if (Object.hasOwn(entry, 'drawing')) {
    const isDressed = Object.hasOwn(entry, 'paint');
    return (isDressed ? planDressStep : planSlimStep)(name, entry, context);
  }
  if (Object.hasOwn(entry, 'relief')) return planReliefStep(name, entry, context);
  return planFillStep(name, entry, context);
}

function planFillStep(name: string, entry: Entry, context: PartContext): PlannedPart {
  const path: JobPath = ['parts', name];
  const { top, scale, folder } = context;
  const taken = takeKeys(fillFields, entry, path);
  const surface = surfaceOf(entry, context, path);
  const weather = takeWeather(entry, context, path);
  const outline = takeDrawn(entry['outline'], folder);
  const { printing, files } = takePrinting(entry, context, path);
  const bleed = taken.bleed ?? top.bleed ?? 0;
  const dpi = taken.dpi ?? fromTop('dpi', context) ?? usualDpi;
  const options: FillStep['options'] = {
    ...taken,
    scale,
    dpi,
    bleed,
    output: outputOf(name, entry, context, top.format ?? 'png'),
    ...given({ outline, weather, printing, relief: takeWallRelief(entry, context, path) }),
  };
  // Of a part whose drawing is not read yet.
  const anySize = { width: printMm(50), height: printMm(50) };
  checked(() => planPart(options, outline && anySize), entry, path);
  checked(() => settleWallRelief(options), entry, path);
  checked(
    () => {
      checkSvg(options);
    },
    entry,
    path,
  );
  refuseExtension(options.output, partExtensions, path);
  refuseQuality(options, entry, path);
  const first = planSurfaceStep(surface, context, dpi);
  return {
    step: {
      ...placeOf('fill', name, context),
      kind: 'fill',
      needs: [first.id],
      inputs: [...(outline === undefined ? [] : [outline.path]), ...files],
      set: [...context.taken],
      surface: first.id,
      photo: first.photo,
      options,
    },
    surfaces: [first],
    bleed,
  };
}

function surfaceOf(entry: Entry, { surfaces }: PartContext, path: JobPath): TakenSurface {
  const wish = { path: [...path, 'surface'], what: 'surface' };
  return findNamed(surfaces, entry['surface'] as string, wish);
}

function takeDrawn(written: unknown, folder: string): OutlineSource | undefined {
  if (typeof written !== 'string') return undefined;
  const { path, ...named } = parseShape(written);
  return { path: inFolder(folder, path), ...named };
}

// Light alone lights nothing: that of the top is for what stands out.
function takeWallRelief(entry: Entry, { top }: PartContext, path: JobPath): WallRelief | undefined {
  const { stringCourse, openings, ...others } = takeKeys(wallFields, entry, path);
  if (!stringCourse && !openings && Object.keys(others).length === 0) return undefined;
  const { light, strength } = top;
  const relief = { ...given({ light, strength }), ...others };
  return { ...relief, ...given({ stringCourses: stringCourse, isOpeningsLit: openings }) };
}

// Weather of the top is for walls that say nothing of it, and is checked whoever takes it.
function takeWeather(
  entry: Entry,
  { data }: PartContext,
  path: JobPath,
): WeatherOptions | undefined {
  const own = entry['weather'] as Entry | undefined;
  const written = own ?? data.weather;
  if (written === undefined) return undefined;
  const at: JobPath = own === undefined ? ['weather'] : [...path, 'weather'];
  const { ledge, fixing, ...others } = takeKeys(weatherFields, written, at);
  const weather: WeatherOptions = {
    ...others,
    ...given({ ledges: ledge?.flat(), fixings: fixing?.flat() }),
  };
  const isRelief = Object.hasOwn(entry, 'relief');
  const check = isRelief && own !== undefined ? settleReliefWeather : checkWeather;
  checked(() => check(weather), written, at);
  const isTaken = !isRelief || own !== undefined;
  return isTaken && isWeatherTold(weather) ? weather : undefined;
}

function refuseQuality(
  { quality, output }: { readonly quality?: number; readonly output: string },
  entry: Entry,
  path: JobPath,
): void {
  if (quality === undefined || /\.jpe?g$/i.test(output)) return;
  const at = Object.hasOwn(entry, 'quality') ? [...path, 'quality'] : path;
  throw new BadJob(at, `expected a file of .jpg for quality, got ${extname(output)}`);
}

function planReliefStep(name: string, entry: Entry, context: PartContext): PlannedPart {
  const path: JobPath = ['parts', name];
  const { top } = context;
  const surface = Object.hasOwn(entry, 'surface') ? surfaceOf(entry, context, path) : null;
  const output = outputOf(name, entry, context, top.format ?? 'png');
  const { printing, files } = takePrinting(entry, forRelief(context, output), path);
  const options: ReliefStep['options'] = {
    ...given({ printing }),
    ...given({ light: top.light, strength: top.strength }),
    ...takeRelief(entry, context, path),
    output,
  };
  refuseBoth(surface, options, path);
  const written = { ...entry, ...(entry['relief'] as Entry) };
  const { along, outline, bleed, dpi } = options;
  const drawn = [along, outline].filter((one) => one !== undefined);
  const { plan } = checked(() => planRelief(options, anyDrawn(options)), written, [
    ...path,
    'relief',
  ]);
  refuseQuality(options, entry, path);
  refuseExtension(options.output, partExtensions, path);
  const surfaces = surface === null ? [] : [planSurfaceStep(surface, context, dpi ?? usualDpi)];
  const [first] = surfaces;
  return {
    step: {
      ...placeOf('relief', name, context),
      kind: 'relief',
      needs: surfaces.map(({ id }) => id),
      inputs: [...drawn.map((one) => one.path), ...files],
      set: [...context.taken],
      surface: first?.id ?? null,
      photo: first?.photo ?? null,
      layers: layerFiles(options.output, nameCards(plan)),
      options,
    },
    surfaces,
    bleed: bleed ?? 0,
  };
}

// Relief of a drawing is blended by whoever shows it: what is only usual is left out there.
function forRelief(context: PartContext, output: string): PartContext {
  if (!output.toLowerCase().endsWith('.svg')) return context;
  const { usual } = context;
  const sharpen = usual.printing?.sharpen;
  const printing = sharpen === undefined ? undefined : { sharpen };
  return { ...context, usual: { ...usual, printing } };
}

function refuseBoth(
  surface: TakenSurface | null,
  { colour }: ReliefStep['options'],
  path: JobPath,
): void {
  if (surface === null || colour === undefined) return;
  throw new BadJob([...path, 'colour'], 'expected no colour beside a surface, got both');
}

function takeRelief(
  entry: Entry,
  context: PartContext,
  path: JobPath,
): Omit<ReliefStep['options'], 'output'> {
  const { top, scale, folder } = context;
  const written = entry['relief'] as Entry;
  const { cover, splice, sunk, upright, layers, ...shape } = takeKeys(reliefFields, written, [
    ...path,
    'relief',
  ]);
  const pieces = takeKeys(piecesFields, entry, path);
  const along = takeDrawn(written['along'], folder);
  const outline = takeDrawn(written['outline'], folder);
  const weather = takeWeather(entry, context, path);
  return {
    ...shape,
    ...pieces,
    ...given({
      along,
      outline,
      weather,
      isSunk: sunk,
      isUpright: upright,
      isLayered: layers,
      covers: cover,
      splices: splice,
    }),
    scale,
    dpi: pieces.dpi ?? fromTop('dpi', context) ?? usualDpi,
    bleed: pieces.bleed ?? top.bleed ?? 0,
  };
}
