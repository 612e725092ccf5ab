import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { vi } from 'vitest';
import { run } from '../../packages/cli/src/run.js';

const main = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));

/** What a run of the built command left behind. */
export interface Run {
  readonly exit: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

// Runs the built command as a user's shell would: a process of its own, nothing shared.
export function runGaugerod(words: readonly string[], folder: string, command = main): Run {
  const { PATH } = process.env;
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...(PATH === undefined ? {} : { PATH }), TMPDIR: folder, TMP: folder, TEMP: folder },
    timeout: 60_000,
  });
  return { exit: status, stdout, stderr };
}

// Runs the command in this process, which is quick; nothing must reach the file system.
export async function runHere(words: readonly string[]): Promise<Run> {
  const printed = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((text) => {
      printed[name] += String(text);
      return true;
    }),
  );
  try {
    const exit = await run(words);
    return { exit, ...printed };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

// A word as a shell would need it written.
const quoted = (word: string): string => (/^[\w./:%@,=+-]+$/.test(word) ? word : `'${word}'`);

// The same as a person sees it: command, standard output, standard error, exit code.
export function transcript(words: readonly string[], folder: string): string {
  const { exit, stdout, stderr } = runGaugerod(words, folder);
  return [
    `$ ${['gaugerod', ...words.map(quoted)].join(' ')}\n`,
    stdout,
    stderr === '' ? '' : `[standard error]\n${stderr}`,
    `[exit ${exit ?? 'by signal'}]\n`,
  ].join('');
}
