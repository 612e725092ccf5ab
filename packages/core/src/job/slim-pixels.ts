import type { PicturePlan, PicturePlans } from '../drawing/slim/plan-picture.js';
import { endOf, type PlannedSpan, type Spans } from '../drawing/slim/plan-spans.js';
import { averageSamples, type Samples } from '../raster/average-samples.js';
import { type DecodedWindow, decodeWindow } from '../read/decode-window.js';
import { jpegCoding, type JpegCoding } from '../read/jpeg-coding.js';
import type { LookedAtPicture } from '../read/look-at-picture.js';
import { type EncodedSamples, encodeSamples } from '../write/encode-samples.js';
import { isPhotograph, type PicturePieces, takePieces } from './slim-pieces.js';
import { type Likeness, type SlimTrial, tryPlan } from './slim-trial.js';

/** A picture made smaller. */
export interface SmallerPicture {
  /** Its new file. */
  readonly bytes: Buffer;
  /** Of which kind. */
  readonly format: 'png' | 'jpeg';
  /** What it shows of the old pixels. */
  readonly plan: PicturePlan;
}

interface Coding {
  readonly format: 'png' | 'jpeg';
  readonly quality?: number;
  readonly halved?: boolean;
}

// One way to go, as its pieces came out.
interface Way {
  readonly plan: PicturePlan;
  readonly coding: Coding;
  readonly likeness: Likeness;
  // What the file will take, about.
  readonly size: number;
}

/**
 * Make a smaller file of a picture that prints the same.
 *
 * @param bytes - The picture's file.
 * @param look - What its head says: PNG or JPEG.
 * @param plans - What may become of its pixels.
 * @returns The file, or null where none would be smaller and still print the same.
 * @throws TextureError `damaged-picture`.
 */
export async function makeSmaller(
  bytes: Buffer,
  look: LookedAtPicture,
  plans: PicturePlans,
): Promise<SmallerPicture | null> {
  const way = await findWay(bytes, look, plans);
  if (way === null || way.size > bytes.length) return null;
  const { plan, coding } = way;
  const note = `gaugerod: for prints at ${Math.round(plans.dpi)} dpi`;
  const file = await encodeSamples({ ...(await takePixels(bytes, look, plan)), note }, coding);
  return file.length < bytes.length ? { bytes: file, format: coding.format, plan } : null;
}

// At so many pixels to a dot a JPEG shows nothing of what it loses; nearer, a PNG may be meant to be
// without loss.
const finePhoto = 2;
// With so many, to keep them all is never best.
const veryFine = 8;

async function findWay(
  bytes: Buffer,
  look: LookedAtPicture,
  all: PicturePlans,
): Promise<Way | null> {
  const plans = plansFor(look, all);
  const plain = plans.at(-1);
  const mayBecome = mayBecomeJpeg(look, all);
  if (plain === undefined || !(plans.length > 1 || plain.isCropped || mayBecome)) return null;
  const pieces = await takePieces(bytes, look, { plain, perDot: all.perDot });
  const mayLose = look.format === 'jpeg' || (mayBecome && isPhotograph(pieces));
  return choose(await tryPlans({ look, bytes, pieces, mayLose }, plans, all), bytes.length);
}

interface PlanTrial {
  readonly look: LookedAtPicture;
  readonly bytes: Buffer;
  readonly pieces: PicturePieces;
  // Whether a JPEG may hold it.
  readonly mayLose: boolean;
}

async function tryPlans(
  { look, bytes, pieces, mayLose }: PlanTrial,
  plans: readonly PicturePlan[],
  all: PicturePlans,
): Promise<Way[]> {
  const plain = plans.at(-1);
  const ways: Way[] = [];
  for (const plan of plans) {
    const isPlain = plan === plain;
    if (isPlain && ways.length > 0 && fineness(all) >= veryFine) break;
    const kinds = kindsFor(look, { isWhole: isPlain && !plan.isCropped, mayLose });
    if (kinds.length === 0) continue;
    const own = isPlain ? ownCoding(look, bytes) : null;
    ways.push(...(await tryKinds(kinds, tryPlan(pieces, plan, all), { plan, look, own })));
  }
  return ways;
}

function mayBecomeJpeg({ format, bits }: LookedAtPicture, all: PicturePlans): boolean {
  return format === 'png' && bits === 8 && fineness(all) >= finePhoto;
}

// What was made for such a print before has lost what it could.
function plansFor(look: LookedAtPicture, { plans, dpi }: PicturePlans): readonly PicturePlan[] {
  return look.madeFor !== null && look.madeFor <= dpi ? plans.slice(-1) : plans;
}

function fineness({ perDot }: PicturePlans): number {
  return Math.min(perDot.x, perDot.y);
}

function ownCoding({ format }: LookedAtPicture, bytes: Buffer): JpegCoding | null {
  return format === 'jpeg' ? jpegCoding(bytes) : null;
}

async function tryKinds(
  kinds: readonly Coding['format'][],
  trial: SlimTrial,
  options: TryOptions,
): Promise<Way[]> {
  const ways: Way[] = [];
  for (const kind of kinds) {
    const way = await (kind === 'png' ? tryPng(trial, options) : tryJpeg(trial, options));
    if (way !== null) ways.push(way);
  }
  return ways;
}

// With all its pixels a picture can only become another kind of file.
function kindsFor(
  { format }: LookedAtPicture,
  { isWhole, mayLose }: { readonly isWhole: boolean; readonly mayLose: boolean },
): Coding['format'][] {
  const kinds: Coding['format'][] = [];
  if (format !== 'jpeg' && !isWhole) kinds.push('png');
  if (mayLose && !(format === 'jpeg' && isWhole)) kinds.push('jpeg');
  return kinds;
}

// What prints the same is worth more than what is smallest, as long as it is worth its while.
const worthwhile = 0.5;

function choose(ways: readonly Way[], size: number): Way | null {
  const [smallest] = ways.toSorted((a, b) => a.size - b.size);
  const [same] = ways
    .filter(({ likeness }) => likeness === 'same')
    .toSorted((a, b) => a.size - b.size);
  if (same !== undefined && same.size <= worthwhile * size) return same;
  return smallest ?? null;
}

interface TryOptions {
  readonly plan: PicturePlan;
  readonly look: LookedAtPicture;
  readonly own: JpegCoding | null;
}

async function tryPng({ made, times, judge }: SlimTrial, options: TryOptions): Promise<Way | null> {
  const likeness = judge(made);
  if (likeness === null) return null;
  const coding: Coding = { format: 'png' };
  const samples = { ...made, bits: 8, profile: null };
  const { length } = await encodeSamples(samples, { ...coding, quick: true });
  // Of a picture of 16 bits, kept as it is, twice as much.
  const depth = options.plan.dpi === null ? options.look.bits / 8 : 1;
  return { plan: options.plan, coding, likeness, size: length * times * depth };
}

const [worst, best] = [80, 100];

// As it was, where its blocks are kept; else the least quality at which it prints alike.
async function tryJpeg(trial: SlimTrial, { plan, look, own }: TryOptions): Promise<Way | null> {
  const likeness = trial.judge(trial.made);
  if (likeness === null) return null;
  const attempt = async (coding: Coding): Promise<Way | null> => {
    const { made, times, judge } = trial;
    const samples = { ...made, bits: 8, profile: null };
    const file = await encodeSamples(samples, { ...coding, quick: true });
    const window = { left: 0, top: 0, width: made.width, height: made.height };
    const grey = look.channels <= 2;
    const coded = judge(await decodeWindow('the new picture', file, { window, bits: 8, grey }));
    if (coded === null || (likeness === 'same' && coded !== 'same')) return null;
    return { plan, coding, likeness: coded, size: file.length * times };
  };
  if (own !== null) {
    const way = await attempt({ ...own, format: 'jpeg' });
    if (way !== null) return way;
  }
  let found: Way | null = null;
  let [low, high]: [number, number] = [worst, best];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const way = await attempt({ format: 'jpeg', quality: middle });
    if (way === null) low = middle + 1;
    else [found, high] = [way, middle - 1];
  }
  return found;
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
  span: PlannedSpan,
  size: number,
): { readonly from: number; readonly length: number } {
  const from = Math.min(size - 1, Math.max(0, Math.floor(span.start)));
  const to = Math.min(size, Math.ceil(endOf(span) - 1e-6));
  return { from, length: Math.max(1, to - from) };
}
