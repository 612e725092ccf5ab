import type { PicturePlan, PicturePlans } from '../../drawing/slim/plan-picture.js';
import type { PerAxis } from '../../drawing/slim/plan-spans.js';
import { printedNote } from '../../raster/printed-note.js';
import { jpegCoding, type JpegCoding } from '../../read/jpeg-coding.js';
import type { LookedAtPicture } from '../../read/look-at-picture.js';
import { encodeSamples } from '../../write/encode-samples.js';
import { decodePart } from './slim-bands.js';
import { type Coding, encodePlan } from './slim-encode.js';
import { judgeOf, type SmallerPicture } from './slim-judge.js';
import { isPhotograph, takePieces } from './slim-pieces.js';
import type { MostDifference } from './slim-shown.js';
import { type SlimTrial, tryPlan } from './slim-trial.js';

// One way to go, as its pieces came out.
interface Way {
  readonly plan: PicturePlan;
  readonly coding: Coding;
  // What the file will take, about.
  readonly size: number;
}

/** What a picture may become, and whether a smaller file of it was found. */
export interface MadeSmaller {
  /** That file, or null. */
  readonly smaller: SmallerPicture | null;
  /** Whether any was looked for: no where it holds no more than a print shows. */
  readonly isTried: boolean;
}

// What is seen by nobody is half of what is just seen under a lens, 0.5, over all; a little less for the few
// digits that browsers interpolate with. And of a block that is no larger than a full stop, what is just seen
// side by side.
const full: MostDifference = { mean: 0.43, worst: 2 };
// Browsers decode halved colour otherwise than we do, by 0.25, which comes on top of it.
const halved: MostDifference = { mean: 0.4, worst: 2 };
// Of the means of dots, all that is seen by nobody: who halves shows them otherwise anyhow.
const ofMeans: MostDifference = { mean: 0.5, worst: 2 };
// Of pieces, a little less, for what lies between them.
const cautious = 0.95;
const mostRounds = 4;

/**
 * Make a smaller file of a picture that prints the same. Pieces of it choose which; then all that shows of
 * the finished file is held against the old one, and where it differs, a finer one is chosen. A JPEG far finer than the
 * print, of which programs show one thing or another, becomes the means of what lies under each dot.
 *
 * @param bytes - The picture's file.
 * @param look - What its head says: PNG or JPEG.
 * @param plans - What may become of its pixels.
 * @returns The file, or none where none would be smaller and still print the same.
 * @throws TextureError `damaged-picture`.
 */
export async function slimWithin(
  bytes: Buffer,
  look: LookedAtPicture,
  plans: PicturePlans,
): Promise<MadeSmaller> {
  const judge = judgeOf(bytes, look, plans);
  const old = { bytes, look, all: plans };
  const made = await findSmaller({ ...old, wish: 'alike' }, judge);
  if (made.smaller !== null || !made.isTried) return made;
  const wishes = [
    ...(look.format === 'jpeg' ? (['means'] as const) : []),
    ...(plans.plans.at(-1)?.isCropped === true ? (['kept'] as const) : []),
  ];
  const found: SmallerPicture[] = [];
  for (const wish of wishes) {
    const { smaller } = await findSmaller({ ...old, wish }, judge);
    if (smaller !== null) found.push(smaller);
  }
  const [smaller = null] = found.toSorted((a, b) => a.bytes.length - b.bytes.length);
  return { smaller, isTried: true };
}

async function findSmaller(
  old: OldPicture,
  judge: ReturnType<typeof judgeOf>,
): Promise<MadeSmaller> {
  const { bytes } = old;
  const most = mostOf(old);
  const also: PerAxis[] = [];
  let asked = { mean: cautious * most.mean, worst: cautious * most.worst };
  let isTried = false;
  for (let round = 0; round < mostRounds; round++) {
    const ways = await findWays(old, asked, also);
    isTried ||= ways !== null;
    const [way] = (ways ?? []).toSorted((a, b) => a.size - b.size);
    if (way === undefined) break;
    const smaller = await makeFile(old, way);
    if (smaller.bytes.length >= bytes.length) break;
    const seen = await judge(smaller, most);
    if (seen.mean <= most.mean && seen.worst <= most.worst) return { smaller, isTried };
    also.push(seen.at);
    asked = {
      mean: asked.mean * Math.min(1, (cautious * most.mean) / seen.mean),
      worst: asked.worst * Math.min(1, (cautious * most.worst) / seen.worst),
    };
  }
  return { smaller: null, isTried };
}

function mostOf({ bytes, look, wish }: OldPicture): MostDifference {
  if (wish === 'means') return ofMeans;
  return look.format === 'jpeg' && jpegCoding(bytes)?.halved !== false ? halved : full;
}

interface OldPicture {
  readonly bytes: Buffer;
  readonly look: LookedAtPicture;
  readonly all: PicturePlans;
  // What shows alike in both ways, or fewer pixels that are means, or all that show, cut out.
  readonly wish: 'alike' | 'means' | 'kept';
}

async function makeFile(old: OldPicture, way: Way): Promise<SmallerPicture> {
  const { plan, coding } = way;
  const made = `gaugerod: for prints at ${Math.round(old.all.dpi)} dpi`;
  const note = old.look.isPrinted ? `${made}; ${printedNote}` : made;
  const file = await encodePlan({ ...old, note }, plan, coding);
  return { bytes: file, format: coding.format, plan, isMean: old.wish === 'means' };
}

// At so many pixels to a dot a JPEG shows nothing of what it loses; nearer, a PNG may be meant to be
// without loss.
const finePhoto = 2;
// With so many, to keep them all is never best.
const veryFine = 8;

// What is lost a second time is worth a fifth of the file.
const worthLoss = 0.8;
// And what some programs show otherwise than before, though no more so than others did, half of it.
const worthMeans = 0.5;

// Null where there is none to try.
async function findWays(
  old: OldPicture,
  asked: MostDifference,
  also: readonly PerAxis[],
): Promise<Way[] | null> {
  const { bytes, look, all, wish } = old;
  const isMean = wish === 'means';
  const plans = plansFor(old);
  const plain = plans.at(-1);
  const mayRecode = mayRecodeAll(old);
  if (plain === undefined || !(plans.length > 1 || plain.isCropped || mayRecode)) return null;
  const pieces = await takePieces(bytes, look, { plain, perDot: all.lies[0].perDot, also });
  const mayLose = look.format === 'jpeg' || (mayRecode && isPhotograph(pieces));
  const ways: Way[] = [];
  for (const plan of plans) {
    if (plan === plain && (isMean || (ways.length > 0 && fineness(all) >= veryFine))) break;
    const make = (): SlimTrial => tryPlan(pieces, plan, { ...all.lies[0], most: asked, isMean });
    const least = Math.min(...ways.map(({ size }) => size));
    ways.push(...(await tryKinds(old, make, { plan, look, mayLose, mayRecode, least })));
  }
  return ways;
}

// With all its pixels a picture can only become another kind of file, or lose what no dot shows.
async function tryKinds(
  { bytes, look, wish }: OldPicture,
  make: () => SlimTrial,
  options: Omit<TryOptions, 'own' | 'most'> & { readonly mayLose: boolean; readonly least: number },
): Promise<Way[]> {
  const { plan, mayLose, mayRecode } = options;
  const isPlain = plan.dpi === null;
  const isWhole = isAll(plan);
  const isJpeg = look.format === 'jpeg';
  if (isWhole && !(mayLose && mayRecode)) return [];
  const trial = make();
  const own = isPlain && isJpeg ? jpegCoding(bytes) : null;
  const share = wish === 'means' ? worthMeans : isWhole && isJpeg ? worthLoss : 1;
  let most = Math.min(options.least, share * bytes.length);
  const ways = isJpeg || isWhole ? [] : await tryPng(trial, { ...options, own, most });
  most = Math.min(most, ...ways.map(({ size }) => size));
  if (mayLose) ways.push(...(await tryJpeg(trial, { ...options, own, most })));
  return ways.filter(({ size }) => size <= most);
}

function isAll({ dpi, isCropped }: PicturePlan): boolean {
  return dpi === null && !isCropped;
}

function isDone({ madeFor }: LookedAtPicture, { dpi }: PicturePlans): boolean {
  return madeFor !== null && madeFor <= dpi;
}

// Whether what all its pixels lose as a JPEG, once, can be lost in the dots.
function mayRecodeAll({ look, all, wish }: OldPicture): boolean {
  return wish !== 'kept' && look.bits === 8 && fineness(all) >= finePhoto && !isDone(look, all);
}

// What was made for such a print before has lost what it could.
function plansFor({ look, all, wish }: OldPicture): readonly PicturePlan[] {
  if (wish === 'kept' || isDone(look, all)) return all.plans.slice(-1);
  return wish === 'means' ? all.plans.map((plan) => ({ ...plan, isOnDots: false })) : all.plans;
}

function fineness({ lies: [{ perDot }] }: PicturePlans): number {
  return Math.min(perDot.x, perDot.y);
}

interface TryOptions {
  readonly plan: PicturePlan;
  readonly look: LookedAtPicture;
  // How it was encoded, where its pixels are kept.
  readonly own: JpegCoding | null;
  // Whether it may lose more than that.
  readonly mayRecode: boolean;
  // What its file may take.
  readonly most: number;
}

async function tryPng({ made, times, judge }: SlimTrial, options: TryOptions): Promise<Way[]> {
  if (!judge(made)) return [];
  const coding: Coding = { format: 'png' };
  const samples = { ...made, bits: 8, profile: null };
  const { length } = await encodeSamples(samples, { ...coding, quick: true });
  // Of a picture of 16 bits, kept as it is, twice as much.
  const depth = options.plan.dpi === null ? options.look.bits / 8 : 1;
  return [{ plan: options.plan, coding, size: length * times * depth }];
}

const [lowest, best] = [60, 100];
// Pixels up to which a JPEG's numbers are chosen: it takes all of them in memory, and three times as long.
const mostChosen = 4e6;
// And up to which it is held whole for the shortest codes.
const mostHeld = 6e6;
// Finer ones, chosen, save a thirtieth and lose as much as that is worth; the coarsest save a seventh.
const [finestChosen, chosenFrom] = [95, 7 / 6];

// As it was, where its blocks are kept and others left out; and the least quality at which it prints alike.
async function tryJpeg(trial: SlimTrial, options: TryOptions): Promise<Way[]> {
  const { own, mayRecode } = options;
  if (!trial.judge(trial.made)) return [];
  const found = await tryAsItWas(trial, options);
  if (found.length > 0 && !mayRecode) return found;
  const high = finestOf(options, found);
  for (const halved of own?.halved === true ? [true, false] : [false]) {
    const most = found.at(-1)?.size ?? options.most;
    const way = await leastQuality(trial, { high, halved }, { ...options, most });
    if (way !== null) found.push(way);
  }
  return found;
}

// As fine as it was, unless even that printed otherwise.
function finestOf({ plan, own }: TryOptions, asItWas: readonly Way[]): number {
  if (own === null || (plan.isCropped && asItWas.length === 0)) return best;
  return own.quality;
}

async function tryAsItWas(trial: SlimTrial, options: TryOptions): Promise<Way[]> {
  const { plan, own } = options;
  if (own === null || !plan.isCropped) return [];
  const way = await tryCoding(trial, { ...own, format: 'jpeg' }, options);
  return way === null ? [] : [way];
}

async function leastQuality(
  trial: SlimTrial,
  { high, halved }: { readonly high: number; readonly halved: boolean },
  options: TryOptions,
): Promise<Way | null> {
  const { x, y } = options.plan;
  const mayChoose = x.count * y.count < mostChosen;
  const most = options.most * (mayChoose ? chosenFrom : 1);
  let [from, to]: [number, number] = [lowest, high];
  let found: Way | null = null;
  while (from <= to) {
    const quality = (from + to) >> 1;
    const { way, bytes } = await encode(trial, { format: 'jpeg', quality, halved }, options);
    // None finer is smaller.
    const isTooLarge = way.size > most;
    if (!isTooLarge && !(await isAlike(bytes, trial, options))) from = quality + 1;
    else [found, to] = [isTooLarge ? found : way, quality - 1];
  }
  const chosen =
    found === null || !mayChoose ? null : await choose(trial, found, { ...options, high });
  const least = chosen ?? found;
  return least !== null && least.size <= options.most ? least : null;
}

// Chosen numbers at that quality, or at the next, where it takes fewer bytes.
async function choose(
  trial: SlimTrial,
  { coding, size }: Way,
  options: TryOptions & { readonly high: number },
): Promise<Way | null> {
  const { quality = best } = coding;
  for (let finer = quality; finer <= Math.min(quality + 1, options.high, finestChosen); finer++) {
    const chosen: Coding = { ...coding, quality: finer, chosen: true };
    const way = await tryCoding(trial, chosen, { ...options, most: size });
    if (way !== null) return way;
  }
  return null;
}

// Null where it prints otherwise, or is too large.
async function tryCoding(
  trial: SlimTrial,
  coding: Coding,
  options: TryOptions,
): Promise<Way | null> {
  const { way, bytes } = await encode(trial, coding, options);
  if (way.size > options.most) return null;
  return (await isAlike(bytes, trial, options)) ? way : null;
}

async function encode(
  { made, times }: SlimTrial,
  coding: Coding,
  { plan }: TryOptions,
): Promise<{ readonly way: Way; readonly bytes: Buffer }> {
  const samples = { ...made, bits: 8, profile: null };
  const meant = { ...coding, streamed: plan.x.count * plan.y.count >= mostHeld };
  const bytes = await encodeSamples(samples, { ...meant, quick: true });
  return { way: { plan, coding: meant, size: bytes.length * times }, bytes };
}

async function isAlike(
  bytes: Buffer,
  { made, judge }: SlimTrial,
  { look }: TryOptions,
): Promise<boolean> {
  const { width, height } = made;
  const all = { x: { from: 0, length: width }, y: { from: 0, length: height } };
  return judge(await decodePart({ bytes, grey: look.channels <= 2 }, all));
}
