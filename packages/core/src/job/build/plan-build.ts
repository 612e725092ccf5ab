import { dirname, join } from 'node:path';
import { findScale, type NamedScale } from '../../catalogue/find-scale.js';
import { nearNames } from '../../catalogue/near-names.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { linkedFiles } from '../slim/move-links.js';
import { openDrawing } from '../open/open-drawing.js';
import { takeSettings } from '../settings/take-settings.js';
import { noSettings, type ToldSetting, type Settings } from '../settings/settings.js';
import { isRegionMeant } from '../settings/settings-used.js';
import { sidecarPath } from '../../surface/sidecar-path.js';
import { BadJob } from './bad-job.js';
import { type BuildPlan, type BuildStep, filesOf, isDrawn } from './build-plan.js';
import { checkFiles } from './check-files.js';
import { checkFolders } from './check-folders.js';
import { checkProfile } from './check-profile.js';
import { inFolder } from './in-folder.js';
import type { JobContext } from './job-context.js';
import { given } from '../given.js';
import { topFields } from './job-schema.js';
import type { PlannedPart } from './part-place.js';
import { planPartStep } from './plan-parts.js';
import { planSheetStep } from './plan-sheet.js';
import { otherPhotos, takeSurface, type TakenSurface } from './plan-surface.js';
import type { JobFile } from './read-job.js';
import { type Entry, takeKeys } from './take-keys.js';

/** How much of a job is meant. */
export interface PlanBuildOptions {
  /** Parts and sheets, by name; all of them unless told. */
  readonly only?: readonly string[];
  /** Whether paths may lead out of the job's folder; they may not unless told. */
  readonly anywhere?: boolean;
  /** What holds where the job says nothing; nothing unless told. */
  readonly settings?: Settings;
}

/**
 * Work out what there is to do for a job, before anything of it is done.
 *
 * @param job - As read.
 * @param options - How much of it.
 * @returns Every step, each after what it needs.
 * @throws TextureError `bad-job` where something of it makes no sense.
 */
export async function planBuild(job: JobFile, options: PlanBuildOptions = {}): Promise<BuildPlan> {
  const faults: BadJob[] = [];
  const folder = dirname(job.path);
  const { settings = noSettings } = options;
  const usual = takeSettings(settings);
  const top = attempt(faults, () => takeKeys(topFields, job.data, [])) ?? {};
  const taken = new Set<ToldSetting>();
  const written = top.output ?? 'out';
  const anywhere = options.anywhere === true;
  faults.push(...checkFolders(job, { folder, output: written, anywhere }));
  const output = inFolder(folder, written);
  const scales = takeScales(job, { top, usual, faults, taken });
  const planned =
    faults.length > 0
      ? []
      : scales.flatMap((scale) => {
          const mark = scales.length === 1 ? '' : `${folderOf(scale)}/`;
          const out = join(output, mark);
          const { data } = job;
          return planScale({ data, usual, top, folder, output: out, scale, mark, faults, taken });
        });
  if (faults.length > 0) throw job.explain(faults);
  const all = await withLinked(once(planned));
  const photos = photosOf(job, folder);
  const files = [job.path, ...photos, ...all.flatMap(touchedBy)];
  const plan = { path: job.path, folder, output, steps: all, set: taken, files };
  // Of all of them: what is not asked for now is not to be written over either.
  const wrong = await checkFiles(plan, { anywhere, photos });
  if (wrong.length > 0) throw job.explain(wrong);
  await checkProfile(all, settings);
  const steps = options.only === undefined ? all : keepOnly(all, options.only);
  return { ...plan, steps, set: new Set([...taken, ...steps.flatMap(({ set }) => set)]) };
}

function touchedBy(step: BuildStep): readonly string[] {
  return step.kind === 'surface' ? step.inputs : [...step.inputs, ...filesOf(step)];
}

function photosOf({ data }: JobFile, folder: string): readonly string[] {
  return Object.values(data.surfaces ?? {})
    .flatMap((entry) => [String(entry['photo']), ...otherPhotos(entry)])
    .map((photo) => inFolder(folder, photo))
    .flatMap((path) => [path, sidecarPath(path)]);
}

// What is wrong with one entry does not keep the others from being looked at.
function attempt<Value>(faults: BadJob[], work: () => Value): Value | null {
  try {
    return work();
  } catch (cause) {
    if (!(cause instanceof BadJob)) throw cause;
    faults.push(cause);
    return null;
  }
}

type Told = Pick<JobContext, 'top' | 'usual' | 'taken'>;

function takeScales(
  { data }: JobFile,
  { faults, ...told }: Told & { readonly faults: BadJob[] },
): NamedScale[] {
  const { scale } = data;
  const many = Array.isArray(scale);
  const scales = [scale]
    .flat()
    .map((written, i) =>
      attempt(faults, () => toScale(written, told, many ? ['scale', i] : ['scale'])),
    );
  const known = scales.filter((one) => one !== null);
  const folders = known.map(folderOf);
  const twice = folders.findIndex((one, i) => folders.indexOf(one) !== i);
  if (twice > 0)
    faults.push(new BadJob(['scale', twice], `${folders[twice] ?? ''} is given twice`));
  return known;
}

function toScale(
  written: unknown,
  { top: { region }, usual, taken }: Told,
  path: readonly (string | number)[],
): NamedScale {
  const text = String(written);
  try {
    const usualRegion = usual.region;
    const scale = findScale(text, given({ region, usualRegion }));
    if (region === undefined && isRegionMeant(text, usualRegion)) taken.add('region');
    return scale;
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    const hint = 'gaugerod reference scale lists the names';
    throw new BadJob(path, cause.message, { cause, hint });
  }
}

function folderOf({ name, ratio }: NamedScale): string {
  return (name ?? `1-${ratio}`).replace(/[^\p{L}\p{N}.+-]+/gu, '-');
}

// Stops where something is wrong: what rests on it would be told of as well.
function planScale(context: JobContext): readonly BuildStep[] {
  const { data, faults } = context;
  const surfaces = new Map<string, TakenSurface>();
  for (const [name, entry] of Object.entries(data.surfaces ?? {})) {
    const taken = attempt(faults, () => takeSurface(name, entry, context));
    if (taken !== null) surfaces.set(name, taken);
  }
  if (faults.length > 0) return [];
  const parts = new Map<string, PlannedPart>();
  for (const [name, entry] of Object.entries(data.parts)) {
    const planned = attempt(faults, () => {
      const own = { ...context, taken: new Set<ToldSetting>() };
      const scale = ownScale(own, name, entry);
      return planPartStep(name, entry, { ...own, scale, surfaces });
    });
    if (planned !== null) parts.set(name, planned);
  }
  if (faults.length > 0) return [];
  const sheets = Object.entries(data.sheets ?? {}).map(([name, entry]) =>
    attempt(faults, () =>
      planSheetStep(name, entry, { ...context, taken: new Set<ToldSetting>() }, parts),
    ),
  );
  const all = [...parts.values()];
  return [
    ...all.flatMap((part) => part.surfaces),
    ...all.map(({ step }) => step),
    ...sheets.filter((sheet) => sheet !== null),
  ];
}

function ownScale(context: JobContext, name: string, entry: Entry): NamedScale {
  if (!Object.hasOwn(entry, 'scale')) return context.scale;
  return toScale(entry['scale'], context, ['parts', name, 'scale']);
}

// What a drawing shows of other files is read by whoever lays or looks at what is made of it.
async function withLinked(steps: readonly BuildStep[]): Promise<readonly BuildStep[]> {
  return Promise.all(
    steps.map(async (step) => {
      if (!isDrawn(step)) return step;
      // What is wrong with the drawing is told where it is dressed.
      const opened = await openDrawing(step.drawing).catch(() => null);
      if (opened === null) return step;
      const search = step.kind === 'slim' ? step.options : step.options.slim;
      // Nor is a folder that is not there.
      const linked = await linkedFiles(step.drawing, opened.drawing, search).catch(() => []);
      return { ...step, inputs: [...new Set([...step.inputs, ...linked])] };
    }),
  );
}

// A surface that several parts share is made once.
function once(steps: readonly BuildStep[]): readonly BuildStep[] {
  return [...new Map(steps.map((step) => [step.id, step])).values()];
}

function keepOnly(steps: readonly BuildStep[], only: readonly string[]): readonly BuildStep[] {
  const named = new Map(
    steps.filter(({ kind }) => kind !== 'surface').map((step) => [step.name, step]),
  );
  const missing = only.find((name) => !named.has(name));
  if (missing !== undefined) {
    const near = nearNames(missing, named.keys());
    const choices = near.length > 0 ? near : [...named.keys()].slice(0, 12);
    throw outOfRange(`one of ${choices.join(', ')}`, 'only', missing);
  }
  const byId = new Map(steps.map((step) => [step.id, step]));
  const wanted = new Set<string>();
  const take = (step: BuildStep): void => {
    if (wanted.has(step.id)) return;
    for (const id of step.needs) {
      const needed = byId.get(id);
      if (needed !== undefined) take(needed);
    }
    wanted.add(step.id);
  };
  for (const step of steps) {
    if (step.kind !== 'surface' && only.includes(step.name)) take(step);
  }
  return steps.filter(({ id }) => wanted.has(id));
}
