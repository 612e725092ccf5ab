import { extname, join } from 'node:path';
import { parsePaintKey } from '../../drawing/dress/paint-key.js';
import { dpi as toDpi, printMm } from '../../units/units.js';
import type { Paint } from '../dress-drawing.js';
import { checkDressWeather, type DressWeather } from '../dress-weather.js';
import { checkSvg } from '../check-svg.js';
import { planPart } from '../plan-part.js';
import { refuseTwice } from '../refuse-keys.js';
import { planRelief } from '../plan-relief.js';
import { parseShape } from '../parse-wall.js';
import type { OutlineSource } from '../read-outline.js';
import { settleReliefWeather } from '../relief-weather.js';
import { settleWallRelief } from '../wall-relief.js';
import type { WallRelief } from '../wall-relief-options.js';
import { checkWeather, isWeatherTold, type WeatherOptions } from '../weather-options.js';
import { BadJob, type JobPath } from './bad-job.js';
import type { DressStep, FillStep, ReliefStep, SurfaceStep } from './build-plan.js';
import {
  dressFields,
  fillFields,
  piecesFields,
  reliefFields,
  wallFields,
} from './fields/part-fields.js';
import { dressWeatherFields, weatherFields } from './fields/weather-fields.js';
import { findNamed } from './find-named.js';
import { given } from './given.js';
import { inFolder } from './in-folder.js';
import type { JobContext } from './job-context.js';
import { planSurfaceStep, type TakenSurface } from './plan-surface.js';
import { checked, type Entry, takeKeys } from './take-keys.js';
import { partExtensions, refuseExtension } from './refuse-extension.js';
import { takePrinting } from './take-printing.js';

/** A part's step, and the steps of its surfaces. */
export interface PlannedPart {
  /** The part's own. */
  readonly step: FillStep | ReliefStep | DressStep;
  /** What it needs first. */
  readonly surfaces: readonly SurfaceStep[];
  /** Extra picture past its edges, mm. */
  readonly bleed: number;
}

/** What a part is planned with. */
export interface PartContext extends JobContext {
  /** By name. */
  readonly surfaces: ReadonlyMap<string, TakenSurface>;
}

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
  if (Object.hasOwn(entry, 'relief')) return planReliefStep(name, entry, context);
  if (Object.hasOwn(entry, 'drawing')) return planDressStep(name, entry, context);
  return planFillStep(name, entry, context);
}

const usualDpi = toDpi(600);

interface Place {
  readonly id: string;
  readonly name: string;
  readonly scale: JobContext['scale'];
}

function placeOf(kind: string, name: string, { mark, scale }: JobContext): Place {
  return { id: `${kind}/${mark}${name}`, name, scale };
}

function outputOf(name: string, entry: Entry, context: JobContext, usual: string): string {
  const { file = `${name}.${usual}` } = entry as { readonly file?: string };
  return join(context.output, file);
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
  const dpi = taken.dpi ?? top.dpi ?? usualDpi;
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

// Weather of the top is for walls that say nothing of it.
function takeWeather(
  entry: Entry,
  { data }: PartContext,
  path: JobPath,
): WeatherOptions | undefined {
  const own = entry['weather'] as Entry | undefined;
  const written = own ?? (Object.hasOwn(entry, 'relief') ? undefined : data.weather);
  if (written === undefined) return undefined;
  const at: JobPath = own === undefined ? ['weather'] : [...path, 'weather'];
  const { ledge, fixing, ...others } = takeKeys(weatherFields, written, at);
  const weather: WeatherOptions = {
    ...others,
    ...given({ ledges: ledge?.flat(), fixings: fixing?.flat() }),
  };
  const check = Object.hasOwn(entry, 'relief') ? settleReliefWeather : checkWeather;
  checked(() => check(weather), written, at);
  return isWeatherTold(weather) ? weather : undefined;
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
  const { printing, files } = takePrinting(entry, context, path);
  const options: ReliefStep['options'] = {
    ...given({ printing }),
    ...given({ light: top.light, strength: top.strength }),
    ...takeRelief(entry, context, path),
    output: outputOf(name, entry, context, top.format ?? 'png'),
  };
  refuseBoth(surface, options, path);
  const written = { ...entry, ...(entry['relief'] as Entry) };
  const { along, outline, bleed, dpi } = options;
  const drawn = [along, outline].filter((one) => one !== undefined);
  // One that is drawn is as large as its drawing, which is not read yet.
  if (drawn.length === 0)
    checked(() => planRelief(options, { bend: null, shape: null }), written, [...path, 'relief']);
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
      surface: first?.id ?? null,
      photo: first?.photo ?? null,
      options,
    },
    surfaces,
    bleed: bleed ?? 0,
  };
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
  const { cover, splice, sunk, ...shape } = takeKeys(reliefFields, written, [...path, 'relief']);
  const pieces = takeKeys(piecesFields, entry, path);
  const along = takeDrawn(written['along'], folder);
  const outline = takeDrawn(written['outline'], folder);
  const weather = takeWeather(entry, context, path);
  return {
    ...shape,
    ...pieces,
    ...given({ along, outline, weather, isSunk: sunk, covers: cover, splices: splice }),
    scale,
    dpi: pieces.dpi ?? top.dpi ?? usualDpi,
    bleed: pieces.bleed ?? top.bleed ?? 0,
  };
}

function planDressStep(name: string, entry: Entry, context: PartContext): PlannedPart {
  const path: JobPath = ['parts', name];
  const { top, scale, folder } = context;
  const taken = takeKeys(dressFields, entry, path);
  const dpi = taken.dpi ?? top.dpi ?? usualDpi;
  const steps = new Map<string, SurfaceStep>();
  const paint = Object.entries(entry['paint'] as Readonly<Record<string, string>>).map(
    ([key, called]): Paint => {
      const at = [...path, 'paint', key];
      const surface = findNamed(context.surfaces, called, { path: at, what: 'surface' });
      const step = planSurfaceStep(surface, context, dpi);
      steps.set(step.id, step);
      return { key: paintKey(key, at), surface: step.id };
    },
  );
  const weather = takeDressWeather(entry, context, path);
  const { printing, files } = takePrinting(entry, context, path);
  const { link } = entry as { readonly link?: string };
  const drawing = inFolder(folder, entry['drawing'] as string);
  const options: DressStep['options'] = {
    ...taken,
    scale,
    dpi,
    paint,
    output: outputOf(name, entry, context, 'svg'),
    ...given({
      weather,
      printing,
      link: link === undefined ? undefined : join(context.output, link),
    }),
  };
  refuseExtension(options.output, ['.svg', '.svgz'], path);
  if (link !== undefined && taken.embed === true)
    throw new BadJob([...path, 'embed'], 'expected link or embed, got both');
  checked(
    () => {
      refuseTwice(paint.map(({ key }) => key));
    },
    entry,
    path,
  );
  return {
    step: {
      ...placeOf('dress', name, context),
      kind: 'dress',
      needs: [...steps.keys()],
      inputs: [drawing, ...files],
      drawing,
      options,
    },
    surfaces: [...steps.values()],
    bleed: 0,
  };
}

// Weather of the top has lines of its own, and a drawing has others: what else it says holds here too.
function takeDressWeather(
  entry: Entry,
  { data }: PartContext,
  path: JobPath,
): DressWeather | undefined {
  const own = entry['weather'] as Entry | undefined;
  const at: JobPath = own === undefined ? ['weather'] : [...path, 'weather'];
  const written = own ?? data.weather;
  if (written === undefined) return undefined;
  const weather = takeKeys(dressWeatherFields, written, at);
  checked(() => checkDressWeather(weather), written, at);
  return isWeatherTold(checkDressWeather(weather)) ? weather : undefined;
}

function paintKey(key: string, path: JobPath): Paint['key'] {
  try {
    return parsePaintKey(key, 'paint');
  } catch (cause) {
    const message = cause instanceof Error ? cause.message : String(cause);
    throw new BadJob(path, message, { atKey: true, cause });
  }
}
