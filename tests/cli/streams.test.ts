import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { atHome } from '../support/run-gaugerod.js';

const main = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));

// A line of the shell with "$@" for the command and its words.
function inShell(line: string, words: readonly string[]): { exit: number | null; said: string } {
  const { status, stderr } = spawnSync(
    'bash',
    ['-c', line, 'bash', process.execPath, main, ...words],
    { encoding: 'utf8', timeout: 240_000, env: { ...process.env, ...atHome(process.cwd()) } },
  );
  return { exit: status, said: stderr };
}

// Where every write fails as on a full disk (Linux, full(4)).
describe.skipIf(!existsSync('/dev/full'))('a disk that is full', () => {
  test.each([
    ['a result', ['scale', '9.9m', '--scale', 'N-UK']],
    ['the help', ['--help']],
    ['the help of a command', ['fill', '--help']],
    ['the version', ['--version']],
  ])('%s that cannot be printed fails with one line', (_, words) => {
    expect(inShell('"$@" > /dev/full', words)).toEqual({
      exit: 1,
      said: 'error: standard output cannot be written: no space left on device\n',
    });
  });

  test('a command that was wrong stays wrong, and says so', () => {
    const { exit, said } = inShell('"$@" > /dev/full', ['scale', '1m', '--scale', 'N', '--json']);
    expect(exit).toBe(2);
    expect(said).toMatch(/^error: expected one of N-EU/m);
    expect(said).not.toContain('    at ');
  });

  test('a message that cannot be printed changes no exit code', () => {
    expect(inShell('"$@" 2> /dev/full', ['scale', '1m', '--scale', 'N']).exit).toBe(2);
  });
});

// bash alone tells how the first of two commands ended.
describe.skipIf(process.platform === 'win32')('a reader that has read enough', () => {
  const line = '{ "$@"; echo "$?" >&2; } | true';

  test('is no failure of ours', () => {
    expect(inShell(line, ['reference'])).toEqual({ exit: 0, said: '0\n' });
  });

  test.each([
    [1, ['measure', 'missing.jpg', '--course', '75mm', '--json']],
    [2, ['scale', '1m', '--scale', 'N', '--json']],
  ])('does not turn exit code %i into 0', (code, words) => {
    expect(inShell(line, words).said).toMatch(new RegExp(`\\n${code}\\n$`));
  });
});
