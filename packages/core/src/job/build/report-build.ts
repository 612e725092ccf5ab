import { basename, dirname, parse, relative, resolve } from 'node:path';
import { type Notes, readNotes } from '../../read/read-notes.js';
import { readOwnCredit } from '../../read/read-own-credit.js';
import type {
  ReportPart,
  ReportPlace,
  ReportSheet,
  ReportStep,
  ReportSurface,
  ReportTerms,
  ReportTiling,
} from '../../report/report-content.js';
import { renderReport } from '../../report/render-report.js';
import { type KeepFolder, makeFolders } from '../../write/keep-folder.js';
import { checkReportOutput, writeReport } from '../../write/write-report.js';
import {
  type BuildPlan,
  type BuildStep,
  filesOf,
  isDrawn,
  type SheetStep,
  type SurfaceStep,
} from './build-plan.js';
import type { BuiltStep } from './build-report.js';
import { isInside } from './check-folders.js';
import { refuseChanged } from './refuse-changed.js';
import type { RanSteps, RunStepsOptions } from './run-steps.js';
import { programVersion } from './step-key.js';
import type { StepRecord } from './step-record.js';
import { takeKept } from './take-kept.js';
import { noView, openViews, type TakenView, type Views } from './report-views.js';

type PartStep = Exclude<BuildStep, SurfaceStep | SheetStep>;

/** What a report is made with. */
export interface ReportBuildOptions extends RunStepsOptions {
  /** Where it is to lie. */
  readonly report: string;
  /** Whether some of the job alone was asked for. */
  readonly isSome: boolean;
}

/**
 * Refuse a place for a report before the work that leads to it.
 *
 * @param plan - The job, of which nothing is written over.
 * @param report - Where it is to lie: a folder of outputs is made.
 * @throws TextureError when the place does not allow it.
 */
export async function checkReport(plan: BuildPlan, report: string): Promise<void> {
  const folder = dirname(report);
  if (isInside(resolve(plan.output), resolve(folder))) await makeFolders(folder);
  await checkReportOutput(report, plan.files);
}

/**
 * Write the page that shows what a job came to.
 *
 * @param plan - The job.
 * @param ran - What became of it.
 * @param options - Where to, and what draws pictures.
 * @throws TextureError when the place does not allow it.
 */
export async function reportBuild(
  plan: BuildPlan,
  ran: RanSteps,
  options: ReportBuildOptions,
): Promise<void> {
  const { report, onBuild } = options;
  const name = basename(report);
  onBuild?.({ name, kind: 'report', scale: null, step: 'drawing' });
  const views = openViews(plan, { ...options, surfaces: ran.surfaces });
  const steps = new Map(ran.results.map((built, i) => [printSteps(plan)[i]?.id, built]));
  const of = { plan, ran, views, steps };
  const partSteps = plan.steps.filter(isPart);
  const [surfaces, parts, terms] = await Promise.all([
    Promise.all(groupSurfaces(plan).map((group) => tellSurface(group, of))),
    Promise.all(partSteps.map((step) => tellPart(step, of))),
    tellTerms(plan, options),
  ]);
  const text = renderReport({
    job: basename(plan.path),
    program: `gaugerod ${programVersion()}`,
    isSome: options.isSome,
    surfaces,
    parts,
    sheets: plan.steps.filter(isSheet).map((step) => tellSheet(step, partSteps, of)),
    failures: ran.failures.map(({ message, hint = null, lost }) => ({ message, hint, lost })),
    warnings: ran.warnings,
    terms,
  });
  options.signal?.throwIfAborted();
  const written = ran.results.flatMap(({ files }) => files);
  await writeReport(report, text, [...plan.files, ...written]);
  onBuild?.({ name, kind: 'report', scale: null, step: 'done' });
}

interface Of {
  readonly plan: BuildPlan;
  readonly ran: RanSteps;
  readonly views: Views;
  readonly steps: ReadonlyMap<string | undefined, BuiltStep>;
}

function isPart(step: BuildStep): step is PartStep {
  return step.kind !== 'surface' && step.kind !== 'sheet';
}

function isSheet(step: BuildStep): step is SheetStep {
  return step.kind === 'sheet';
}

function isSurface(step: BuildStep): step is SurfaceStep {
  return step.kind === 'surface';
}

function printSteps({ steps }: BuildPlan): readonly BuildStep[] {
  return steps.filter(({ kind }) => kind !== 'surface');
}

// A photo is measured alike for all scales.
function groupSurfaces({
  steps,
}: BuildPlan): readonly (readonly [SurfaceStep, ...SurfaceStep[]])[] {
  const groups = new Map<string, [SurfaceStep, ...SurfaceStep[]]>();
  for (const step of steps.filter(isSurface)) {
    const group = groups.get(step.name);
    if (group === undefined) groups.set(step.name, [step]);
    else group.push(step);
  }
  return [...groups.values()];
}

// Once each, though a job of two scales has two parts of a name.
function usersOf(plan: BuildPlan, ids: readonly string[]): readonly string[] {
  const users = plan.steps
    .filter(isPart)
    .filter(({ needs }) => needs.some((id) => ids.includes(id)));
  return [...new Set(users.map(({ name }) => name))];
}

async function tellSurface(
  group: readonly [SurfaceStep, ...SurfaceStep[]],
  { plan, views }: Of,
): Promise<ReportSurface> {
  const [{ name, photo, others }] = group;
  const [{ view, found }, ...tilings] = await Promise.all([
    views.found(group[0]),
    ...group.map(async (step): Promise<ReportTiling> => {
      const { scale, options } = step;
      const { view: tiled, size } = await views.tiled(step);
      return { scale, dpi: options.dpi, repeat: size, view: tiled };
    }),
  ]);
  return {
    name,
    photo: relative(plan.folder, photo),
    joined: others.map((path) => relative(plan.folder, path)),
    view,
    found,
    tilings,
    usedBy: usersOf(
      plan,
      group.map(({ id }) => id),
    ),
  };
}

function tellStep(step: BuildStep, { plan, steps }: Of): ReportStep {
  const { name, scale } = step;
  const built = steps.get(step.id);
  const state = built?.state === 'built' || built?.state === 'kept' ? built.state : 'failed';
  return {
    name,
    scale,
    state,
    why: state === 'failed' ? (built?.why ?? null) : null,
    files: (built?.files ?? []).map((file) => relative(plan.folder, file)),
  };
}

async function tellPart(step: PartStep, of: Of): Promise<ReportPart> {
  const { plan, ran, views } = of;
  const record = ran.records.get(step.id);
  const [whole, ...layers] = await showFiles(step, record, views);
  const bleed = isDrawn(step) ? 0 : (step.options.bleed ?? 0);
  const named = new Map(plan.steps.map(({ id, name }) => [id, name]));
  const surfaces = [...new Set(step.needs.map((id) => named.get(id) ?? id))];
  return {
    ...tellStep(step, of),
    kind: step.kind,
    surfaces,
    size: whole.size ?? sizeOf(record),
    bleed,
    isForPrinter: step.kind !== 'slim' && step.options.printing !== undefined,
    views: [whole.view, ...layers.map(({ view }) => view)],
  };
}

// Of the whole, and of its layers of card; what others have beside them is a part of their own picture.
async function showFiles(
  step: PartStep,
  record: StepRecord | undefined,
  views: Views,
): Promise<readonly [TakenView, ...TakenView[]]> {
  if (record === undefined) return [noView('it was not made')];
  const layers = step.kind === 'relief' ? record.files.slice(1) : [];
  return Promise.all([
    views.shown(record, record.files[0]),
    ...layers.map((file) => views.shown(record, file)),
  ]);
}

function sizeOf(record: StepRecord | undefined): ReportPart['size'] {
  const { widthMm = null, heightMm = null } = record?.report ?? {};
  return widthMm === null || heightMm === null ? null : { width: widthMm, height: heightMm };
}

function tellSheet(step: SheetStep, parts: readonly PartStep[], of: Of): ReportSheet {
  const record = of.ran.records.get(step.id);
  const { pages = [] } = record ?? {};
  const paper = sizeOf(record);
  const { printerX = 100, printerY = 100 } = step.options;
  const room = paper && {
    width: (paper.width * printerX) / 100,
    height: (paper.height * printerY) / 100,
  };
  const places = step.parts.map((file) => placeOf(file, parts));
  return {
    ...tellStep(step, of),
    paper,
    room,
    pages,
    parts: places,
    // A layer of card by its file.
    names: places.map((place, i) =>
      place?.file === 0 ? (parts[place.part]?.name ?? '') : parse(step.parts[i] ?? '').name,
    ),
  };
}

function placeOf(path: string, parts: readonly PartStep[]): ReportPlace | null {
  for (const [part, step] of parts.entries()) {
    const file = filesOf(step).indexOf(path);
    if (file >= 0) return { part, file };
  }
  return null;
}

async function tellTerms(
  plan: BuildPlan,
  { keys, keep }: ReportBuildOptions,
): Promise<readonly ReportTerms[]> {
  const photos = new Map<string, SurfaceStep[]>();
  for (const step of plan.steps.filter(isSurface))
    for (const photo of [step.photo, ...step.others])
      photos.set(photo, [...(photos.get(photo) ?? []), step]);
  const terms: ReportTerms[] = [];
  // One after the other: each is read whole.
  for (const [path, steps] of photos) {
    const ids = steps.map(({ id }) => id);
    const inputs = keys.get(ids[0] ?? '')?.inputs ?? {};
    const sha256 = inputs[relative(plan.folder, path)] ?? null;
    const notes = await notesOf(path, sha256);
    const own = notes.credit === null ? await ownCreditOf(path, sha256, keep) : null;
    terms.push({
      photo: relative(plan.folder, path),
      licence: notes.licence,
      credit: notes.credit ?? own,
      isOwnCredit: own !== null,
      usedBy: usersOf(plan, ids),
    });
  }
  return terms;
}

// As much is read of a photo for it as to measure it.
async function ownCreditOf(
  path: string,
  sha256: string | null,
  keep: KeepFolder,
): Promise<string | null> {
  const read = async (): Promise<string | null> => {
    const credit = await readOwnCredit(path);
    await refuseChanged({ [path]: sha256 });
    return credit;
  };
  return takeKept(['credit', sha256], read, keep).catch(() => null);
}

// What cannot be read of them is told where the surface fails.
async function notesOf(path: string, sha256: string | null): Promise<Notes> {
  const none = { licence: null, credit: null };
  if (sha256 === null) return none;
  return readNotes({ path, sha256 }).catch(() => none);
}
