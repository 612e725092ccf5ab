import { existsSync, readdirSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { measureMixed } from './measure-mixed.js';

const { values } = parseArgs({
  options: {
    files: { type: 'string', default: '4000' },
    seed: { type: 'string', default: '1' },
  },
});
const [files, seed] = [Number(values.files), Number(values.seed)];
if (!(Number.isInteger(files) && files > 0 && Number.isInteger(seed))) {
  console.error('expected whole numbers for --files and --seed');
  process.exit(2);
}

// Linux alone lists them; memory is asked for everywhere.
const opened = (): number =>
  existsSync('/proc/self/fd') ? readdirSync('/proc/self/fd').length : 0;
const marks: { readonly done: number; readonly mebibytes: number; readonly open: number }[] = [];
const every = Math.max(1, Math.floor(files / 8));
const since = performance.now();
const { ends, bugs, slowest } = await measureMixed({
  files,
  seed,
  onEach: (done) => {
    if (done % every !== 0) return;
    const mebibytes = process.memoryUsage.rss() / 2 ** 20;
    marks.push({ done, mebibytes, open: opened() });
    console.log(`${done} pictures: ${mebibytes.toFixed(0)} MiB held, ${opened()} files open`);
  },
});
const seconds = ((performance.now() - since) / 1000).toFixed(0);
console.log(`${files} pictures in ${seconds} s, the slowest ${slowest.toFixed(0)} ms`);
for (const [end, count] of [...ends].toSorted((a, b) => b[1] - a[1]))
  console.log(`  ${end} ${count}`);
for (const bug of bugs) console.log(`  fault: ${bug}`);
// The first eighths fill what stays; what grows after them grows without end.
const [quarter, last] = [marks[1], marks.at(-1)];
const grown = (last?.mebibytes ?? 0) - 1.1 * (quarter?.mebibytes ?? 0) > 20;
const leaks = (last?.open ?? 0) > (quarter?.open ?? 0);
if (grown) console.log('  fault: memory grows with the number of pictures');
if (leaks) console.log('  fault: files stay open');
if (bugs.length > 0 || grown || leaks) process.exitCode = 1;
