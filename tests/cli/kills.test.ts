import { expect, test } from 'vitest';
import { strike } from '../fuzz/src/kills/strike.js';
import { victims } from '../fuzz/src/kills/victims.js';

// A few of the moments that `npm run kills` goes on choosing: processes are ended from outside, which Windows does
// in another way.
const onUnix = test.skipIf(process.platform === 'win32');

onUnix.each([
  ['fill', 'SIGKILL', 3],
  ['build', 'SIGKILL', 2],
  ['relief', 'SIGINT', 3],
] as const)('%s, ended by %s: files are whole, old or new', async (name, signal, times) => {
  const victim = victims.find((one) => one.name === name);
  if (victim === undefined) throw new Error(`no command named ${name}`);
  const { struck, faults } = await strike(victim, { times, seed: 3, signal });
  expect(faults).toEqual([]);
  // A step of writing is among the moments, which no run can be too quick for.
  expect(struck).toBeGreaterThan(0);
});
