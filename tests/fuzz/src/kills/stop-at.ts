import fs from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';

// Loaded before a command: ends the process at one of the steps in which a file is written, most of which are over too
// soon to be met by chance. Without a number it tells how many there were.
const { KILL_AT: at, KILL_SIGNAL: signal = 'SIGKILL', KILL_COUNT: count } = process.env;
const { writeFileSync } = fs;
let steps = 0;

function step(): void {
  steps++;
  if (steps === Number(at)) process.kill(process.pid, signal);
  if (count !== undefined) writeFileSync(count, String(steps));
}

type Call = (this: unknown, ...given: unknown[]) => unknown;

// Before and after each of them is a moment of its own.
function around(call: Call): Call {
  return function stepped(...given) {
    step();
    const result = call.apply(this, given);
    if (!(result instanceof Promise)) {
      step();
      return result;
    }
    return result.then((value: unknown) => {
      step();
      return value;
    });
  };
}

function watch(owner: object, names: readonly string[]): void {
  for (const name of names) {
    const call = Reflect.get(owner, name) as Call;
    Reflect.set(owner, name, around(call));
  }
}

const open = promises.open.bind(promises);
promises.open = async (...given) => {
  const file = await open(...given);
  if (given[1] !== 'wx') return file;
  step();
  watch(file, ['writev', 'chmod', 'sync', 'close']);
  return file;
};
watch(promises, ['mkdir', 'rm', 'rename', 'link']);
watch(fs, ['renameSync', 'linkSync', 'copyFileSync', 'unlinkSync', 'writeFileSync']);
syncBuiltinESMExports();
