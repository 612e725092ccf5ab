import { basename, dirname, extname, join } from 'node:path';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { realFolder } from '../../read/find-linked.js';
import { stateOf } from '../../read/hash-file.js';
import { realEnd, realPath } from '../../read/real-path.js';
import { sidecarPath } from '../../surface/sidecar-path.js';
import { BadJob, type JobPath } from './bad-job.js';
import {
  type BuildPlan,
  type BuildStep,
  filesOf,
  isDrawn,
  type SheetStep,
  type SurfaceStep,
} from './build-plan.js';
import { type CheckFoldersOptions, isInside } from './check-folders.js';

/** What files of a plan are held against. */
export interface CheckFilesOptions extends Pick<CheckFoldersOptions, 'anywhere'> {
  /** Photos of surfaces, and what lies beside them, whether a part asks for them or not. */
  readonly photos: readonly string[];
}

/**
 * Look at the files that a plan names: those it reads are there; they, and those it writes, lie in the
 * job's folder once links are followed; no two steps write one file, nor any what the job reads.
 *
 * @param plan - All that there is to do for the job, asked for now or not.
 * @param options - Whether files may lie elsewhere.
 * @returns What is wrong.
 */
export async function checkFiles(
  plan: BuildPlan,
  options: CheckFilesOptions,
): Promise<readonly BadJob[]> {
  const home = options.anywhere ? null : await realFolder(plan.folder);
  const reads = await checkReads(plan, home);
  return reads.length > 0 ? reads : checkWrites(plan, options.photos, home);
}

const hint = '--anywhere allows it, where you trust the job';

async function checkReads({ steps }: BuildPlan, home: string | null): Promise<BadJob[]> {
  const faults: BadJob[] = [];
  const seen = new Set<string>();
  for (const step of steps) faults.push(...(await checkFind(step, home)));
  for (const named of steps.flatMap(namedBy)) {
    if (seen.has(named.file)) continue;
    seen.add(named.file);
    const [real, state] = [await realPath(named.file), await stateOf(named.file)];
    const shown = showPath(named.file);
    if (real === null) {
      if (!named.mayLack) faults.push(new BadJob(named.path, `${shown} does not exist`));
    } else if (state === null) faults.push(new BadJob(named.path, `${shown} is not a file`));
    else if (home !== null && !isInside(home, real))
      faults.push(
        new BadJob(named.path, `${shown} is a link that leads out of the job's folder`, { hint }),
      );
  }
  return faults;
}

// Pictures of a drawing are looked for there.
async function checkFind(step: BuildStep, home: string | null): Promise<readonly BadJob[]> {
  const { find } =
    (step.kind === 'slim' ? step.options : step.kind === 'dress' ? step.options.slim : null) ?? {};
  if (find === undefined) return [];
  const path = ['parts', step.name, 'slim', 'find'];
  try {
    const real = await realFolder(find);
    if (home === null || isInside(home, real)) return [];
    const message = `${showPath(find)} is a link that leads out of the job's folder`;
    return [new BadJob(path, message, { hint })];
  } catch (cause) {
    if (!(cause instanceof TextureError)) throw cause;
    return [new BadJob(path, cause.message, { cause })];
  }
}

interface NamedFile {
  readonly file: string;
  readonly path: JobPath;
  readonly mayLack?: true;
}

function namedBy(step: BuildStep): readonly NamedFile[] {
  if (step.kind === 'surface') {
    const path = ['surfaces', step.name];
    return [
      ...photoBy(step.photo, [...path, 'photo']),
      ...step.others.flatMap((file, i) => photoBy(file, [...path, 'extend', 'photos', i])),
    ];
  }
  if (step.kind === 'sheet') return [];
  const path = (...keys: readonly string[]): JobPath => ['parts', step.name, ...keys];
  // What is set is no word of the job's.
  const printing = step.kind === 'slim' ? undefined : step.options.printing;
  const printer = step.set.includes('printer') ? undefined : printing?.printer;
  const profile =
    printer === undefined ? [] : [{ file: printer, path: path('printing', 'printer') }];
  return [...drawnBy(step, path), ...profile];
}

// What is kept beside a photo may lack.
function photoBy(file: string, path: JobPath): readonly NamedFile[] {
  return [
    { file, path },
    { file: sidecarPath(file), path, mayLack: true },
  ];
}

function drawnBy(
  step: Exclude<BuildStep, SurfaceStep | SheetStep>,
  path: (...keys: readonly string[]) => JobPath,
): readonly NamedFile[] {
  if (isDrawn(step)) return [{ file: step.drawing, path: path('drawing') }];
  const { outline } = step.options;
  const own = step.kind === 'relief' ? ['relief'] : [];
  const along = step.kind === 'relief' ? step.options.along : undefined;
  return [
    ...(outline ? [{ file: outline.path, path: path(...own, 'outline') }] : []),
    ...(along ? [{ file: along.path, path: path(...own, 'along') }] : []),
  ];
}

async function checkWrites(
  { path, steps }: BuildPlan,
  photos: readonly string[],
  home: string | null,
): Promise<BadJob[]> {
  const faults: BadJob[] = [];
  const inputs = [path, ...photos, ...steps.flatMap((step) => step.inputs)];
  const read = new Map<string, string>();
  for (const file of inputs) read.set(alike(await realEnd(file)), file);
  const writers = new Map<string, string>();
  for (const step of steps) {
    if (step.kind === 'surface') continue;
    for (const place of placesOf(step)) {
      const wrong = await whyNot(place, home);
      if (wrong !== null) faults.push(new BadJob(pathOf(step), wrong, { hint, atKey: true }));
    }
    for (const file of filesOf(step)) {
      const key = alike(await realEnd(file));
      const taken = whyTaken(step, { key, file }, { read, writers });
      if (taken !== null) faults.push(taken);
      writers.set(key, step.name);
    }
  }
  return faults;
}

type PrintStep = Exclude<BuildStep, SurfaceStep>;

function pathOf({ kind, name }: PrintStep): JobPath {
  return [kind === 'sheet' ? 'sheets' : 'parts', name];
}

function placesOf(step: PrintStep): readonly string[] {
  const link = isDrawn(step) ? step.options.link : undefined;
  return [...filesOf(step), ...(link === undefined ? [] : [link])];
}

interface Taken {
  readonly read: ReadonlyMap<string, string>;
  readonly writers: ReadonlyMap<string, string>;
}

interface Written {
  readonly key: string;
  readonly file: string;
}

function whyTaken(
  step: PrintStep,
  { key, file: output }: Written,
  { read, writers }: Taken,
): BadJob | null {
  const own = matcher(step, key);
  const other = [...writers].find(([written]) => own(written))?.[1];
  const lost = [...read].find(([file]) => own(file))?.[1];
  if (other !== undefined) {
    const file = showPath(basename(output));
    const told = `${step.name} and ${other} would write one file, ${file}`;
    const give = 'give one of them a file of its own';
    return new BadJob(pathOf(step), told, { hint: give, atKey: true });
  }
  if (lost === undefined) return null;
  const told = `${step.name} would write over ${showPath(lost)}, which the job reads`;
  const move = 'let output name another folder';
  return new BadJob(pathOf(step), told, { hint: move, atKey: true });
}

// What a step writes: pages that are pictures are counted, page-1.png and on, where there are several.
function matcher(step: BuildStep, key: string): (file: string) => boolean {
  const extension = extname(key);
  if (step.kind !== 'sheet' || extension === '.pdf') return (file) => file === key;
  const stem = basename(key, extension);
  const folder = dirname(key);
  return (file) => {
    if (file === key) return true;
    if (dirname(file) !== folder || extname(file) !== extension) return false;
    const name = basename(file, extension);
    return name.startsWith(`${stem}-`) && /^\d+$/.test(name.slice(stem.length + 1));
  };
}

async function whyNot(place: string, home: string | null): Promise<string | null> {
  const folder = dirname(place);
  const [real, there] = [await realEnd(place), await innermost(folder)];
  if ((await stateOf(there)) !== null)
    return `${showPath(folder)} cannot be a folder: ${showPath(there)} is a file`;
  if (home === null || isInside(home, real)) return null;
  return `${showPath(place)} is, or lies behind, a link that leads out of the job's folder`;
}

async function innermost(folder: string): Promise<string> {
  let there = folder;
  while ((await realPath(there)) === null && there !== dirname(there)) there = dirname(there);
  return there;
}

// On some systems upper and lower case, or an accent composed and decomposed, are one name.
function alike(path: string): string {
  return join(path).normalize('NFC').toLowerCase();
}
