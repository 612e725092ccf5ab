import { extname, join } from 'node:path';
import { checkSheetOptions } from '../../sheet/sheet-options.js';
import { BadJob, type JobPath } from './bad-job.js';
import { filesOf, type SheetStep } from './build-plan.js';
import { sheetFields, type SheetValues } from './fields/sheet-fields.js';
import { findNamed } from './find-named.js';
import { given } from '../given.js';
import { fromTop, type JobContext } from './job-context.js';
import type { PlannedPart } from './part-place.js';
import { refuseExtension, sheetExtensions } from './refuse-extension.js';
import { checked, type Entry, takeKeys } from './take-keys.js';

/**
 * Plan pages of parts.
 *
 * @param name - What they are called.
 * @param entry - As written.
 * @param context - Of the job.
 * @param parts - Its parts, by name.
 * @returns What there is to do.
 * @throws BadJob where something of it cannot be meant.
 */
export function planSheetStep(
  name: string,
  entry: Entry,
  context: JobContext,
  parts: ReadonlyMap<string, PlannedPart>,
): SheetStep {
  const path: JobPath = ['sheets', name];
  const { scale, mark } = context;
  const taken = takeKeys(sheetFields, entry, path);
  const named = (entry['parts'] as readonly string[]).map((called, i) => {
    const at = [...path, 'parts', i];
    const part = findNamed(parts, called, { path: at, what: 'part' });
    refusePage(called, part, at);
    return part;
  });
  const { file = `${name}.pdf` } = entry as { readonly file?: string };
  // Every layer of a part has the bleed of it.
  const files = named.flatMap(({ step, bleed }) => filesOf(step).map((path) => ({ path, bleed })));
  const bleeds = files.map(({ bleed }) => bleed);
  const output = join(context.output, file);
  const options: SheetStep['options'] = {
    ...fromAbove(taken, context, output),
    ...taken,
    bleed: bleeds,
    output,
  };
  refuseExtension(options.output, sheetExtensions, path);
  const check = (): void => {
    checkSheetOptions({ ...options, bleeds });
  };
  checked(check, entry, path);
  return {
    kind: 'sheet',
    id: `sheet/${mark}${name}`,
    name,
    scale,
    needs: [...new Set(named.map(({ step }) => step.id))],
    inputs: [],
    set: [...context.taken],
    parts: files.map((one) => one.path),
    options,
  };
}

const ofPages = ['paper', 'margin', 'printerX', 'printerY'] as const;

// Parts say their own dots, so those of a .pdf are none of the user's.
function fromAbove(
  taken: Partial<SheetValues>,
  context: JobContext,
  output: string,
): Partial<SheetValues> {
  const isPdf = extname(output).toLowerCase() === '.pdf';
  const dpi = isPdf ? context.top.dpi : (taken.dpi ?? fromTop('dpi', context));
  const others = ofPages
    .filter((name) => taken[name] === undefined)
    .map((name) => [name, fromTop(name, context)] as const);
  return given({ dpi, ...(Object.fromEntries(others) as Partial<SheetValues>) });
}

function refusePage(called: string, { step }: PlannedPart, path: JobPath): void {
  if (extname(step.options.output).toLowerCase() !== '.pdf') return;
  throw new BadJob(path, `${called} is a page of its own (.pdf), and cannot lie on another`, {
    hint: 'let it be a .png or, for drawings, an .svg',
  });
}
