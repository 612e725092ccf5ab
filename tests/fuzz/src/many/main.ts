import { existsSync, readdirSync } from 'node:fs';
import { setImmediate } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { type Mark, judgeGrowth } from './judge-growth.js';
import { measureMixed } from './measure-mixed.js';

const { values } = parseArgs({
  options: {
    files: { type: 'string', default: '4000' },
    // Of a wider mix memory goes on growing for longer, and nobody could tell that from a leak.
    different: { type: 'string', default: '80' },
    seed: { type: 'string', default: '1' },
  },
});
const [files, different, seed] = [
  Number(values.files),
  Number(values.different),
  Number(values.seed),
];
if (!(
  [files, different].every((count) => count > 0) && [files, different, seed].every(Number.isInteger)
)) {
  console.error('expected whole numbers for --files, --different and --seed');
  process.exit(2);
}

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
// Linux alone lists them; memory is asked for everywhere.
const opened = (): number =>
  existsSync('/proc/self/fd') ? readdirSync('/proc/self/fd').length : 0;
const marks: Mark[] = [];
// After the same picture each time: the last one is still held.
const every = Math.max(1, Math.floor(files / 40 / different)) * different;
const since = performance.now();
const secondsSince = (): string => ((performance.now() - since) / 1000).toFixed(0);

async function mark(done: number): Promise<void> {
  if (done % every !== 0) return;
  // What the decoder gave is let go between two turns of the loop, and its memory at the next collection.
  for (let times = 0; times < 3; times++) {
    collect();
    await setImmediate();
  }
  const { rss, heapUsed, external } = process.memoryUsage();
  const one = { done, resident: rss, held: heapUsed + external, open: opened() };
  marks.push(one);
  const inMebibytes = (bytes: number): string => (bytes / 2 ** 20).toFixed(1);
  console.log(
    `${done} pictures in ${secondsSince()} s: ${inMebibytes(rss)} MiB, ${inMebibytes(one.held)} of them in use, ${one.open} files open`,
  );
}

const { ends, bugs, slowest } = await measureMixed({ files, different, seed, onEach: mark });
console.log(`${files} pictures in ${secondsSince()} s, the slowest ${slowest.toFixed(0)} ms`);
for (const [end, count] of [...ends].toSorted((a, b) => b[1] - a[1]))
  console.log(`  ${end} ${count}`);
const { told, faults } = judgeGrowth(marks);
console.log(told);
for (const fault of [...bugs, ...faults]) console.log(`  fault: ${fault}`);
if (bugs.length + faults.length > 0) process.exitCode = 1;
