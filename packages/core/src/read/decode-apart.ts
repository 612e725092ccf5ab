import { type ChildProcessByStdio, spawn } from 'node:child_process';
import type { Readable, Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import {
  DecodeFault,
  type DecodedSamples,
  type DecodeFaultKind,
  type DecodeLimits,
  samplesOf,
} from './decode-samples.js';

/** What a child is asked, before the file's bytes. */
export interface ApartRequest {
  /** Bytes of the file. */
  readonly bytes: number;
  /** As it is decoded here. */
  readonly limits: DecodeLimits;
  /** Bytes of memory past which it ends itself. */
  readonly memory: number;
}

/** What a child answers, before profile, EXIF block and samples. */
export type ApartReply =
  | {
      /** Tells it from a fault. */
      readonly ok: true;
      /** What is said of the picture. */
      readonly picture: Pick<
        DecodedSamples,
        'whole' | 'orientation' | 'pages' | 'space' | 'oddity'
      > & { readonly width: number; readonly height: number };
      /** Whether its samples are of 16 bits. */
      readonly deep: boolean;
      /** Bytes of its profile, of its EXIF block, of its samples: -1 for none. */
      readonly lengths: readonly [icc: number, exif: number, samples: number];
    }
  | {
      /** Tells it from a picture. */
      readonly ok: false;
      /** Why. */
      readonly kind: DecodeFaultKind;
      /** What was said. */
      readonly message: string;
    };

/** What a child says first: from here on its time counts. */
export const ready: Uint8Array = Uint8Array.of(1);

/**
 * Put something small before bytes.
 *
 * @param value - What JSON can hold.
 * @returns It, led in by its length.
 */
export function toHead(value: ApartRequest | ApartReply): Buffer {
  const text = Buffer.from(JSON.stringify(value));
  const length = Buffer.alloc(4);
  length.writeUInt32LE(text.length);
  return Buffer.concat([length, text]);
}

// Node and the decoder take 60 MB. An AVIF needs 18 bytes a pixel, a WebP 9; what asks for far more is not what its
// header says.
const usualMemory = 256e6;
const memoryPerPixel = 32;
// Seconds; on a machine that is busy with much else it takes several.
const mostToStart = 60;

/**
 * Decode a picture in a process of its own, which is ended where it takes longer or more memory than it may: a
 * decoder at work can be stopped in no other way. It takes 0.2 s of the processor to start and is not used twice, so
 * that the memory it took is given back. It ends with this process, however that ends.
 *
 * @param bytes - The file.
 * @param pixels - How many it says that it holds.
 * @param limits - How much it may ask for, and how much of it is wanted.
 * @returns The same pixels as decoded in this process.
 * @throws DecodeFault of any kind.
 */
export async function decodeApart(
  bytes: Buffer,
  pixels: number,
  limits: DecodeLimits,
): Promise<DecodedSamples> {
  const entry = fileURLToPath(new URL('decode-child.js', import.meta.url));
  const child = spawn(process.execPath, [entry], {
    stdio: ['pipe', 'pipe', 'ignore'],
    // Memory given back is not kept for later.
    env: { ...process.env, MALLOC_ARENA_MAX: '2' },
    windowsHide: true,
  });
  const late = new AbortController();
  const endIn = (seconds: number): NodeJS.Timeout =>
    setTimeout(() => {
      late.abort();
      child.kill('SIGKILL');
    }, 1000 * seconds);
  let timer = endIn(limits.seconds + mostToStart);
  const begin = (): void => {
    clearTimeout(timer);
    timer = endIn(limits.seconds);
  };
  try {
    const memory = usualMemory + memoryPerPixel * pixels + 2 * bytes.length;
    // JSON knows no infinity.
    const longest = Math.min(limits.longest, Number.MAX_SAFE_INTEGER);
    ask(child.stdin, { bytes: bytes.length, limits: { ...limits, longest }, memory }, bytes);
    const [answer, end] = await Promise.all([readAnswer(child.stdout, begin), ended(child)]);
    if (late.signal.aborted) throw new DecodeFault('slow', 'it was ended');
    if (answer !== null) return take(answer);
    throw end === 'SIGKILL'
      ? new DecodeFault('large', 'it was ended')
      : new DecodeFault('damaged', `the decoder ended: ${end}`);
  } finally {
    clearTimeout(timer);
    child.kill('SIGKILL');
  }
}

type Child = ChildProcessByStdio<Writable, Readable, null>;

function ask(stdin: Writable, request: ApartRequest, bytes: Buffer): void {
  // Where it ends before it has read all, why it did is told by how it ended. It is left open: its end is this
  // process's.
  stdin.on('error', () => undefined);
  stdin.write(toHead(request));
  stdin.write(bytes);
}

async function ended(child: Child): Promise<string> {
  return new Promise((resolve, reject) => {
    const fail = (cause: Error): void => {
      reject(new DecodeFault('unstarted', cause.message, cause));
    };
    child.on('error', fail).on('close', (code, signal) => {
      resolve(signal ?? String(code));
    });
  });
}

interface Answer {
  readonly reply: ApartReply;
  readonly rest: Buffer;
}

// Straight to where it belongs: a picture that is gathered and joined takes its memory twice.
async function readAnswer(stdout: Readable, begin: () => void): Promise<Answer | null> {
  let head: Buffer = Buffer.alloc(0);
  let reply: ApartReply | null = null;
  let rest: Buffer = Buffer.alloc(0);
  let at = 0;
  let isReady = false;
  for await (const piece of stdout as AsyncIterable<Buffer>) {
    let more = isReady ? piece : piece.subarray(ready.length);
    if (!isReady) begin();
    isReady = true;
    if (reply === null) {
      head = Buffer.concat([head, more]);
      const end = head.length < 4 ? Infinity : 4 + head.readUInt32LE(0);
      if (head.length < end) continue;
      reply = JSON.parse(head.toString('utf8', 4, end)) as ApartReply;
      rest = Buffer.allocUnsafeSlow(reply.ok ? sum(reply.lengths) : 0);
      more = head.subarray(end);
    }
    at += more.copy(rest, at);
  }
  return reply === null || at < rest.length ? null : { reply, rest };
}

function sum(lengths: readonly number[]): number {
  return lengths.reduce((total, length) => total + Math.max(0, length), 0);
}

function take({ reply, rest }: Answer): DecodedSamples {
  if (!reply.ok) throw new DecodeFault(reply.kind, reply.message);
  const { picture, deep, lengths } = reply;
  const { width, height, ...said } = picture;
  const [icc, exif, samples] = lengths;
  // Samples first: those of 16 bits begin where such may.
  const next = (from: number, length: number): Buffer | undefined =>
    length < 0 ? undefined : rest.subarray(from, from + length);
  const stored = { width, height, samples: samplesOf(rest.subarray(0, samples), deep) };
  return {
    ...said,
    orientation: said.orientation,
    pages: said.pages,
    stored,
    icc: next(samples, icc),
    exif: next(samples + Math.max(0, icc), exif),
  };
}
