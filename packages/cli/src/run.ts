import { createRequire } from 'node:module';
import { commands } from './commands/list.js';
import { overview } from './print/overview.js';

/**
 * Run one command line. What most people type first, help and version, is answered without loading
 * the parser of options, which alone costs more than the rest.
 *
 * @param words - What stands after the program's name.
 * @returns The exit code: 0 done, 1 the picture or file does not allow it, 2 the command was wrong.
 */
export async function run(words: readonly string[]): Promise<number> {
  const [first = '', second] = words;
  if (first === '--version') {
    process.stdout.write(`${version()}\n`);
    return 0;
  }
  if (!['help', '--help', '-h'].includes(first)) {
    const { runCommand } = await import('./run-command.js');
    return runCommand(words);
  }
  // `gaugerod help fill` and `gaugerod --help fill` mean one command.
  if (second !== undefined && !second.startsWith('-')) return run([second, '--help']);
  process.stdout.write(overview(commands));
  return 0;
}

function version(): string {
  const manifest = createRequire(import.meta.url)('gaugerod/package.json') as { version: string };
  return manifest.version;
}
