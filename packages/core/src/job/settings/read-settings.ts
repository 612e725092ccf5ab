import { dirname, isAbsolute, join } from 'node:path';
import { findScale } from '../../catalogue/find-scale.js';
import type { FoundSettings } from '../../read/find-settings.js';
import { BadJob } from '../build/bad-job.js';
import { limitOptions } from '../../limits/limits.js';
import { readYaml, type YamlFile } from '../build/read-yaml.js';
import { checked, type Entry, takeKeys } from '../build/take-keys.js';
import { checkPrinting } from '../print/printing-options.js';
import { type ConfigData, configFields, configForm, configPrinting } from './config-form.js';
import { readIfThere } from './read-references.js';
import { filesOf, isRuledOut, type Setting, type SettingName, type Settings } from './settings.js';

/**
 * Read what a user set.
 *
 * @param found - Where it lies.
 * @returns All of it; of two files, what the nearer one says.
 * @throws TextureError `bad-config` or `bad-references`, with file, line and column, or why a file cannot be read.
 */
export async function readSettings(found: FoundSettings): Promise<Settings> {
  const files: YamlFile[] = [];
  for (const path of found.configs) files.push(await readYaml(path, configForm));
  for (const file of files) if (file.path !== found.own) refuseLimits(file);
  const values = files.map(takeValues).reduceRight(beside, {});
  checkScale(values, files);
  const told = files.find((file) => dataOf(file).references !== undefined);
  const referenceFile =
    told === undefined ? found.references : from(told, dataOf(told).references ?? '');
  // Where a file is named that is not there yet, the first reference makes it.
  const own = referenceFile === null ? null : await readIfThere(referenceFile);
  return {
    values,
    references: own?.references ?? [],
    referenceFile,
    files: filesOf(found.places, referenceFile),
  };
}

type Values = Settings['values'];

function dataOf({ data }: YamlFile): ConfigData {
  return (data ?? {}) as ConfigData;
}

// Whoever hands over a folder of photos or a job hands over the file of defaults in it, and would lift with it what
// keeps them out.
function refuseLimits(file: YamlFile): void {
  const name = limitOptions.find((one) => one in dataOf(file));
  if (name === undefined) return;
  const option = `--${name.replace(/[A-Z]/, (letter) => `-${letter.toLowerCase()}`)}`;
  explained(file, () => {
    const message = `expected limits in config.yaml of your own folder alone, got ${name}`;
    throw new BadJob([name], message, { atKey: true, hint: `put it there, or give ${option}` });
  });
}

function takeValues(file: YamlFile): Values {
  const data = dataOf(file);
  const printing: Entry = data.printing ?? {};
  explained(file, () => {
    takeKeys(configFields, data, []);
    const taken = takeKeys(configPrinting, printing, ['printing']);
    checked(
      () => {
        checkPrinting(taken);
      },
      printing,
      ['printing'],
    );
  });
  const { printer } = printing;
  const all = {
    ...keep(data, configFields),
    ...keep(printing, configPrinting),
    ...(typeof printer === 'string' && { printer: from(file, printer) }),
  };
  const entries = Object.entries<unknown>(all).map(([name, value]) => [
    name,
    { text: String(value), file: file.path },
  ]);
  return Object.fromEntries(entries) as Values;
}

function explained(file: YamlFile, check: () => void): void {
  try {
    check();
  } catch (cause) {
    if (!(cause instanceof BadJob)) throw cause;
    throw file.explain([cause]);
  }
}

function keep(entry: Entry, fields: object): Entry {
  return Object.fromEntries(Object.entries(entry).filter(([key]) => key in fields));
}

function beside(far: Values, near: Values): Values {
  const kept = Object.entries(far).filter(([name]) => !isRuledOut(name as SettingName, near));
  return { ...(Object.fromEntries(kept) as Values), ...near };
}

// A scale in one file may lean on the region in another.
function checkScale({ scale, region }: Values, files: readonly YamlFile[]): void {
  const file = files.find(({ path }) => path === scale?.file);
  if (scale === undefined || file === undefined) return;
  explained(file, () => {
    checkScaleText(scale, region);
  });
}

function checkScaleText({ text }: Setting, region: Setting | undefined): void {
  try {
    findScale(text, region === undefined ? {} : { usualRegion: region.text });
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    const hint = 'gaugerod reference scale lists the names';
    throw new BadJob(['scale'], cause.message, { cause, hint });
  }
}

function from({ path }: YamlFile, written: string): string {
  return isAbsolute(written) ? written : join(dirname(path), written);
}
