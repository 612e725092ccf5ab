import { UsageError } from '../print/usage-error.js';
import { longFlag } from './long-flag.js';
import type { Options, Reading, TextOption, Texts, Values } from './option.js';

/**
 * Turn the options' texts into values, each by its own parser.
 *
 * @param options - The command's options by name.
 * @param texts - As typed, by the same names.
 * @param surroundings - The library, and what is set for all commands.
 * @returns The values of those that were given.
 * @throws UsageError that names the option, and what came instead or that it is missing.
 */
export function readOptions<Given extends Options>(
  options: Given,
  texts: Texts,
  surroundings: Pick<Reading, 'core' | 'settings'>,
): Values<Given> {
  const values: Record<string, unknown> = {};
  for (const [key, option] of Object.entries(options)) {
    const text = texts[key];
    if (text === undefined) {
      if ('required' in option) throw new UsageError(`expected ${option.flag}, got none`);
      continue;
    }
    if (!('parse' in option) || text === true) {
      values[key] = true;
      continue;
    }
    const reading = { ...surroundings, name: longFlag(option), texts };
    values[key] =
      typeof text === 'string'
        ? readText(option, text, reading)
        : text.map((one) => readText(option, one, reading));
  }
  return values as Values<Given>;
}

function readText(option: TextOption<unknown>, text: string, reading: Reading): unknown {
  try {
    return option.parse(text, reading);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new UsageError(error.message, {
      cause: error,
      ...(option.hint !== undefined && { hint: option.hint }),
    });
  }
}
