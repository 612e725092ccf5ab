import { getSystemErrorMap } from 'node:util';
import { noticeLine } from './print/notice-line.js';
import { run } from './run.js';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // A pipe to `head` closes early: that is the reader's right, and no failure of ours.
  if (error.code === 'EPIPE') return;
  const reason = getSystemErrorMap().get(error.errno ?? 0)?.[1] ?? error.message;
  process.stderr.write(noticeLine('error', `standard output cannot be written: ${reason}`, false));
  // Told before the command has ended or after: what it ends with stays, but for success.
  process.on('exit', (code) => {
    if (code === 0) process.exitCode = 1;
  });
});
// Nobody is left to be told.
process.stderr.on('error', () => undefined);

process.exitCode = await run(process.argv.slice(2));
