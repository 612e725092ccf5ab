import type { UsedSetting } from '@gaugerod/core';

/**
 * Say what counted that nobody typed.
 *
 * @param used - What was set.
 * @param nameOf - How the user knows it: `--dpi`.
 * @returns A line for each file.
 */
export function settingLines(
  used: readonly UsedSetting[],
  nameOf: (name: string) => string,
): readonly string[] {
  const files = [...new Set(used.map(({ file }) => file))];
  return files.map((file) => {
    const told = used
      .filter((setting) => setting.file === file)
      .map(({ name, value }) => `${nameOf(name)} ${value}`);
    return `set in ${file}: ${told.join(', ')}`;
  });
}
