import { join } from 'node:path';
import { parsePaintKey } from '../../drawing/dress/paint-key.js';
import type { Paint } from '../dress/dress-drawing.js';
import { checkDressRelief } from '../dress/dress-relief.js';
import type { DressReliefWish } from '../dress/dress-relief-options.js';
import { checkDressWeather, type DressWeather } from '../dress/dress-weather.js';
import { toDressRelief } from '../dress/parse-dress-relief.js';
import { refuseTwice } from '../dress/refuse-keys.js';
import { isWeatherTold } from '../weather/weather-options.js';
import { BadJob, type JobPath } from './bad-job.js';
import type { DressStep, SurfaceStep } from './build-plan.js';
import { dressFields, dressReliefFields } from './fields/part-fields.js';
import { dressWeatherFields } from './fields/weather-fields.js';
import { findNamed } from './find-named.js';
import { given } from '../given.js';
import { inFolder } from './in-folder.js';
import { fromTop } from './job-context.js';
import { outputOf, type PartContext, placeOf, type PlannedPart, usualDpi } from './part-place.js';
import { planSurfaceStep } from './plan-surface.js';
import { refuseExtension } from './refuse-extension.js';
import { checked, type Entry, takeKeys } from './take-keys.js';
import { takeSlim } from './plan-slim-part.js';
import { takePrinting } from './take-printing.js';

/**
 * Plan a drawing that is dressed.
 *
 * @param name - What it is called.
 * @param entry - As written.
 * @param context - Of the job.
 * @returns What there is to do for it.
 * @throws BadJob where something of it cannot be meant.
 */
export function planDressStep(name: string, entry: Entry, context: PartContext): PlannedPart {
  const path: JobPath = ['parts', name];
  const { scale, folder } = context;
  const taken = takeKeys(dressFields, entry, path);
  const dpi = taken.dpi ?? fromTop('dpi', context) ?? usualDpi;
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
  const relief = takeDressRelief(entry, context, path);
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
      relief,
      weather,
      printing,
      slim: takeSlim(entry, context, path),
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
      set: [...context.taken],
      drawing,
      photos: [...steps.values()].flatMap(({ photo, others }) => [photo, ...others]),
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

// As the light of the top falls on all that is in relief.
function takeDressRelief(
  entry: Entry,
  { top, scale }: PartContext,
  path: JobPath,
): readonly DressReliefWish[] | undefined {
  const written = entry['relief'] as Readonly<Record<string, Entry>> | undefined;
  if (written === undefined) return undefined;
  const { light, strength } = top;
  const wishes = Object.entries(written).map(([text, values]): DressReliefWish => {
    const at = [...path, 'relief', text];
    const relief = toDressRelief(takeKeys(dressReliefFields, values, at));
    const key = paintKey(text, at);
    return { key, relief: { ...given({ light, strength }), ...relief } };
  });
  checked(
    () => {
      checkDressRelief(wishes, scale);
    },
    entry,
    path,
  );
  return wishes;
}

function paintKey(key: string, path: JobPath): Paint['key'] {
  try {
    return parsePaintKey(key, 'paint');
  } catch (cause) {
    const message = cause instanceof Error ? cause.message : String(cause);
    throw new BadJob(path, message, { atKey: true, cause });
  }
}
