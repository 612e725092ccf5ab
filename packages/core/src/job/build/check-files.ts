import { basename, dirname, resolve } from 'node:path';
import { showPath } from '../../errors/show-path.js';
import { realFolder } from '../../read/find-linked.js';
import { stateOf } from '../../read/hash-file.js';
import { realPath } from '../../read/real-path.js';
import { BadJob, type JobPath } from './bad-job.js';
import type { BuildPlan, BuildStep, SheetStep, SurfaceStep } from './build-plan.js';
import { type CheckFoldersOptions, isInside } from './check-folders.js';

/**
 * Look at the files that a plan names: those it reads are there, inside the job's folder once links are
 * followed, and no two steps write one file, nor any what is read.
 *
 * @param plan - What there is to do.
 * @param options - Whether files may lie elsewhere.
 * @returns What is wrong.
 */
export async function checkFiles(
  plan: BuildPlan,
  options: Pick<CheckFoldersOptions, 'anywhere'>,
): Promise<readonly BadJob[]> {
  const reads = await checkReads(plan, options.anywhere);
  if (reads.length > 0) return reads;
  const folder = await checkFolder(plan, options.anywhere);
  return folder.length > 0 ? folder : checkWrites(plan);
}

async function checkReads({ folder, steps }: BuildPlan, anywhere: boolean): Promise<BadJob[]> {
  const home = await realFolder(folder);
  const faults: BadJob[] = [];
  const seen = new Set<string>();
  for (const named of steps.flatMap(namedBy)) {
    if (seen.has(named.file)) continue;
    seen.add(named.file);
    const [real, state] = [await realPath(named.file), await stateOf(named.file)];
    const shown = showPath(named.file);
    if (real === null) faults.push(new BadJob(named.path, `${shown} does not exist`));
    else if (state === null) faults.push(new BadJob(named.path, `${shown} is not a file`));
    else if (!anywhere && !isInside(home, real)) {
      const message = `${shown} is a link that leads out of the job's folder`;
      const hint = '--anywhere allows it, where you trust the job';
      faults.push(new BadJob(named.path, message, { hint }));
    }
  }
  return faults;
}

// Or what the innermost of its folders that is there leads to.
async function checkFolder({ folder, output }: BuildPlan, anywhere: boolean): Promise<BadJob[]> {
  let there = output;
  while ((await realPath(there)) === null && there !== dirname(there)) there = dirname(there);
  const real = (await realPath(there)) ?? '';
  const shown = showPath(output);
  if ((await stateOf(there)) !== null)
    return [new BadJob(['output'], `${shown} cannot be a folder: ${showPath(there)} is a file`)];
  const home = await realFolder(folder);
  if (anywhere || isInside(home, real)) return [];
  const hint = '--anywhere allows it, where you trust the job';
  return [
    new BadJob(['output'], `${shown} is a link that leads out of the job's folder`, { hint }),
  ];
}

interface NamedFile {
  readonly file: string;
  readonly path: JobPath;
}

// Files of a step that have to be there.
function namedBy(step: BuildStep): readonly NamedFile[] {
  if (step.kind === 'surface')
    return [{ file: step.photo, path: ['surfaces', step.name, 'photo'] }];
  if (step.kind === 'sheet') return [];
  const path = (...keys: readonly string[]): JobPath => ['parts', step.name, ...keys];
  const printer = step.options.printing?.printer;
  const profile =
    printer === undefined ? [] : [{ file: printer, path: path('printing', 'printer') }];
  return [...drawnBy(step, path), ...profile];
}

function drawnBy(
  step: Exclude<BuildStep, SurfaceStep | SheetStep>,
  path: (...keys: readonly string[]) => JobPath,
): readonly NamedFile[] {
  if (step.kind === 'dress') return [{ file: step.drawing, path: path('drawing') }];
  const { outline } = step.options;
  const own = step.kind === 'relief' ? ['relief'] : [];
  const along = step.kind === 'relief' ? step.options.along : undefined;
  return [
    ...(outline ? [{ file: outline.path, path: path(...own, 'outline') }] : []),
    ...(along ? [{ file: along.path, path: path(...own, 'along') }] : []),
  ];
}

function checkWrites({ path, steps }: BuildPlan): BadJob[] {
  const faults: BadJob[] = [];
  const read = new Map(
    [path, ...steps.flatMap(({ inputs }) => inputs)].map((file) => [alike(file), file]),
  );
  const writers = new Map<string, string>();
  for (const step of steps) {
    if (step.kind === 'surface') continue;
    const { output } = step.options;
    const at: JobPath = [step.kind === 'sheet' ? 'sheets' : 'parts', step.name];
    const key = alike(output);
    const other = writers.get(key);
    if (other !== undefined)
      faults.push(
        new BadJob(
          at,
          `${step.name} and ${other} would write one file, ${showPath(basename(output))}`,
          { hint: 'give one of them a file of its own', atKey: true },
        ),
      );
    else if (read.has(key))
      faults.push(
        new BadJob(
          at,
          `${step.name} would write over ${showPath(read.get(key) ?? '')}, which the job reads`,
          { hint: 'let output name another folder', atKey: true },
        ),
      );
    writers.set(key, step.name);
  }
  return faults;
}

// On some systems upper and lower case, or an accent composed and decomposed, are one name.
function alike(path: string): string {
  return resolve(path).normalize('NFC').toLowerCase();
}
