import { dirname } from 'node:path';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Page } from '../../page/page.js';
import { type KeepFolder, makeFolders, openKeepFolder } from '../../write/keep-folder.js';
import { beginStep, type JobOptions, type JobStep } from '../job-options.js';
import type { MadeSurface, SurfaceRefusal } from '../surface/made-surface.js';
import {
  type BuildStep,
  type DressStep,
  type FillStep,
  isDrawn,
  type ReliefStep,
  type SheetStep,
  type SlimStep,
  type SurfaceStep,
} from './build-plan.js';
import { packSurface, unpackSurface } from './keep-surface.js';
import { refuseChanged } from './refuse-changed.js';
import type { StepReport } from './step-record.js';

/** A step, and where what it needs is kept. */
export interface Task {
  /** What there is to do. */
  readonly step: BuildStep;
  /** The folder of the job. */
  readonly folder: string;
  /** What its result is kept under, where it is a surface. */
  readonly key: string;
  /** What surfaces are kept under, by the ids of their steps. */
  readonly surfaces: Readonly<Record<string, string>>;
  /** What its inputs are to be, by path, in SHA-256; null where there is to be none. */
  readonly inputs: Readonly<Record<string, string | null>>;
}

/** What a step did. */
interface TaskDone {
  /** Files that it wrote. */
  readonly files: readonly string[];
  /** What is said of it. */
  readonly report: StepReport;
  /** What is drawn on its pages, where it is sheets. */
  readonly pages?: readonly Page[];
}

/** What a step did, or why a picture does not allow it. */
export type TaskOutcome = Outcome<TaskDone, string>;

/**
 * Tell what the files of a step are to be.
 *
 * @param step - Which.
 * @param sums - Of its inputs, in their order.
 * @returns The sums by the files' paths from here.
 */
export function inputsOf(
  step: BuildStep,
  sums: Readonly<Record<string, string | null>>,
): Task['inputs'] {
  const all = Object.values(sums);
  return Object.fromEntries(step.inputs.map((path, i) => [path, all[i] ?? null]));
}

/** Told of what a task is busy with. */
export type OnTaskStep = (step: JobStep) => void;

const noReport: StepReport = { widthMm: null, heightMm: null, pages: null, nextWall: null };

/**
 * Do one step.
 *
 * @param task - Which.
 * @param options - Who is told of what it is busy with, and what stops it.
 * @returns What it did, or why a picture does not allow it.
 * @throws TextureError when a file does not allow it, or is another than when the build began.
 */
export async function runTask(task: Task, options: JobOptions): Promise<TaskOutcome> {
  const keep = await openKeepFolder(task.folder);
  const { step } = task;
  if (step.kind !== 'surface') await makeFolders(dirname(step.options.output));
  if (isDrawn(step) && step.options.link !== undefined) await makeFolders(step.options.link);
  const done = await doStep(task, keep, options);
  if (done.ok) await refuseChanged(task.inputs);
  return done;
}

function doStep(task: Task, keep: KeepFolder, options: JobOptions): Promise<TaskOutcome> {
  const { step } = task;
  switch (step.kind) {
    case 'surface':
      return makeKept({ ...task, step }, keep, options);
    case 'fill':
      return fill({ ...task, step }, keep, options);
    case 'relief':
      return drawRelief({ ...task, step }, keep, options);
    case 'slim':
      return slim({ ...task, step }, options);
    case 'dress':
      return dress({ ...task, step }, keep, options);
    case 'sheet':
      return laySheet({ ...task, step }, options);
  }
}

type TaskOf<Step extends BuildStep> = Task & { readonly step: Step };

async function makeKept(
  { step, key, inputs }: TaskOf<SurfaceStep>,
  keep: KeepFolder,
  options: JobOptions,
): Promise<TaskOutcome> {
  const made = await makeOf(step, options);
  if (!made.ok) return made;
  const { value: surface, warnings } = made;
  // Before it is kept under what the photo was.
  await refuseChanged(inputs);
  await keep.write(`${key}.surface`, packSurface(surface));
  return { ok: true, value: { files: [], report: noReport }, warnings };
}

async function makeOf(
  { photo, others, options: wish }: SurfaceStep,
  options: JobOptions,
): Promise<Outcome<MadeSurface, string>> {
  const { extend, ...known } = wish;
  if (extend !== undefined) {
    const { extendSurface } = await import('../extend/extend-surface.js');
    return extendSurface([photo, ...others], { ...known, ...extend, ...options });
  }
  const { makeSurface, openForSurface } = await import('../surface/make-surface.js');
  beginStep('reading', options);
  return makeSurface(await openForSurface(photo), { ...known, ...options });
}

/**
 * Take a surface from where it is kept.
 *
 * @param keep - Where.
 * @param key - What it is kept under.
 * @returns It.
 * @throws TextureError where it is gone or damaged.
 */
export async function recallSurface(keep: KeepFolder, key: string): Promise<MadeSurface> {
  const bytes = await keep.read(`${key}.surface`);
  const kept = bytes && unpackSurface(bytes);
  if (kept !== null) return kept;
  // Deleted, or damaged, since this build began.
  const message = `what is kept in ${showPath(keep.path)} was changed while the job was being built`;
  throw new TextureError('changed-input', message, {
    hint: 'gaugerod build --clean, then build again',
  });
}

// Each surface from where it was kept, by the id of its step.
function fromKept(
  { surfaces }: Task,
  keep: KeepFolder,
): (id: string) => Promise<Outcome<MadeSurface, SurfaceRefusal>> {
  return async (id) => {
    const surface = await recallSurface(keep, surfaces[id] ?? '');
    // What is to be known of it is told once, with the surface.
    return { ok: true, value: surface, warnings: [] };
  };
}

async function fill(
  task: TaskOf<FillStep>,
  keep: KeepFolder,
  options: JobOptions,
): Promise<TaskOutcome> {
  const { step } = task;
  const { fillFrom } = await import('../fill/fill-photo.js');
  const take = fromKept(task, keep);
  const filled = await fillFrom(() => take(step.surface), step.photo, {
    ...step.options,
    ...options,
  });
  if (!filled.ok) return filled;
  const { output, widthMm, heightMm, nextWall } = filled.value;
  const report = { widthMm, heightMm, pages: null, nextWall };
  return { ...filled, value: { files: [output], report } };
}

async function drawRelief(
  task: TaskOf<ReliefStep>,
  keep: KeepFolder,
  options: JobOptions,
): Promise<TaskOutcome> {
  const { step } = task;
  const { reliefFrom } = await import('../relief/make-relief.js');
  const take = fromKept(task, keep);
  const made = await reliefFrom(() => take(step.surface ?? ''), step.photo, {
    ...step.options,
    ...options,
  });
  if (!made.ok) return made;
  const { output, layers, widthMm, heightMm } = made.value;
  const files = [output, ...layers.slice(1).map(({ file }) => file)];
  return { ...made, value: { files, report: { ...noReport, widthMm, heightMm } } };
}

async function dress(
  task: TaskOf<DressStep>,
  keep: KeepFolder,
  options: JobOptions,
): Promise<TaskOutcome> {
  const { step } = task;
  const { dressFrom } = await import('../dress/dress-drawing.js');
  const kept = { take: fromKept(task, keep), photos: step.photos };
  const dressed = await dressFrom(kept, step.drawing, {
    ...step.options,
    ...options,
  });
  if (!dressed.ok) return dressed;
  const { output, surfaces } = dressed.value;
  const beside = surfaces.flatMap(({ picture }) => picture.file ?? []);
  return { ...dressed, value: { files: [output, ...beside], report: noReport } };
}

async function slim({ step }: TaskOf<SlimStep>, options: JobOptions): Promise<TaskOutcome> {
  const { slimDrawing } = await import('../slim/slim-drawing.js');
  const { output } = step.options;
  const slimmed = await slimDrawing(step.drawing, { ...step.options, ...options });
  if (!slimmed.ok) return slimmed;
  return { ...slimmed, value: { files: [output, ...slimmed.value.pictures], report: noReport } };
}

async function laySheet(
  { step, folder: linkedIn }: TaskOf<SheetStep>,
  options: JobOptions,
): Promise<TaskOutcome> {
  const { layParts } = await import('../sheet/sheet-parts.js');
  const laid = await layParts(step.parts, { ...step.options, ...options, linkedIn });
  if (!laid.ok) return laid;
  const { files, pages, paper } = laid.value.report;
  const { widthMm, heightMm } = paper;
  return {
    ...laid,
    value: { files, report: { ...noReport, widthMm, heightMm, pages }, pages: laid.value.pages },
  };
}
