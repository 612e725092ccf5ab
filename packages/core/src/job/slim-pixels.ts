import { meanDifference } from '../colour/mean-difference.js';
import type { PicturePlan, PlannedSpan } from '../drawing/slim/plan-picture.js';
import { averageSamples, type Samples } from '../raster/average-samples.js';
import { type DecodedWindow, decodeWindow } from '../read/decode-window.js';
import { jpegCoding, type JpegCoding } from '../read/jpeg-coding.js';
import type { LookedAtPicture } from '../read/look-at-picture.js';
import { type EncodedSamples, encodeSamples } from '../write/encode-samples.js';

// What is seen by nobody: half of what is just seen under a lens, and a little less for what a
// renderer adds.
const mostDifference = 0.45;
// Pieces may be a little heavier than the rest.
const likely = 1.2;
const codings = [92, 95, 97, 99, 100].map((quality) => ({ quality, halved: false }));

/**
 * Make the pixels that a plan asks for, and a file of them of the kind they came in.
 *
 * @param bytes - The picture's file.
 * @param look - What its head says: PNG or JPEG.
 * @param plan - What is to become of it.
 * @returns The file, or null where it would be no smaller, or no longer show the same.
 * @throws TextureError `damaged-picture`.
 */
export async function makeSmaller(
  bytes: Buffer,
  look: LookedAtPicture,
  plan: PicturePlan,
): Promise<Buffer | null> {
  if (await isHopeless(bytes, look, plan)) return null;
  const samples = await takePixels(bytes, look, plan);
  if (look.format === 'png') {
    const file = await encodeSamples(samples, { format: 'png' });
    return file.length < bytes.length ? file : null;
  }
  // Cut along its blocks, it is best encoded as it was.
  const own = plan.dpi === null ? jpegCoding(bytes) : null;
  const most = bytes.length;
  const coding = await findCoding(samples, plan, { own, most });
  if (coding === null) return null;
  const file = await encodeSamples(samples, { format: 'jpeg', ...coding });
  return file.length < bytes.length ? file : null;
}

// Of a large JPEG a strip of the middle tells early where nothing can be saved.
async function isHopeless(
  bytes: Buffer,
  look: LookedAtPicture,
  plan: PicturePlan,
): Promise<boolean> {
  const { x, y, dpi } = plan;
  if (dpi === null || look.format !== 'jpeg' || x.count * y.count < stripPixels) return false;
  const count = Math.min(y.count, pieceSize);
  const strip = { ...y, start: y.start + Math.floor((y.count - count) / 2) * y.pitch, count };
  const window = await decode(bytes, look, { x, y: strip, bits: 8 });
  const samples = { ...averageWindow(window, look, { x, y: strip }), bits: 8, profile: null };
  const most = (bytes.length * unlike * count) / y.count;
  return (await findCoding(samples, plan, { own: null, most })) === null;
}

const stripPixels = 2e6;
// A strip may be much unlike the rest.
const unlike = 1.5;

// The least at which nothing is seen in print, judged by pieces spread over the picture.
async function findCoding(
  samples: EncodedSamples,
  plan: PicturePlan,
  { own, most }: { readonly own: JpegCoding | null; readonly most: number },
): Promise<JpegCoding | null> {
  const sample = piecesOf(samples);
  const shown = asPrinted(sample, plan);
  const share = (samples.width * samples.height) / (sample.width * sample.height);
  for (const coding of own === null ? codings : [own, ...codings]) {
    const file = await encodeSamples({ ...samples, ...sample }, { format: 'jpeg', ...coding });
    if (file.length * share > likely * most) {
      if (coding === own) continue;
      return null;
    }
    const decoded = await decodeWindow('the new picture', file, {
      window: { left: 0, top: 0, width: sample.width, height: sample.height },
      bits: 8,
      grey: sample.channels === 1,
    });
    const again = asPrinted(decoded, plan);
    if (meanDifference(shown.data, again.data, sample.channels) <= mostDifference) return coding;
  }
  return null;
}

const pieceSize = 256;
const mostPieces = 3;

// Whole where it is small, else pieces side by side and one above the other.
function piecesOf(samples: Samples): Samples {
  const [x, y] = [piecesAlong(samples.width), piecesAlong(samples.height)];
  const { width, channels, data } = samples;
  const row = x.starts.length * x.size * channels;
  const out = new Uint8Array(row * y.starts.length * y.size);
  let at = 0;
  for (const top of y.starts) {
    for (let line = top; line < top + y.size; line++) {
      for (const left of x.starts) {
        const from = (line * width + left) * channels;
        out.set(data.subarray(from, from + x.size * channels), at);
        at += x.size * channels;
      }
    }
  }
  const [across, down] = [x.starts.length * x.size, y.starts.length * y.size];
  return { width: across, height: down, channels, data: out };
}

function piecesAlong(length: number): {
  readonly starts: readonly number[];
  readonly size: number;
} {
  const count = Math.min(mostPieces, Math.floor(length / pieceSize));
  if (count < 2) return { starts: [0], size: Math.min(length, pieceSize * mostPieces) };
  const step = (length - pieceSize) / (count - 1);
  const starts = Array.from({ length: count }, (_, i) => Math.floor((i * step) / 8) * 8);
  return { starts, size: pieceSize };
}

// What a print makes of pixels that are finer than its dots.
function asPrinted(samples: Samples, { perDot }: PicturePlan): Samples {
  const span = (length: number, pitch: number): PlannedSpan => {
    const count = Math.max(1, Math.round(length / pitch));
    return { start: 0, pitch: length / count, count };
  };
  return averageSamples(samples, span(samples.width, perDot.x), span(samples.height, perDot.y));
}

async function takePixels(
  bytes: Buffer,
  look: LookedAtPicture,
  plan: PicturePlan,
): Promise<EncodedSamples> {
  const { x, y, dpi } = plan;
  const { profile } = look;
  if (dpi === null) {
    return { ...(await decode(bytes, look, { x, y, bits: look.bits })), bits: look.bits, profile };
  }
  const count = Math.min(mostBands, Math.ceil((look.width * look.height) / bandPixels));
  let all: Samples | undefined;
  for (let band = 0; band < count; band++) {
    const from = Math.round((band * y.count) / count);
    const to = Math.round(((band + 1) * y.count) / count);
    const rows = { ...y, start: y.start + from * y.pitch, count: to - from };
    const window = await decode(bytes, look, { x, y: rows, bits: 8 });
    const row = x.count * window.channels;
    const { channels } = window;
    all ??= { width: x.count, height: y.count, channels, data: new Uint8Array(row * y.count) };
    averageWindow(window, look, { x, y: rows }, all.data.subarray(from * row, to * row));
  }
  if (all === undefined) throw new Error('a picture of no rows');
  return { ...all, bits: 8, profile };
}

// Decoded from the top each time, which takes a little longer and much less memory.
const bandPixels = 8e6;
const mostBands = 4;

interface Spans {
  readonly x: PlannedSpan;
  readonly y: PlannedSpan;
}

function averageWindow(
  window: DecodedWindow,
  look: LookedAtPicture,
  { x, y }: Spans,
  out?: Uint8Array,
): Samples {
  const shift = (span: PlannedSpan, size: number): PlannedSpan => {
    return { ...span, start: span.start - reach(span, size).from };
  };
  return averageSamples(window, shift(x, look.width), shift(y, look.height), out);
}

async function decode(
  bytes: Buffer,
  look: LookedAtPicture,
  { x, y, bits }: Spans & { readonly bits: number },
): Promise<DecodedWindow> {
  const [across, down] = [reach(x, look.width), reach(y, look.height)];
  return decodeWindow('it', bytes, {
    window: { left: across.from, top: down.from, width: across.length, height: down.length },
    bits,
    grey: look.channels <= 2,
  });
}

// Whole pixels under a span, inside the picture.
function reach(
  { start, pitch, count }: PlannedSpan,
  size: number,
): { readonly from: number; readonly length: number } {
  const from = Math.min(size - 1, Math.max(0, Math.floor(start)));
  const to = Math.min(size, Math.ceil(start + pitch * count - 1e-6));
  return { from, length: Math.max(1, to - from) };
}
