import { writeSync } from 'node:fs';
import { readers } from './readers/index.js';
import { shrink } from './shrink.js';
import { caseOf, type Fault, stockOf, tryCase } from './try-case.js';

/** What a child tells whoever started it. */
export type ChildWord =
  | {
      readonly kind: 'fault';
      readonly index: number;
      readonly fault: Fault;
      readonly bytes: string;
    }
  | { readonly kind: 'done'; readonly next: number; readonly mebibytes: number };

// Of one kind however often they are met: by their first line without its numbers, and where they were thrown.
const signature = ({ kind, what }: Fault): string => {
  const [first = '', ...frames] = what.split('\n');
  const frame = frames.find((line) => /^\s+at /.test(line)) ?? '';
  return `${kind} ${first.replace(/["'].*["']|\d+/g, '')} ${frame.trim()}`;
};

let tries = 0;
const told = new Set<string>();
const tell = (word: ChildWord): void => void process.send?.(word);

// Written over in place, so that whoever watches knows which case never came back.
const place = Buffer.alloc(8);
const noteIndex = (index: number): void => {
  place.writeDoubleLE(index);
  writeSync(3, place, 0, 8, 0);
};

const [name = '', seed = '1', from = '0', minutes = '1'] = process.argv.slice(2);
const reader = readers.find((one) => one.name === name);
if (reader === undefined) throw new Error(`no reader named ${name}`);
const stock = await stockOf(reader);
const end = performance.now() + 60_000 * Number(minutes);
let index = Number(from);
while (performance.now() < end) {
  noteIndex(index);
  const bytes = caseOf(stock, Number(seed), index);
  const fault = await tryCase(reader, bytes);
  if (fault !== null && !told.has(signature(fault))) {
    told.add(signature(fault));
    const again = async (smaller: Buffer): Promise<boolean> => {
      noteIndex(index + (tries++ % 1000) / 2000);
      const other = await tryCase(reader, smaller);
      return other !== null && signature(other) === signature(fault);
    };
    const least = fault.kind === 'threw' ? await shrink(bytes, again, 20) : bytes;
    tell({ kind: 'fault', index, fault, bytes: least.toString('base64') });
    // The most memory there ever was hides what comes after.
    if (fault.kind === 'memory') break;
  }
  index++;
  // So that what was told gets out, and files are closed.
  if (index % 256 === 0) await new Promise((resolve) => setImmediate(resolve));
}
tell({ kind: 'done', next: index + 1, mebibytes: process.memoryUsage.rss() / 2 ** 20 });
process.disconnect();
