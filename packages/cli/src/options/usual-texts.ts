import type { SettingName, UsedSetting } from '@gaugerod/core';
import type { Command, Surroundings } from '../commands/command.js';
import { longFlag } from './long-flag.js';
import type { Texts } from './option.js';
import { isTextureError } from '../print/to-failure.js';
import { UsageError } from '../print/usage-error.js';

/** Options with what is set for those that were not typed. */
interface UsualTexts {
  /** All of them. */
  readonly texts: Texts;
  /** What of it was set, and counts. */
  readonly used: readonly UsedSetting[];
}

/**
 * Put what is set for all commands where a command takes it and nothing was typed.
 *
 * @param command - Which.
 * @param texts - Its options as typed.
 * @param surroundings - The library, and what is set.
 * @returns Its options.
 */
export function usualTexts(
  command: Command,
  texts: Texts,
  surroundings: Pick<Surroundings, 'core' | 'settings'>,
): UsualTexts {
  const { core, settings } = surroundings;
  const isOpen = (name: SettingName): boolean => {
    const isTyped = texts[name] !== undefined || core.isRuledOut(name, texts);
    return !isTyped && settings.values[name] !== undefined;
  };
  const names = (command.usual?.(texts) ?? []).filter(isOpen);
  // A limit changes nothing of what is made: it is not told of.
  const limits = core.limitOptions.filter((name) => name in command.options && isOpen(name));
  const set = [...names, ...limits].map((name) => [name, settings.values[name]?.text] as const);
  const all: Texts = { ...texts, ...Object.fromEntries(set) };
  const { scale, region } = all;
  const isRegionUsed =
    region === undefined &&
    typeof scale === 'string' &&
    core.isRegionMeant(scale, settings.values.region?.text);
  return {
    texts: all,
    used: core.toUsed([...(isRegionUsed ? ['region' as const] : []), ...names], settings),
  };
}

/**
 * Say where a value comes from that nobody typed, if it is what a failure is about.
 *
 * @param error - Whatever was thrown.
 * @param command - That was run.
 * @param used - What was set and counted.
 * @returns The error to throw.
 */
export function blameSetting(
  error: unknown,
  command: Command,
  used: readonly UsedSetting[],
): unknown {
  if (isTextureError(error)) {
    // The one file that is set: what is wrong with it begins with its name.
    const file = used.find(({ name, value }) => name === 'printer' && isOf(error.message, value));
    return file === undefined ? error : Object.assign(error, { hint: hintOf(file, command) });
  }
  if (!(error instanceof RangeError || error instanceof UsageError)) return error;
  const blamed = used.find(({ name }) =>
    error.message.includes(` for ${flagOf(command, name)}, got `),
  );
  if (blamed === undefined) return error;
  return new UsageError(error.message, { hint: hintOf(blamed, command), cause: error });
}

function isOf(message: string, file: string): boolean {
  return message.startsWith(`${file} `) || message.startsWith(`${file}:`);
}

function hintOf({ name, file }: UsedSetting, command: Command): string {
  return `${flagOf(command, name)} is set in ${file}: give another, or --no-config`;
}

/**
 * Name an option of a command as the user knows it.
 *
 * @param command - Which.
 * @param name - What its value goes under.
 * @returns `--printer-x` for `printerX`.
 */
export function flagOf(command: Command, name: string): string {
  const option = command.options[name];
  return option === undefined ? name : longFlag(option);
}
