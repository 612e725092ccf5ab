import { access, readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { TextureError } from '../errors/texture-error.js';
import { checkOutput, type OutputTarget } from './check-output.js';
import { inTurn } from './in-turn.js';
import { writeAtomically } from './write-atomically.js';

/** What a page that is pointed at is made of, beside what all of them have in common. */
export interface PointerPage {
  /** What a browser calls it. */
  readonly title: string;
  /** What its script is told. */
  readonly told: unknown;
  /** The picture it shows, JPEG. */
  readonly jpeg: Uint8Array;
}

// Bundled when the package is built; from sources, modules and bundle alike it lies here.
const template = new URL('../../dist/pointer.html', import.meta.url);

/**
 * Make sure before any work that a page can be written.
 *
 * @param path - Of the page, `.html`.
 * @param inputs - Files that must not be written over.
 * @returns Where it really goes.
 * @throws TextureError when the place does not allow it, or what all pages have in common is missing.
 */
export async function checkPointerPage(
  path: string,
  inputs: readonly string[],
): Promise<OutputTarget> {
  try {
    await access(template);
  } catch (cause) {
    const message = 'this copy of gaugerod holds no page to point at: pointer.html is missing';
    throw new TextureError('unreadable', message, { cause, hint: 'install or build it anew' });
  }
  return checkOutput(path, { inputs, extensions: ['.html', '.htm'] });
}

/**
 * Write a page on which a photo is measured by pointing at it: one file that asks for no other.
 *
 * @param path - Of the page, `.html`.
 * @param page - What is in it.
 * @param inputs - Files that must not be written over.
 * @throws TextureError when the place does not allow it.
 */
export async function writePointerPage(
  path: string,
  page: PointerPage,
  inputs: readonly string[],
): Promise<void> {
  const common = await readFile(fileURLToPath(template), 'utf8');
  const target = await checkPointerPage(path, inputs);
  await writeAtomically(path, target, inTurn(fillIn(common, page)));
}

function* fillIn(common: string, { title, told, jpeg }: PointerPage): Generator<Uint8Array> {
  // What is put in is never looked through again, so a name cannot pass for one of these.
  for (const piece of common.split(/(<!--(?:title|told)-->|about:blank#picture)/)) {
    if (piece === '<!--title-->') yield Buffer.from(inMarkup(title));
    else if (piece === '<!--told-->') yield Buffer.from(inScript(told));
    else if (piece === 'about:blank#picture') {
      yield Buffer.from('data:image/jpeg;base64,');
      yield* inBase64(jpeg);
    } else yield Buffer.from(piece);
  }
}

// Piece by piece, each of whole groups of three bytes, so that it is never held as one text.
function* inBase64(bytes: Uint8Array): Generator<Uint8Array> {
  const size = 3 << 16;
  for (let at = 0; at < bytes.length; at += size) {
    const { buffer, byteOffset, length } = bytes.subarray(at, at + size);
    yield Buffer.from(Buffer.from(buffer, byteOffset, length).toString('base64'));
  }
}

function inMarkup(text: string): string {
  const named = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' } as const;
  return text.replace(/[&<>"]/g, (letter) => named[letter as keyof typeof named]);
}

// Nothing in it can end the script that holds it.
function inScript(told: unknown): string {
  return JSON.stringify(told).replace(/</g, String.raw`\u003c`);
}
