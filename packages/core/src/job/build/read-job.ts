import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { readBytes } from '../../read/read-bytes.js';
import { BadJob } from './bad-job.js';
import { checkShape, mostFaults } from './check-shape.js';
import { BadYaml, type JobPosition, parseJob, type ParsedJob } from './parse-job.js';

const maxBytes = 2e6;

/** A job file as read: it has the right form. */
export interface JobFile {
  /** As the user gave it. */
  readonly path: string;
  /** What it holds. */
  readonly data: JobData;
  /**
   * Put what is wrong with a place of it into words.
   *
   * @param faults - One or more.
   * @returns An error to throw: the first of them, by its line and column.
   */
  readonly explain: (faults: readonly BadJob[]) => TextureError;
}

type Entry = Readonly<Record<string, unknown>>;

/** What a job file of the right form holds: values are still as written. */
export interface JobData extends Entry {
  /** One scale, or several. */
  readonly scale: string | number | readonly (string | number)[];
  /** By name. */
  readonly surfaces?: Readonly<Record<string, Entry>>;
  /** By name. */
  readonly parts: Readonly<Record<string, Entry>>;
  /** By name. */
  readonly sheets?: Readonly<Record<string, Entry>>;
  /** Of all parts that say nothing of it. */
  readonly weather?: Entry;
  /** Likewise. */
  readonly printing?: Entry;
}

/**
 * Read a job file and hold it against its schema.
 *
 * @param path - Where it lies.
 * @returns What it holds.
 * @throws TextureError `bad-job`, with file, line and column, or why the file cannot be read.
 */
export async function readJob(path: string): Promise<JobFile> {
  const text = decode(path, await readBytes(path, { maxBytes }));
  const parsed = parse(path, text);
  const explain = (faults: readonly BadJob[]): TextureError => inWords(path, parsed, faults);
  const faults = checkShape(parsed.data);
  if (faults.length > 0) throw explain(faults);
  return { path, data: parsed.data as JobData, explain };
}

function decode(path: string, bytes: Buffer): string {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    if (!text.includes('\0')) return text;
  } catch {
    // Said below.
  }
  throw new TextureError('bad-job', `${showPath(path)} is no text in UTF-8`, {
    hint: 'save it as plain text, UTF-8',
  });
}

function parse(path: string, text: string): ParsedJob {
  try {
    return parseJob(text);
  } catch (cause) {
    if (!(cause instanceof BadYaml)) throw cause;
    throw new TextureError('bad-job', `${at(path, cause.position)} ${cause.message}`, { cause });
  }
}

function at(path: string, { line, column }: JobPosition): string {
  return `${showPath(path)}:${line}:${column}:`;
}

function inWords(path: string, { locate }: ParsedJob, faults: readonly BadJob[]): TextureError {
  const placed = faults
    .map((fault) => ({ fault, position: locate(fault.path, fault.atKey) }))
    .sort((a, b) => a.position.line - b.position.line || a.position.column - b.position.column);
  const [first, ...others] = placed;
  if (first === undefined) throw new Error('no fault to explain');
  const { fault, position } = first;
  const lines = [...new Set(others.map((other) => other.position.line))];
  const more =
    others.length === 0
      ? ''
      : ` (and ${others.length + 1 >= mostFaults ? 'many' : others.length} more, in line${lines.length === 1 ? '' : 's'} ${lines.slice(0, 5).join(', ')}${lines.length > 5 ? '…' : ''})`;
  return new TextureError('bad-job', `${at(path, position)} ${showPath(fault.message)}${more}`, {
    ...(fault.hint !== undefined && { hint: showPath(fault.hint) }),
    cause: fault,
  });
}
