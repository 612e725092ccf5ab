import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { vi } from 'vitest';
import { run } from '../../packages/cli/src/run.js';

const bin = fileURLToPath(new URL('../../packages/cli/bin/gaugerod.js', import.meta.url));

/** What a run of the built command left behind. */
export interface Run {
  readonly exit: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

// What a developer set for all of their own work must not reach a test: no folder above, and none of the system's.
export function atHome(folder: string): Readonly<Record<string, string>> {
  return { HOME: folder, USERPROFILE: folder, XDG_CONFIG_HOME: join(folder, '.config') };
}

// Runs the built command as a user's shell would: a process of its own, nothing shared.
export function runGaugerod(words: readonly string[], folder: string, command = bin): Run {
  const { PATH } = process.env;
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: {
      ...(PATH === undefined ? {} : { PATH }),
      ...atHome(folder),
      TMPDIR: folder,
      TMP: folder,
      TEMP: folder,
    },
    timeout: 240_000,
  });
  return { exit: status, stdout, stderr };
}

// Runs the command in this process, which is quick: in a folder, or in none where nothing must reach the file system.
export async function runHere(words: readonly string[], folder = process.cwd()): Promise<Run> {
  const printed = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((text) => {
      printed[name] += String(text);
      return true;
    }),
  );
  const homes = atHome(folder);
  const before = Object.keys(homes).map((name) => [name, process.env[name]] as const);
  const here = process.cwd();
  Object.assign(process.env, homes);
  process.chdir(folder);
  try {
    const exit = await run(words);
    return { exit, ...printed };
  } finally {
    process.chdir(here);
    for (const [name, value] of before) {
      if (value === undefined) Reflect.deleteProperty(process.env, name);
      else process.env[name] = value;
    }
    for (const spy of spies) spy.mockRestore();
  }
}

// A word as a shell would need it written.
const quoted = (word: string): string => (/^[\w./:%@,=+-]+$/.test(word) ? word : `'${word}'`);

// A run as a person sees it: command, standard output, standard error, exit code.
export function transcript(words: readonly string[], { exit, stdout, stderr }: Run): string {
  return [
    `$ ${['gaugerod', ...words.map(quoted)].join(' ')}\n`,
    stdout,
    stderr === '' ? '' : `[standard error]\n${stderr}`,
    `[exit ${exit ?? 'by signal'}]\n`,
  ].join('');
}
