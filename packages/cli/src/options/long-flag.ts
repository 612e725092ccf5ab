import type { Option } from './option.js';

/**
 * Name an option as the user knows it.
 *
 * @param option - With or without a short form and a value.
 * @returns `--output` for `-o, --output <file>`.
 */
export function longFlag(option: Option): string {
  return /--[a-z-]+/.exec(option.flag)?.[0] ?? option.flag;
}
