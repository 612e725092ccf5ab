import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { relative } from 'node:path';
import { hashFile } from '../../read/hash-file.js';
import type { BuildPlan, BuildStep } from './build-plan.js';

/** What a step's result follows from. */
export interface StepKey {
  /** Of all of it: 64 hexadecimal digits. */
  readonly key: string;
  /** Of options and the program's version. */
  readonly options: string;
  /** Of each file that it reads, by its path from the job; null where there is none. */
  readonly inputs: Readonly<Record<string, string | null>>;
  /** Of the steps that it needs, by their ids. */
  readonly needs: Readonly<Record<string, string>>;
}

/**
 * Tell what every step's result follows from: the bytes of the files that it reads, its options, the
 * program, and all that of the steps it needs.
 *
 * @param plan - What there is to do.
 * @returns The keys by the steps' ids.
 */
export async function keySteps(plan: BuildPlan): Promise<ReadonlyMap<string, StepKey>> {
  const { folder, steps } = plan;
  const hashes = await hashInputs(steps);
  const keys = new Map<string, StepKey>();
  // Each comes after what it needs.
  for (const step of steps) {
    const inputs = Object.fromEntries(
      step.inputs.map((path) => [relative(folder, path), hashes.get(path) ?? null]),
    );
    const needs = Object.fromEntries(step.needs.map((id) => [id, keys.get(id)?.key ?? '']));
    const options = sumOf([
      programVersion(),
      process.versions.v8,
      step.kind,
      fromJob(step.options, folder),
    ]);
    keys.set(step.id, { key: sumOf([options, inputs, needs]), options, inputs, needs });
  }
  return keys;
}

async function hashInputs(
  steps: readonly BuildStep[],
): Promise<ReadonlyMap<string, string | null>> {
  const paths = [...new Set(steps.flatMap(({ inputs }) => inputs))];
  return new Map(
    await Promise.all(paths.map(async (path) => [path, await hashFile(path)] as const)),
  );
}

const paths = ['output', 'link', 'path', 'printer', 'find'];

// The same from wherever the job is built.
function fromJob(options: BuildStep['options'], folder: string): string {
  return JSON.stringify(options, (name, value: unknown) =>
    typeof value === 'string' && paths.includes(name) ? relative(folder, value) : value,
  );
}

function sumOf(what: unknown): string {
  return createHash('sha256').update(JSON.stringify(what)).digest('hex');
}

/**
 * Tell what something to look at follows from.
 *
 * @param from - All of it.
 * @returns Its key: 64 hexadecimal digits.
 */
export function keyOfView(from: unknown): string {
  return sumOf([programVersion(), process.versions.v8, 'view', from]);
}

/**
 * Tell which version of the program this is.
 *
 * @returns It, `1.0.0`.
 */
export function programVersion(): string {
  const manifest = createRequire(import.meta.url)('@gaugerod/core/package.json') as {
    version: string;
  };
  return manifest.version;
}
