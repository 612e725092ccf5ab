import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { tempFolder } from '../support/temp-folder.js';

const main = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));

// Lines from anywhere to anywhere: the renderer takes seconds over them, and cannot be stopped.
function scribble(pieces: number): string {
  let state = 1;
  const next = (): string => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((28 * (state >>> 0)) / 2 ** 32).toFixed(3);
  };
  const path = Array.from({ length: pieces }, () => `L${next()} ${next()}`).join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="30mm" viewBox="0 0 30 30"><path fill="none" stroke="#000" stroke-width=".05" d="M0 0${path}"/></svg>`;
}

const onUnix = test.skipIf(process.platform === 'win32');

onUnix.each([1, 2])(
  'an interrupt while something long is drawn ends the command, and leaves nothing (%d of them)',
  async (times) => {
    const folder = tempFolder();
    writeFileSync(join(folder, 'scribble.svg'), scribble(3500));
    const words = [main, 'sheet', 'scribble.svg', '-o', 'page.png', '--paper', 'A5'];
    const running = spawn(process.execPath, words, { cwd: folder, stdio: 'ignore' });
    await expect.poll(() => readdirSync(folder).length, { timeout: 120_000 }).toBe(2);
    const exit = once(running, 'exit');
    running.kill('SIGINT');
    if (times > 1) {
      await wait(20);
      running.kill('SIGINT');
    }
    const ended: readonly unknown[] = await exit;
    // A shell says 130 of both.
    expect([
      [130, null],
      [null, 'SIGINT'],
    ]).toContainEqual(ended);
    expect(readdirSync(folder)).toEqual(['scribble.svg']);
  },
);
