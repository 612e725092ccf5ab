import { createHash } from 'node:crypto';
import { relative } from 'node:path';
import type { Warning } from '../../errors/warning.js';
import type { Page } from '../../page/page.js';
import { type FileState, hashFile, stateOf } from '../../read/hash-file.js';
import type { KeepFolder } from '../../write/keep-folder.js';
import type { NextWall } from '../fill/next-wall.js';
import type { BuildPlan, BuildStep } from './build-plan.js';
import { inFolder } from './in-folder.js';
import type { StepKey } from './step-key.js';

/** A file that a step wrote. */
export interface WrittenFile extends FileState {
  /** Where it lies. */
  readonly path: string;
  /** Of its bytes. */
  readonly sha256: string;
}

/** What is said of a step's result. */
export interface StepReport {
  /** On paper, from left to right, or null where it has no one size. */
  readonly widthMm: number | null;
  /** On paper, from top to bottom, or null. */
  readonly heightMm: number | null;
  /** How many pages, or null where it is none. */
  readonly pages: number | null;
  /** Where the wall round its corner lies, or null where nobody asked. */
  readonly nextWall: NextWall | null;
}

/** What is remembered of a step that was done. */
export interface StepRecord extends StepKey {
  /** What it wrote. */
  readonly files: readonly WrittenFile[];
  /** What is said of it. */
  readonly report: StepReport;
  /** What is drawn on its pages: none where it is no sheets. */
  readonly pages: readonly Page[];
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

// By what it is and not by what it follows from, so that one can say what changed.
function nameOf({ folder }: BuildPlan, step: BuildStep): string {
  const output = step.kind === 'surface' ? '' : relative(folder, step.options.output);
  return `${createHash('sha256')
    .update(JSON.stringify([step.id, output]))
    .digest('hex')}.json`;
}

/**
 * Recall what is remembered of a step.
 *
 * @param keep - Where.
 * @param plan - Of its job.
 * @param step - Which.
 * @returns The record, or null where there is none that can be used.
 */
export async function recall(
  keep: KeepFolder,
  plan: BuildPlan,
  step: BuildStep,
): Promise<StepRecord | null> {
  const bytes = await keep.read(nameOf(plan, step));
  if (bytes === null) return null;
  try {
    const record = JSON.parse(bytes.toString()) as Partial<StepRecord>;
    const { key, options, inputs, needs, files, report, pages, warnings } = record;
    if (!key || !options || !inputs || !needs || !files || !report || !pages || !warnings)
      return null;
    const whole = { key, options, inputs, needs, report, pages, warnings };
    return {
      ...whole,
      files: files.map((file) => ({ ...file, path: inFolder(plan.folder, file.path) })),
    };
  } catch {
    return null;
  }
}

/**
 * Remember that a step was done.
 *
 * @param keep - Where.
 * @param plan - Of its job.
 * @param step - Which.
 * @param record - What of it.
 */
export async function remember(
  keep: KeepFolder,
  plan: BuildPlan,
  step: BuildStep,
  record: StepRecord,
): Promise<void> {
  // From the job, which may be built from another folder the next time.
  const files = record.files.map((file) => ({ ...file, path: relative(plan.folder, file.path) }));
  const text = JSON.stringify({ ...record, files });
  // What cannot be kept costs time the next time, and nothing else.
  await keep.write(nameOf(plan, step), [Buffer.from(text)]).catch(() => undefined);
}

/**
 * Look at what a step wrote.
 *
 * @param paths - Its files.
 * @returns Their state.
 */
export async function stateOfFiles(paths: readonly string[]): Promise<readonly WrittenFile[]> {
  return Promise.all(
    paths.map(async (path) => {
      // First, so that whatever is written while it is read is seen by its time later on.
      const state = (await stateOf(path)) ?? { size: 0, modified: 0 };
      const sha256 = (await hashFile(path)) ?? '';
      return { path, sha256, ...state };
    }),
  );
}

/**
 * Tell why a step has to be done.
 *
 * @param step - Which.
 * @param now - What its result would follow from.
 * @param record - What is remembered of it, or null.
 * @returns Why, a few words; null where what is there is what would be made.
 */
export async function whyBuild(
  step: BuildStep,
  now: StepKey,
  record: StepRecord | null,
): Promise<string | null> {
  if (record === null) return 'it is new';
  for (const [path, sum] of Object.entries(now.inputs)) {
    const before = record.inputs[path] ?? null;
    if (before === sum) continue;
    if (before === null) return `${path} is new`;
    return sum === null ? `${path} is gone` : `${path} changed`;
  }
  if (record.options !== now.options) return 'its options changed';
  const other = Object.entries(now.needs).find(([id, key]) => record.needs[id] !== key);
  if (other !== undefined) return `${other[0].replace(/^(.*)\//, '')} changed`;
  if (record.key !== now.key) return 'what it needs is another';
  return whyFiles(step, record);
}

async function whyFiles(step: BuildStep, { files }: StepRecord): Promise<string | null> {
  if (step.kind === 'surface') return null;
  for (const { path, size, modified, sha256 } of files) {
    const state = await stateOf(path);
    if (state === null) return 'its file is gone';
    if (state.size === size && state.modified === modified) continue;
    if ((await hashFile(path)) !== sha256) return 'its file was changed';
  }
  return null;
}
