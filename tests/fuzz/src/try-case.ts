import { TextureError } from '@gaugerod/core';
import { createRandom, seedOf } from '@gaugerod/fixtures';
import { mutate, type MutationStock } from './mutate.js';
import type { Reader } from './reader.js';

/** What went wrong with a case. */
export interface Fault {
  /** `threw`, `slow`, `memory`, `ended`. */
  readonly kind: string;
  /** In words. */
  readonly what: string;
}

/** How long a case may take, and how much memory more. */
export const limits = { seconds: 10, mebibytes: 400 } as const;

/**
 * Make ready to make a reader's cases.
 *
 * @param reader - Whose.
 * @returns What they are made of.
 */
export async function stockOf(reader: Reader): Promise<MutationStock> {
  const { words, change } = reader;
  const seeds = await reader.seeds();
  return { seeds, words: words.map((word) => Buffer.from(word)), ...(change && { change }) };
}

/**
 * Make a case: the same one whenever it is asked for.
 *
 * @param stock - What it is made of.
 * @param seed - Any integer.
 * @param index - Which, from 0.
 * @returns The file.
 */
export function caseOf(stock: MutationStock, seed: number, index: number): Buffer {
  return mutate(createRandom(seedOf(seed, index)), stock);
}

// One line that a person can be told.
const isLine = (text: string): boolean => text !== '' && !/[\n\r]/.test(text);

/**
 * Tell a refusal, as the library promises it, from a fault.
 *
 * @param error - Whatever was thrown.
 * @param reader - By which.
 * @returns Whether it is one.
 */
function isRefusal(error: unknown, reader: Reader): boolean {
  if (!(error instanceof Error)) return false;
  // May quote the file: it is for whoever puts it into words to do so in one line.
  if (reader.refusals?.some((kind) => error instanceof kind) === true) return true;
  if (!isLine(error.message)) return false;
  // The engine's own RangeErrors are of stacks and lengths.
  if (error instanceof RangeError) return error.message.startsWith('expected ');
  return error instanceof TextureError && (error.hint === undefined || isLine(error.hint));
}

/**
 * Try a case.
 *
 * @param reader - Which reads it.
 * @param bytes - The file.
 * @returns What went wrong, or null.
 */
export async function tryCase(reader: Reader, bytes: Buffer): Promise<Fault | null> {
  // Of the processor: whoever else works on the machine is not to blame a reader for.
  const begun = process.cpuUsage();
  const [held, most] = [process.memoryUsage.rss() / 2 ** 20, peak()];
  try {
    await reader.read(bytes);
  } catch (error) {
    if (!isRefusal(error, reader)) {
      const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
      return { kind: 'threw', what: words.split('\n').slice(0, 6).join('\n') };
    }
  }
  const { user, system } = process.cpuUsage(begun);
  const seconds = (user + system) / 1e6;
  if (seconds > limits.seconds) return { kind: 'slow', what: `took ${seconds.toFixed(1)} s` };
  // Of the most there ever was: it may have been let go of by now.
  const grown = peak() > most ? peak() - held : 0;
  return grown > limits.mebibytes ? { kind: 'memory', what: `took ${grown.toFixed(0)} MiB` } : null;
}

const peak = (): number => process.resourceUsage().maxRSS / 1024;
