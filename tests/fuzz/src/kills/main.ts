import { parseArgs } from 'node:util';
import { strike, type StrikeOptions } from './strike.js';
import { victims } from './victims.js';

const { values } = parseArgs({
  options: {
    command: { type: 'string', multiple: true, default: victims.map(({ name }) => name) },
    times: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
    signal: { type: 'string', default: 'SIGKILL' },
  },
});
const signals: readonly StrikeOptions['signal'][] = ['SIGKILL', 'SIGINT', 'SIGTERM'];
const signal = signals.find((one) => one === values.signal);
const [times, seed] = [Number(values.times), Number(values.seed)];
const unknown = values.command.find((word) => !victims.some(({ name }) => name === word));
if (signal === undefined || !Number.isInteger(times) || !Number.isInteger(seed) || unknown) {
  const names = victims.map(({ name }) => name).join(', ');
  console.error(
    `expected --command (${names}), --times, --seed and --signal (${signals.join(', ')})`,
  );
  process.exit(2);
}
for (const victim of victims.filter(({ name }) => values.command.includes(name))) {
  const since = performance.now();
  const { struck, midway, old, whole, mixed, faults } = await strike(victim, {
    times,
    seed,
    signal,
  });
  const seconds = ((performance.now() - since) / 1000).toFixed(0);
  console.log(
    `${victim.name}: ${times} x ${signal} in ${seconds} s, ${struck} while it ran, ${midway} with a file begun; ${old} times all as before, ${whole} times all new, ${mixed} times some; ${faults.length} faults`,
  );
  for (const fault of faults) console.log(`  ${fault}`);
  if (faults.length > 0) process.exitCode = 1;
}
