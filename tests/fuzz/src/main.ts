import { parseArgs } from 'node:util';
import { type FoundFault, fuzzReader } from './fuzz-reader.js';
import { readers } from './readers/index.js';
import { caseOf, stockOf, tryCase } from './try-case.js';

const { values } = parseArgs({
  options: {
    reader: { type: 'string', multiple: true, default: readers.map(({ name }) => name) },
    minutes: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    from: { type: 'string', default: '0' },
    case: { type: 'string' },
  },
});

const chosen = values.reader.flatMap((word) => {
  const found = readers.filter(({ name }) => name === word);
  if (found.length === 0) {
    console.error(
      `no reader named ${word}; there are: ${readers.map(({ name }) => name).join(', ')}`,
    );
    process.exitCode = 2;
  }
  return found;
});

function toNumber(name: 'minutes' | 'seed' | 'from' | 'case'): number {
  const value = Number(values[name]);
  if (Number.isFinite(value) && value >= 0) return value;
  console.error(`expected a number for --${name}, got ${values[name] ?? 'nothing'}`);
  process.exit(2);
}

function show(bytes: Buffer): string {
  const text = bytes.toString('utf8');
  const isText = Buffer.from(text).equals(bytes);
  const shown = isText ? JSON.stringify(text) : bytes.toString('base64');
  return shown.length > 2000 ? `${shown.slice(0, 2000)}... (${bytes.length} bytes)` : shown;
}

function tell(name: string, { index, fault, bytes }: FoundFault): void {
  console.log(`fault: npm run fuzz -- --reader ${name} --seed ${values.seed} --case ${index}`);
  console.log(`  ${fault.kind}: ${fault.what.replaceAll('\n', '\n  ')}`);
  if (bytes !== null) console.log(`  ${show(bytes)}`);
}

if (values.case !== undefined) {
  for (const reader of chosen) {
    const bytes = caseOf(await stockOf(reader), toNumber('seed'), toNumber('case'));
    const fault = await tryCase(reader, bytes);
    if (fault !== null) tell(reader.name, { index: toNumber('case'), fault, bytes });
    else console.log(`${reader.name}: held\n  ${show(bytes)}`);
  }
} else {
  const options = { seed: toNumber('seed'), minutes: toNumber('minutes'), from: toNumber('from') };
  for (const { name } of chosen) {
    const { cases, seconds, faults, mebibytes } = await fuzzReader(name, options);
    for (const fault of faults) tell(name, fault);
    const [time, memory] = [seconds.toFixed(0), mebibytes.toFixed(0)];
    console.log(
      `${name}: ${cases} cases in ${time} s, ${faults.length} faults, ${memory} MiB held`,
    );
    if (faults.length > 0) process.exitCode = 1;
  }
}
