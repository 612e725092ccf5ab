import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { encodePhoto } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { noisePicture } from '../support/noise-picture.js';
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

onUnix('an interrupt between layers of card leaves all older files as they were', async () => {
  const folder = tempFolder();
  const names = ['', '-2-angles', '-3-flanges'].map((end) => `girder${end}.png`);
  const piece = ['--profile', 'plate-girder', '--depth', '1200', '--flange', '40', '--leg', '100'];
  const sheet = ['--length', '20m', '--scale', '1:76.2', '--copies', '12', '--layers'];
  const words = [main, 'relief', ...piece, ...sheet, '-o', 'girder.png'];
  for (const name of names) writeFileSync(join(folder, name), 'older');
  const running = spawn(process.execPath, words, { cwd: folder, stdio: 'ignore' });
  // The first is whole and waits for the others, the second is begun.
  await expect
    .poll(() => readdirSync(folder).length, { interval: 1, timeout: 60_000 })
    .toBe(names.length + 2);
  const exit = once(running, 'exit');
  running.kill('SIGINT');
  expect(await exit).toEqual([130, null]);
  expect(readdirSync(folder).sort()).toEqual([...names].sort());
  for (const name of names) expect(readFileSync(join(folder, name), 'utf8')).toBe('older');
});

onUnix('an interrupt while slim links pictures leaves none, nor the folder for them', async () => {
  const folder = tempFolder();
  const pictures = await Promise.all(
    Array.from({ length: 80 }, (_, seed) =>
      encodePhoto(noisePicture(40, 30, seed), { format: 'png' }),
    ),
  );
  const images = pictures.map(
    (png, i) =>
      `<image x="${i}" width="1" height="30" href="data:image/png;base64,${png.toString('base64')}"/>`,
  );
  const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="30mm" viewBox="0 0 80 30">${images.join('')}</svg>`;
  writeFileSync(join(folder, 'walls.svg'), drawing);
  const words = [main, 'slim', 'walls.svg', '--link', 'pictures', '-o', 'out.svg'];
  const running = spawn(process.execPath, words, { cwd: folder, stdio: 'ignore' });
  const linked = (): number => {
    const there = existsSync(join(folder, 'pictures'));
    return there ? readdirSync(join(folder, 'pictures')).length : 0;
  };
  await expect.poll(linked, { interval: 1, timeout: 60_000 }).toBeGreaterThan(2);
  const exit = once(running, 'exit');
  running.kill('SIGINT');
  expect(await exit).toEqual([130, null]);
  expect(readdirSync(folder)).toEqual(['walls.svg']);
});
