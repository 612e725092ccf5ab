import { isAbsolute, join, relative, resolve, sep } from 'node:path';
import { BadJob, type JobPath } from './bad-job.js';
import { otherPhotos } from './plan-surface.js';
import type { JobFile } from './read-job.js';

/** What paths of a job are held against. */
export interface CheckFoldersOptions {
  /** The folder that the job file lies in. */
  readonly folder: string;
  /** The folder that files are written into, as written. */
  readonly output: string;
  /** Whether paths may lead out of the job's folder. */
  readonly anywhere: boolean;
}

interface WrittenPath {
  readonly path: JobPath;
  readonly text: string;
  // What it has to lie in, as people say it, and where that is.
  readonly home: 'job' | 'output';
}

/**
 * Look at every path that a job file names, as it is written.
 *
 * @param job - As read.
 * @param options - What it may name.
 * @returns Those that lead where they may not.
 */
export function checkFolders(job: JobFile, options: CheckFoldersOptions): readonly BadJob[] {
  const { folder, output, anywhere } = options;
  const homes = { job: resolve(folder), output: resolve(folder, output) };
  return listPaths(job, output).flatMap((one) => whyNot(one, homes[one.home], anywhere) ?? []);
}

function whyNot(
  { path, text, home }: WrittenPath,
  folder: string,
  anywhere: boolean,
): BadJob | null {
  const isJob = home === 'job';
  if (text.includes('\0')) return new BadJob(path, `${isJob ? 'a path' : 'a name'} holds a NUL`);
  if (!isJob && isUnfit(text)) {
    const message = `${JSON.stringify(text)} cannot name a file on every system`;
    return new BadJob(path, message, { hint: 'letters, digits, blanks and . _ - + ( )' });
  }
  const way = whereTo(text, folder);
  if (way === null || (anywhere && isJob)) return null;
  const hint = isJob
    ? '--anywhere allows it, where you trust the job'
    : 'name a file in the folder of outputs';
  const what =
    way === 'elsewhere'
      ? 'is an absolute path'
      : `leads out of the ${isJob ? "job's folder" : 'folder of outputs'}`;
  return new BadJob(path, `${JSON.stringify(text)} ${what}`, { hint });
}

// Null where it stays in its folder.
function whereTo(text: string, folder: string): 'elsewhere' | 'out' | null {
  if (isAbsolute(text) || /^[a-z]:[\\/]|^\\/i.test(text)) return 'elsewhere';
  return isInside(folder, join(folder, text)) ? null : 'out';
}

/**
 * Tell whether a path lies in a folder, by its words alone.
 *
 * @param folder - Absolute.
 * @param path - Absolute.
 * @returns Whether it does, or is the folder itself.
 */
export function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

const devices = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;

// Of some system or other: its devices, its signs, and names that it would cut short.
function isUnfit(text: string): boolean {
  return text
    .split(/[\\/]/)
    .some((name) => /[<>:"|?*\p{Cc}]/u.test(name) || devices.test(name) || /[^.][. ]$/.test(name));
}

function listPaths({ data }: JobFile, output: string): readonly WrittenPath[] {
  const surfaces = Object.entries(data.surfaces ?? {}).flatMap(([name, entry]) => [
    written(['surfaces', name, 'photo'], entry['photo'], 'job'),
    ...otherPhotos(entry).map((photo, i) =>
      written(['surfaces', name, 'extend', 'photos', i], photo, 'job'),
    ),
  ]);
  const profile = (of: Readonly<Record<string, unknown>>): unknown =>
    (of['printing'] as { readonly printer?: unknown } | undefined)?.printer;
  const parts = Object.entries(data.parts).flatMap(([name, entry]) => [
    written(['parts', name, 'drawing'], entry['drawing'], 'job'),
    written(['parts', name, 'outline'], entry['outline'], 'job'),
    written(['parts', name, 'slim', 'find'], findOf(entry), 'job'),
    ...['along', 'outline'].map((key) =>
      written(['parts', name, 'relief', key], reliefOf(entry)[key], 'job'),
    ),
    written(['parts', name, 'printing', 'printer'], profile(entry), 'job'),
    written(['parts', name, 'file'], entry['file'], 'output'),
    written(['parts', name, 'link'], entry['link'], 'output'),
  ]);
  const sheets = Object.entries(data.sheets ?? {}).map(([name, { file }]) =>
    written(['sheets', name, 'file'], file, 'output'),
  );
  const top = [
    written(['output'], output, 'job'),
    written(['printing', 'printer'], profile(data), 'job'),
  ];
  return [...top, ...surfaces, ...parts, ...sheets].filter((path) => path !== null);
}

function written(path: JobPath, text: unknown, home: WrittenPath['home']): WrittenPath | null {
  return typeof text === 'string' ? { path, text, home } : null;
}

function findOf({ slim }: Readonly<Record<string, unknown>>): unknown {
  return (slim as { readonly find?: unknown } | undefined)?.find;
}

function reliefOf({
  relief = {},
}: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  return relief as Readonly<Record<string, unknown>>;
}
