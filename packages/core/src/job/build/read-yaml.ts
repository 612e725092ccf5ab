import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { readBytes } from '../../read/read-bytes.js';
import type { BadJob } from './bad-job.js';
import { checkShape, mostFaults } from './check-shape.js';
import { BadYaml, type JobPosition, parseJob, type ParsedJob } from './parse-job.js';
import type { YamlForm } from './yaml-form.js';

/** A file as read: it has the right form. */
export interface YamlFile {
  /** As the user gave it. */
  readonly path: string;
  /** As it was read. */
  readonly text: string;
  /** What it holds, values still as written; null where that is nothing. */
  readonly data: unknown;
  /**
   * Put what is wrong with a place of it into words.
   *
   * @param faults - One or more.
   * @returns An error to throw: the first of them, by its line and column.
   */
  readonly explain: (faults: readonly BadJob[]) => TextureError;
}

/**
 * Read a file that people write and hold it against its form.
 *
 * @param path - Where it lies.
 * @param form - What it is to hold.
 * @returns What it holds.
 * @throws TextureError of the form's code, with file, line and column, or why the file cannot be read.
 */
export async function readYaml(path: string, form: YamlForm): Promise<YamlFile> {
  return parseYaml(path, decode(path, await readBytes(path, 'yaml'), form), form);
}

/**
 * Hold the text of such a file against its form.
 *
 * @param path - Where it lies, for messages alone.
 * @param text - Of it.
 * @param form - What it is to hold.
 * @returns What it holds.
 * @throws TextureError of the form's code, with file, line and column.
 */
export function parseYaml(path: string, text: string, form: YamlForm): YamlFile {
  const parsed = parse(path, text, form);
  const explain = (faults: readonly BadJob[]): TextureError =>
    inWords({ path, ...parsed, form }, faults);
  const faults = checkShape(parsed.data, form);
  if (faults.length > 0) throw explain(faults);
  return { path, text, data: parsed.data, explain };
}

function decode(path: string, bytes: Buffer, { code }: YamlForm): string {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    if (!text.includes('\0')) return text;
  } catch {
    // Said below.
  }
  throw new TextureError(code, `${showPath(path)} is no text in UTF-8`, {
    hint: 'save it as plain text, UTF-8',
  });
}

function parse(path: string, text: string, { code, what }: YamlForm): ParsedJob {
  try {
    return parseJob(text, what);
  } catch (cause) {
    if (!(cause instanceof BadYaml)) throw cause;
    throw new TextureError(code, `${at(path, cause.position)} ${cause.message}`, { cause });
  }
}

function at(path: string, { line, column }: JobPosition): string {
  return `${showPath(path)}:${line}:${column}:`;
}

interface Placed extends Pick<ParsedJob, 'locate'> {
  readonly path: string;
  readonly form: YamlForm;
}

function inWords({ path, locate, form }: Placed, faults: readonly BadJob[]): TextureError {
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
  return new TextureError(form.code, `${at(path, position)} ${showPath(fault.message)}${more}`, {
    ...(fault.hint !== undefined && { hint: showPath(fault.hint) }),
    cause: fault,
  });
}
