import type { Random } from '@gaugerod/fixtures';
import type { Reader } from './reader.js';

/** What mutations are made of. */
export interface MutationStock {
  /** Whole files. */
  readonly seeds: readonly Uint8Array[];
  /** Words of the format. */
  readonly words: readonly Uint8Array[];
  /** Changes that know the form. */
  readonly change?: Reader['change'];
}

type Mutation = (bytes: Buffer, random: Random, stock: MutationStock) => Buffer;

const pick = (random: Random, count: number): number => Math.floor(random.next() * count);

// Sizes at which counters, signs and buffers turn over.
const edges = [0, 1, 2, 7, 8, 127, 128, 255, 256, 32_767, 32_768, 65_535, 65_536];
const wide = [2 ** 31 - 1, 2 ** 31, 2 ** 32 - 1, 2 ** 24];

// Numbers in words that parsers stumble over.
const numbers = [
  ...[
    '0',
    '-0',
    '-1',
    '1e308',
    '1e309',
    '-1e309',
    '1e-320',
    'NaN',
    'Infinity',
    '99999999999999999999',
  ],
  ...[
    '0x10',
    '1e',
    '.',
    '-',
    '1.5.5',
    '0.1e+999',
    '１２',
    '٣',
    '4294967296',
    '2147483648',
    '1e6',
    '1e9',
  ],
];

const strange = [
  '\0',
  '\ufeff',
  '\u202e',
  '\r',
  '\n',
  '\t',
  '"',
  "'",
  '\\',
  '%',
  '&',
  '<',
  '\ud83e\uddf1',
  'é',
  '/../',
  ' ',
];

function splice(bytes: Buffer, from: number, to: number, between: Uint8Array): Buffer {
  return Buffer.concat([bytes.subarray(0, from), between, bytes.subarray(to)]);
}

function slice(bytes: Buffer, random: Random): { readonly from: number; readonly to: number } {
  const from = pick(random, bytes.length + 1);
  // Short ones as often as long ones.
  const longest = bytes.length - from;
  const length = Math.min(longest, Math.floor(longest ** random.next()));
  return { from, to: from + length };
}

// Numbers and signs, wherever they stand.
export const strangeTexts: readonly string[] = [...numbers, ...strange];

function insert(bytes: Buffer, random: Random, word: string | Uint8Array): Buffer {
  const at = pick(random, bytes.length + 1);
  return splice(bytes, at, at, Buffer.from(word));
}

const digits = /[+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?/gi;

// In place of a number that stands there.
function replaceNumber(bytes: Buffer, random: Random): Buffer {
  const text = bytes.toString('latin1');
  const found = [...text.matchAll(digits)];
  const { index, 0: whole } = found[pick(random, found.length)] ?? { index: 0, 0: '' };
  const value = Buffer.from(numbers[pick(random, numbers.length)] ?? '0');
  return splice(bytes, index, index + whole.length, value);
}

const mutations: readonly Mutation[] = [
  // A bit.
  (bytes, random) => {
    const out = Buffer.from(bytes);
    const at = pick(random, out.length);
    out[at] = (out[at] ?? 0) ^ (1 << pick(random, 8));
    return out;
  },
  // A byte.
  (bytes, random) => {
    const out = Buffer.from(bytes);
    out[pick(random, out.length)] = pick(random, 256);
    return out;
  },
  // What may be a length, a count or an offset.
  (bytes, random) => {
    if (bytes.length < 8) return bytes;
    const out = Buffer.from(bytes);
    const at = pick(random, Math.min(out.length, random.next() < 0.5 ? 512 : out.length) - 4);
    if (at < 0) return bytes;
    const value =
      [...edges, ...wide, out.length][pick(random, edges.length + wide.length + 1)] ?? 0;
    const isBig = random.next() < 0.5;
    const [size, most] = random.next() < 0.5 ? [2, 2 ** 16] : [4, 2 ** 32];
    if (isBig) out.writeUIntBE(value % most, at, size);
    else out.writeUIntLE(value % most, at, size);
    return out;
  },
  // A piece left out.
  (bytes, random) => {
    const { from, to } = slice(bytes, random);
    return splice(bytes, from, to, Buffer.alloc(0));
  },
  // A piece said again, elsewhere.
  (bytes, random) => {
    const { from, to } = slice(bytes, random);
    const at = pick(random, bytes.length + 1);
    return splice(bytes, at, at, bytes.subarray(from, to));
  },
  // A piece many times.
  (bytes, random) => {
    const { from, to } = slice(bytes, random);
    const piece = bytes.subarray(from, Math.min(to, from + 64));
    const times = 2 + pick(random, 300);
    return splice(bytes, from, from, Buffer.concat(Array.from({ length: times }, () => piece)));
  },
  // A byte so often that whoever goes over it once for each is done late.
  (bytes, random) => {
    if (random.next() < 0.8) return bytes;
    const at = pick(random, bytes.length + 1);
    return splice(bytes, at, at, Buffer.alloc(1000 * 2 ** pick(random, 8), bytes[at] ?? 0x20));
  },
  // The end missing.
  (bytes, random) => bytes.subarray(0, pick(random, bytes.length + 1)),
  // The head of one, the tail of another.
  (bytes, random, { seeds }) => {
    const other = Buffer.from(seeds[pick(random, seeds.length)] ?? bytes);
    return Buffer.concat([
      bytes.subarray(0, pick(random, bytes.length + 1)),
      other.subarray(pick(random, other.length + 1)),
    ]);
  },
  (bytes, random, { words }) => insert(bytes, random, words[pick(random, words.length)] ?? ''),
  // A word in place of as much.
  (bytes, random, { words }) => {
    const word = words[pick(random, words.length)] ?? Buffer.alloc(0);
    const at = pick(random, bytes.length + 1);
    return splice(bytes, at, at + word.length, word);
  },
  // A word in place of another.
  (bytes, random, { words }) => {
    const [from, to] = [words[pick(random, words.length)], words[pick(random, words.length)]];
    if (from === undefined || to === undefined) return bytes;
    const at = bytes.indexOf(from, pick(random, bytes.length));
    return at === -1 ? insert(bytes, random, to) : splice(bytes, at, at + from.length, to);
  },
  replaceNumber,
  replaceNumber,
  (bytes, random) => insert(bytes, random, numbers[pick(random, numbers.length)] ?? ''),
  (bytes, random) => insert(bytes, random, strange[pick(random, strange.length)] ?? ''),
];

// Past this a case takes its time by its length alone.
const longest = 4e6;

/**
 * Change a file as a broken disk, a careless program or someone who means harm might.
 *
 * @param random - What decides.
 * @param stock - What it is made of.
 * @returns A file that may be whole or none at all.
 */
export function mutate(random: Random, stock: MutationStock): Buffer {
  let bytes: Buffer = Buffer.from(stock.seeds[pick(random, stock.seeds.length)] ?? []);
  if (stock.change !== undefined && random.next() < 0.5) return stock.change(bytes, random);
  const count = 1 + Math.floor(6 * random.next() ** 2);
  for (let i = 0; i < count; i++) {
    bytes = mutations[pick(random, mutations.length)]?.(bytes, random, stock) ?? bytes;
  }
  return bytes.subarray(0, longest);
}
