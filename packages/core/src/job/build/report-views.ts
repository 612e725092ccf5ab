import type { ReportFound, ReportView } from '../../report/report-content.js';
import type { Size } from '../../units/parse-size.js';
import type { ReferenceOptions } from '../measure/reference-options.js';
import type { BuildPlan, SurfaceStep } from './build-plan.js';
import { isForUser } from './do-task.js';
import { given } from '../given.js';
import type { Surfaces } from './open-surfaces.js';
import { refuseChanged } from './refuse-changed.js';
import { inputsOf } from './run-task.js';
import type { StepKey } from './step-key.js';
import type { StepPool } from './step-pool.js';
import type { StepRecord, WrittenFile } from './step-record.js';
import { takeKept } from './take-kept.js';
import type { View, ViewTask } from './view-task.js';
import type { KeepFolder } from '../../write/keep-folder.js';

/** Something to look at, or why there is nothing. */
export interface TakenView {
  /** It. */
  readonly view: ReportView;
  /** What was found on a photo, or null. */
  readonly found: ReportFound | null;
  /** On paper, mm, or null. */
  readonly size: Size<number> | null;
}

/** What a report shows. */
export interface Views {
  /** A photo with what was found drawn over it. */
  readonly found: (step: SurfaceStep) => Promise<TakenView>;
  /** Three by three repeats of a surface. */
  readonly tiled: (step: SurfaceStep) => Promise<TakenView>;
  /** A file of a part: all that a part of one drawing links to is drawn with it. */
  readonly shown: (record: StepRecord, file: WrittenFile | undefined) => Promise<TakenView>;
}

/** What views are drawn with. */
export interface OpenViewsOptions {
  /** Where they are kept. */
  readonly keep: KeepFolder;
  /** What draws them. */
  readonly pool: StepPool;
  /** Of each step. */
  readonly keys: ReadonlyMap<string, StepKey>;
  /** Makes surfaces that are not kept any more. */
  readonly surfaces: Surfaces;
  /** Where it is aborted, nothing more is drawn. */
  readonly signal?: AbortSignal;
}

// All pictures together: some eight megabytes of a page.
const mostOfAll = 18e6;
const mostOfOne = 1.2e6;

// In steps, so that one part more does not have everything drawn anew.
function shareOf(pictures: number): number {
  const steps = Math.ceil(2 * Math.log2((pictures * mostOfOne) / mostOfAll));
  return Math.floor(mostOfOne / 2 ** (Math.max(0, steps) / 2));
}

/**
 * Open what a report shows of a job: drawn where it is not kept. What cannot be drawn is no failure of the job.
 *
 * @param plan - The job.
 * @param options - What draws it.
 * @returns What brings it.
 */
export function openViews(plan: BuildPlan, options: OpenViewsOptions): Views {
  const { keep, pool, keys, surfaces, signal } = options;
  const pictures = plan.steps.filter(({ kind }) => kind !== 'sheet');
  const photos = new Set(pictures.filter(({ kind }) => kind === 'surface').map(({ name }) => name));
  const layers = pictures.flatMap((step) => (step.kind === 'relief' ? step.layers : []));
  const mostPixels = shareOf(pictures.length + layers.length + photos.size);
  const take = async (task: () => Promise<ViewTask>, from: unknown): Promise<TakenView> => {
    try {
      return toTaken(await takeKept(from, () => draw(task, pool), keep));
    } catch (cause) {
      signal?.throwIfAborted();
      if (!isForUser(cause)) throw cause;
      return noView(cause.message);
    }
  };
  return {
    found(step) {
      const options = referenceOf(step.options);
      const inputs = inputsOf(step, keys.get(step.id)?.inputs ?? {});
      const task: ViewTask = { kind: 'found', photo: step.photo, options, inputs, mostPixels };
      return take(
        () => Promise.resolve(task),
        ['found', Object.values(inputs), options, mostPixels],
      );
    },
    tiled({ id, options: { dpi } }) {
      const { key = '' } = keys.get(id) ?? {};
      return take(async () => {
        await surfaces.make(id);
        // What is kept is checked by its own sum.
        return { kind: 'tiled', folder: plan.folder, key, dpi, inputs: {}, mostPixels };
      }, ['tiled', key, mostPixels]);
    },
    async shown({ files, report }, file) {
      const { widthMm, heightMm } = report;
      const size =
        widthMm === null || heightMm === null ? null : { width: widthMm, height: heightMm };
      const path = file?.path ?? '';
      const inputs = Object.fromEntries(files.map((one) => [one.path, one.sha256]));
      const task: ViewTask = { kind: 'shown', path, size, mostPixels, inputs };
      const from = ['shown', file?.sha256 ?? '', Object.values(inputs), size, mostPixels];
      return take(() => Promise.resolve(task), from);
    },
  };
}

async function draw(task: () => Promise<ViewTask>, pool: StepPool): Promise<View> {
  const drawn = await task();
  const view = await pool.draw(drawn);
  await refuseChanged(drawn.inputs);
  return view;
}

// What a photo is measured by: the same at every scale.
function referenceOf(options: SurfaceStep['options']): ReferenceOptions {
  const { course, courses, axis, corners, rectangleSize, straighten } = options;
  const { spans, lengths, section, brick, distance, focal } = options;
  return {
    ...given({ course, courses, axis, corners, rectangleSize, straighten }),
    ...given({ spans, lengths, section, brick, distance, focal }),
  };
}

function toTaken({ bytes, width, height, found, size }: View): TakenView {
  const base64 = Buffer.from(bytes).toString('base64');
  return { view: { picture: { base64, width, height }, why: null }, found, size };
}

/**
 * Say that there is nothing to look at.
 *
 * @param why - What keeps it from being seen, without a full stop.
 * @returns That.
 */
export function noView(why: string): TakenView {
  return { view: { picture: null, why }, found: null, size: null };
}
