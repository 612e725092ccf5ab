// What a process of its own runs to decode one picture: see decode-apart. It reads a request and the file from its
// standard input, writes a reply and the pixels to its standard output, and ends.
import { type ApartReply, type ApartRequest, ready, toHead } from './decode-apart.js';
import { DecodeFault, type DecodedSamples, decodeSamples } from './decode-samples.js';
import { loadSharp } from './load-sharp.js';

const often = 20;

// An end that is due would wait for the decoder.
function endNow(): void {
  process.kill(process.pid, 'SIGKILL');
}

async function say(piece: Uint8Array): Promise<void> {
  return new Promise((resolve) => {
    process.stdout.write(piece, () => {
      resolve();
    });
  });
}

interface Asked {
  readonly request: ApartRequest;
  readonly bytes: Buffer;
}

// Whoever asked is gone where its end of the pipe is closed, before or after.
async function readAsked(): Promise<Asked> {
  return new Promise((resolve) => {
    let head: Buffer = Buffer.alloc(0);
    let asked: Asked | null = null;
    let at = 0;
    process.stdin.on('end', endNow).on('close', endNow);
    process.stdin.on('data', (piece: Buffer) => {
      let more = piece;
      if (asked === null) {
        head = Buffer.concat([head, piece]);
        const end = head.length < 4 ? Infinity : 4 + head.readUInt32LE(0);
        if (head.length < end) return;
        const request = JSON.parse(head.toString('utf8', 4, end)) as ApartRequest;
        asked = { request, bytes: Buffer.allocUnsafe(request.bytes) };
        more = head.subarray(end);
      }
      at += more.copy(asked.bytes, at);
      if (at === asked.bytes.length) resolve(asked);
    });
  });
}

function watchMemory(most: number): void {
  // The decoder works in threads of its own, so that this one is free.
  setInterval(() => {
    if (process.memoryUsage.rss() > most) endNow();
  }, often);
}

async function answer({ request, bytes }: Asked): Promise<readonly Uint8Array[]> {
  try {
    return toAnswer(await decodeSamples(bytes, request.limits));
  } catch (cause) {
    if (!(cause instanceof DecodeFault)) throw cause;
    const reply: ApartReply = { ok: false, kind: cause.kind, message: cause.message };
    return [toHead(reply)];
  }
}

function toAnswer(decoded: DecodedSamples): readonly Uint8Array[] {
  const { stored, icc, exif, ...said } = decoded;
  const { width, height, samples } = stored;
  const pixels = Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength);
  const reply: ApartReply = {
    ok: true,
    picture: { ...said, width, height },
    deep: samples instanceof Uint16Array,
    lengths: [icc?.length ?? -1, exif?.length ?? -1, pixels.length],
  };
  return [toHead(reply), pixels, icc ?? Buffer.alloc(0), exif ?? Buffer.alloc(0)];
}

const asked = await readAsked();
// Its time begins where it is ready to decode.
await loadSharp();
await say(ready);
watchMemory(asked.request.memory);
for (const piece of await answer(asked)) await say(piece);
process.exit(0);
