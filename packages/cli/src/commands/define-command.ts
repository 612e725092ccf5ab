import type { Outcome, ToldSetting } from '@gaugerod/core';
import { longFlag } from '../options/long-flag.js';
import type { Options, Texts, Values } from '../options/option.js';
import { readOptions } from '../options/read-options.js';
import type { Command, Surroundings, Words } from './command.js';

/** One command: its words, its options, one call of a job, and its result in plain words. */
export interface CommandDefinition<Given extends Options, Value extends object> extends Words {
  /** By the name the values go under, in the order the help shows them. */
  readonly options: Given;
  /** Which of them may be set for all commands, by what was typed; none where left out. */
  readonly usual?: (texts: Texts) => readonly ToldSetting[];
  /** Call the job. What came after the first positional argument, where it takes several, is last. */
  readonly run: (
    argument: string,
    values: Values<Given>,
    surroundings: Surroundings,
    others: readonly string[],
  ) => Promise<Outcome<Value, string>>;
  /** The result in plain words, line by line. */
  readonly describe: (value: Value) => readonly string[];
  /** Where programs were shown all of it, piece by piece: how many pieces failed; null where it is one. */
  readonly failedOf?: (value: Value) => number | null;
}

/**
 * Make a command from its definition, so that whoever runs it need not know its types.
 *
 * @param definition - All that is particular to it.
 * @returns What the help shows and the command line runs.
 */
export function defineCommand<const Given extends Options, Value extends object>(
  definition: CommandDefinition<Given, Value>,
): Command {
  const { run, describe, failedOf = () => null, ...words } = definition;
  return {
    ...words,
    async execute([argument = '', ...others], texts, surroundings) {
      const values = readOptions(definition.options, texts, surroundings);
      const typed = (error: unknown): never => {
        throw asTyped(error, definition.options);
      };
      const around: Surroundings = {
        ...surroundings,
        show: (work, photo) => surroundings.show(() => work().catch(typed), photo),
      };
      const outcome = await run(argument, values, around, others).catch(typed);
      if (!outcome.ok) return outcome;
      const { value, warnings } = outcome;
      const failed = failedOf(value);
      const json = failed === null ? { ...value, warnings } : null;
      const report = { ok: true, lines: describe(value), json, warnings } as const;
      return failed === null || failed === 0 ? report : { ...report, exit: 1 };
    },
  };
}

// Two switches are one option of a job's.
const asSwitch = (_: string, straighten: string): string =>
  ` for ${straighten === 'none' ? '--no-rectify' : '--level-only'}, got it`;

// A job's options bear the names of ours: `realSize` there is `--real-size` here, and `spans` or a
// `span` of them is `--span`.
function asTyped(error: unknown, options: Options): unknown {
  if (!(error instanceof RangeError)) return error;
  const typed = error.message.replace(/ for straighten, got "(none|level)"$/, asSwitch);
  const message = typed.replace(/ for ([a-zA-Z]+), got /, (text, name: string) => {
    const option = Object.hasOwn(options, name)
      ? options[name]
      : Object.values(options).find((other) => longFlag(other) === `--${name}`);
    return option === undefined ? text : ` for ${longFlag(option)}, got `;
  });
  if (message === error.message) return error;
  return new RangeError(message.replace(/got undefined$/, 'got nothing'), { cause: error });
}
