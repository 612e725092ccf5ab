import { join } from 'node:path';
import type { SlimFirst } from '../dress/dress-drawing.js';
import { BadJob, type JobPath } from './bad-job.js';
import type { SlimStep } from './build-plan.js';
import { dressFields, slimFields } from './fields/part-fields.js';
import { given } from '../given.js';
import { inFolder } from './in-folder.js';
import { fromTop, type JobContext } from './job-context.js';
import { outputOf, type PartContext, placeOf, type PlannedPart, usualDpi } from './part-place.js';
import { refuseExtension } from './refuse-extension.js';
import { type Entry, takeKeys } from './take-keys.js';

/**
 * Plan a drawing that is made smaller, and nothing else.
 *
 * @param name - What it is called.
 * @param entry - As written.
 * @param context - Of the job.
 * @returns What there is to do for it.
 * @throws BadJob where something of it cannot be meant.
 */
export function planSlimStep(name: string, entry: Entry, context: PartContext): PlannedPart {
  const path: JobPath = ['parts', name];
  const slim = takeSlim(entry, context, path);
  if (slim === undefined)
    throw new BadJob([...path, 'slim'], 'expected paint beside slim: false, got neither');
  const { dpi, embed } = takeKeys(dressFields, entry, path);
  const { link } = entry as { readonly link?: string };
  if (link !== undefined && embed === true)
    throw new BadJob([...path, 'embed'], 'expected link or embed, got both');
  const drawing = inFolder(context.folder, entry['drawing'] as string);
  const options: SlimStep['options'] = {
    ...slim,
    dpi: dpi ?? fromTop('dpi', context) ?? usualDpi,
    output: outputOf(name, entry, context, 'svg'),
    ...given({ embed, link: link === undefined ? undefined : join(context.output, link) }),
  };
  refuseExtension(options.output, ['.svg', '.svgz'], path);
  return {
    step: {
      ...placeOf('slim', name, context),
      kind: 'slim',
      needs: [],
      inputs: [drawing],
      set: [...context.taken],
      drawing,
      options,
    },
    surfaces: [],
    bleed: 0,
  };
}

/**
 * Take how pictures that a drawing holds are made smaller.
 *
 * @param entry - Of the part.
 * @param context - Of the job.
 * @param path - Where the part stands.
 * @returns How, or undefined where they are left.
 * @throws BadJob where something of it cannot be meant.
 */
export function takeSlim(entry: Entry, context: JobContext, path: JobPath): SlimFirst | undefined {
  const written = entry['slim'];
  if (written === undefined || written === false) return undefined;
  if (written === true) return {};
  const told = written as Entry;
  const { find } = told as { readonly find?: string };
  return {
    ...takeKeys(slimFields, told, [...path, 'slim']),
    ...given({ find: find === undefined ? undefined : inFolder(context.folder, find) }),
  };
}
