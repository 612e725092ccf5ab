import { matchKeys } from '../../drawing/dress/match-keys.js';
import type { Outline } from '../../drawing/dress/find-outlines.js';
import type { Box } from '../../drawing/geometry/box.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { Warning } from '../../errors/warning.js';
import type { PartOutline } from '../../fill/outline/part-outline.js';
import { toBend } from '../../finish/relief/bend.js';
import { drawRelief } from '../../finish/relief/draw-relief.js';
import { findProfile } from '../../finish/relief/parse-profile.js';
import type { ProfileId } from '../../finish/relief/profiles/profile.js';
import { moveMark } from '../../page/move-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import { type Dpi, mmPerInch, realMm } from '../../units/units.js';
import type { LaidOutline } from './dress-plan.js';
import type { DressReliefWish, PlacedRelief } from './dress-relief-options.js';
import { type DressedWalls, refuseMany } from './dress-weather.js';
import { followOutline, frameOf } from './follow-outline.js';
import { type DrawnPiece, planRelief } from '../relief/plan-relief.js';
import { type KeyRefusal, refuseKeys, refuseTwice } from './refuse-keys.js';
import type { MakeReliefOptions } from '../relief/relief-options.js';
import { nameOf } from './report-dress.js';
import { warnOfSizes } from '../relief/warn-of-relief.js';

/** Relief on a drawing's outlines, and what is to be told of it. */
export interface DressedRelief {
  /** By outline; of the others there is none. */
  readonly by: ReadonlyMap<LaidOutline, PlacedRelief>;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

const none: DressedRelief = { by: new Map(), warnings: [] };

// A drawing clips what lies past an outline.
const pastMm = 0.5;
// A frame's panes, and what lies beside quoins, are the outline's own: a panel shows the edges of either.
const unfit: readonly ProfileId[] = ['frame', 'quoins'];
// What lies along the longer side of a strip; anything else is level.
const lengthwise: readonly ProfileId[] = [
  ...(['i', 'channel', 'angle', 'tee', 'plate', 'box', 'plate-girder'] as const),
  ...(['beam', 'sill', 'string-course'] as const),
];
// What the catalogue has rolled sections of.
const rolled: readonly ProfileId[] = ['i', 'channel', 'angle', 'tee'];
// Deeper than anything: what is wrong whatever an outline measures is told before it is read.
const anyDepth = realMm(1e9);

/**
 * Check what is told of relief, before anything is read.
 *
 * @param wishes - As the caller gave them.
 * @param scale - Of the model.
 * @throws RangeError where something cannot be.
 */
export function checkDressRelief(wishes: readonly DressReliefWish[], scale: NamedScale): void {
  refuseTwice(
    wishes.map(({ key }) => key),
    'relief',
  );
  for (const wish of wishes) {
    const { section, profile = 'panel' } = wish.relief;
    if (section === undefined && unfit.includes(profile)) {
      throw outOfRange('a panel, which shows the edges of holes as well,', 'relief', profile);
    }
    asNamed(wish, () => {
      refuseRise(wish.relief);
    });
    const straight = toBend({ points: Float64Array.of(0, 0, 1000, 0), isClosed: false });
    const asked = optionsOf(withFlange(wish), { scale, depth: anyDepth, isShape: false });
    asNamed(wish, () => planRelief(asked, { bend: straight, shape: null }));
  }
}

// How thick the flange of one is that a rolled section lends its proportions to follows from its depth.
function withFlange(wish: DressReliefWish): DressReliefWish {
  const { section, profile = 'panel', flange } = wish.relief;
  if (section !== undefined || flange !== undefined || !rolled.includes(profile)) return wish;
  return { ...wish, relief: { ...wish.relief, flange: realMm(1) } };
}

// Round a raised one nothing is drawn that its shadow could fall on.
function refuseRise({ section, profile = 'panel', rise, isSunk }: DressReliefWish['relief']): void {
  if (section !== undefined || profile !== 'panel' || rise === undefined || isSunk === true) return;
  throw outOfRange('sunk beside it, for a raised panel shows no shadow,', 'rise', `${rise} mm`);
}

/**
 * Draw relief on the outlines that keys mean, each as long and as deep as it is.
 *
 * @param wishes - As the caller gave them, checked; nothing where none was asked for.
 * @param walls - The outlines.
 * @returns It, or why a key means nothing, or an outline cannot be what it should be.
 * @throws TextureError `bad-drawing` where an outline cannot be what it should be.
 */
export function placeDressRelief(
  wishes: readonly DressReliefWish[] | undefined,
  walls: DressedWalls & { readonly scale: NamedScale },
): Outcome<DressedRelief, KeyRefusal> {
  if (wishes === undefined) return { ok: true, value: none, warnings: [] };
  const { path, drawing, found, laid } = walls;
  const keys = wishes.map(({ key }) => key);
  const meant = matchKeys(drawing, found.outlines, keys);
  const refusal = refuseKeys(path, found, { drawing, keys, meant });
  if (refusal !== null) return refusal;
  const wishOf = new Map<Outline, DressReliefWish | undefined>(
    meant.matched.map(({ outline, key }) => [outline, wishes[key]]),
  );
  const wanted = laid.flatMap((one) => {
    const wish = wishOf.get(one.outline);
    return wish === undefined ? [] : [{ one, wish }];
  });
  const bare = wishes.find((wish) => wanted.every((one) => one.wish !== wish));
  if (bare !== undefined) {
    const message = `nothing that ${showPath(bare.key.text)} means in ${showPath(path)} is covered, and relief needs something under it`;
    return { ok: false, code: 'no-outline', message, hint: 'name it in --paint as well' };
  }
  const many = refuseMany({ ...walls, laid: wanted.map(({ one }) => one) }, 'relief');
  if (many !== null) return many;
  const by = new Map<LaidOutline, PlacedRelief>();
  const warnings = new Map<string, Warning>();
  const unended = new Set(wishes.filter((wish) => wish.relief.boardLength !== undefined));
  for (const { one, wish } of wanted) {
    const placed = placeOne(one, wish, walls);
    by.set(one, placed);
    if (placed.joints > 0) unended.delete(wish);
    for (const warning of placed.warnings) warnings.set(warning.message, warning);
  }
  for (const { key, relief } of unended) {
    const message = `no board of ${showPath(key.text)} ends within an outline: none is long enough for boards of ${relief.boardLength} mm`;
    warnings.set(message, { code: 'no-joints', message });
  }
  return { ok: true, value: { by, warnings: [...warnings.values()] }, warnings: [] };
}

type Placing = DressedWalls & { readonly scale: NamedScale };

function placeOne(
  one: LaidOutline,
  wish: DressReliefWish,
  { path, drawing, dpi, scale }: Placing,
): PlacedRelief & { readonly joints: number; readonly warnings: readonly Warning[] } {
  const dot = mmPerInch / dpi;
  const { shape, box } = followOutline(one.outline, frameOf(one, dot), {
    ...{ drawing, tolerance: dot / 50 },
  });
  const refuse = (why: string, cause?: unknown): TextureError => {
    const what = `${showPath(nameOf(one))} in ${showPath(path)}`;
    return new TextureError('bad-drawing', `${what} ${why}`, { cause });
  };
  const { section, profile = section === undefined ? 'panel' : 'i' } = wish.relief;
  const { name } = findProfile(profile);
  const piece = profile === 'panel' ? asPanel(shape, box) : asStrip(shape, box, profile);
  if (piece === null) {
    const wanted = lengthwise.includes(profile) ? 'a rectangle' : 'a rectangle that lies level';
    throw refuse(`is no ${name}: it is not ${wanted}`);
  }
  try {
    const { depth, corner, ...drawn } = piece;
    const asked = optionsOf(wish, {
      ...{ scale, dpi, isShape: drawn.shape !== null },
      depth: realMm(depth * scale.ratio),
      length: piece.length,
    });
    const sheet = planRelief(asked, drawn);
    refuseOtherDepth(sheet.depth, depth);
    const { marks, at, joints } = drawRelief(sheet.plan);
    const from = drawn.bend === null ? corner : at;
    return {
      profile,
      joints,
      marks: marks.map((mark) => moveMark(mark, from.x, from.y)),
      warnings: warnOfSizes(sheet),
    };
  } catch (cause) {
    if (!(cause instanceof RangeError) || !cause.message.startsWith('expected ')) throw cause;
    throw refuse(`is no ${name}: ${cause.message}`, cause);
  }
}

// One of the catalogue is as deep as it is.
function refuseOtherDepth(own: number, drawn: number): void {
  if (Math.abs(own - drawn) <= Math.max(0.1, drawn / 50)) return;
  const inMm = (mm: number): string => `${Number(mm.toPrecision(3))} mm`;
  throw outOfRange(
    `an outline ${inMm(own)} deep, or a profile (i, channel, angle, tee), which takes any depth,`,
    'section',
    inMm(drawn),
  );
}

interface Piece extends DrawnPiece {
  readonly length: number;
  readonly depth: number;
  readonly corner: PerAxis<number>;
}

function asPanel({ loops, rule }: PartOutline, { x0, y0, x1, y1 }: Box): Piece {
  const area = { rule, loops: loops.map((loop) => loop.map((mm, i) => mm - (i % 2 ? y0 : x0))) };
  const size = { x: x1 - x0, y: y1 - y0 };
  const shape = { area, size };
  return { bend: null, shape, length: size.x, depth: size.y, corner: { x: x0, y: y0 } };
}

// As good as square, level or straight, mm.
const near = 0.02;

function asStrip({ loops }: PartOutline, box: Box, profile: ProfileId): Piece | null {
  const [loop] = loops;
  const corners = loop === undefined || loops.length > 1 ? [] : cornersOf(loop);
  if (!isRectangle(corners)) return null;
  const [a, b, c, d] = corners;
  const across = minus(b, a);
  const size = { x: box.x1 - box.x0, y: box.y1 - box.y0 };
  const isLevel = Math.min(Math.abs(across.x), Math.abs(across.y)) <= near;
  const isLong = lengthwise.includes(profile);
  if (isLevel && (!isLong || size.x >= size.y)) {
    const level = { bend: null, shape: null, length: size.x, depth: size.y };
    return { ...level, corner: { x: box.x0, y: box.y0 } };
  }
  if (!isLong) return null;
  // Along the middle of its longer side.
  const [wide, high] = [lengthOf(across), lengthOf(minus(c, b))];
  const [from, to] = wide >= high ? [middle(a, d), middle(b, c)] : [middle(a, b), middle(d, c)];
  const points = Float64Array.of(from.x, from.y, to.x, to.y);
  const sizes = { length: Math.max(wide, high), depth: Math.min(wide, high) };
  return {
    bend: toBend({ points, isClosed: false }),
    shape: null,
    ...sizes,
    corner: { x: 0, y: 0 },
  };
}

type Corner = PerAxis<number>;

function isRectangle(
  corners: readonly Corner[],
): corners is readonly [Corner, Corner, Corner, Corner] {
  const [a, b, c, d, more] = corners;
  if (!a || !b || !c || !d || more) return false;
  const [across, down] = [minus(b, a), minus(c, b)];
  const longest = Math.max(lengthOf(across), lengthOf(down));
  const square = Math.abs(across.x * down.x + across.y * down.y) / longest;
  return square <= near && lengthOf(minus(across, minus(c, d))) <= near;
}

function lengthOf({ x, y }: PerAxis<number>): number {
  return Math.hypot(x, y);
}

function minus(a: PerAxis<number>, b: PerAxis<number>): PerAxis<number> {
  return { x: a.x - b.x, y: a.y - b.y };
}

function middle(a: PerAxis<number>, b: PerAxis<number>): PerAxis<number> {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

// Without points that lie on a straight side, or on one another.
function cornersOf(loop: Float64Array): readonly PerAxis<number>[] {
  const all = Array.from({ length: loop.length / 2 }, (_, i) => ({
    x: loop[2 * i]!,
    y: loop[2 * i + 1]!,
  }));
  const apart = all.filter((point, i) => {
    const before = all.at(i - 1) ?? point;
    return Math.hypot(point.x - before.x, point.y - before.y) > near / 10;
  });
  return apart.filter((point, i) => {
    const [before, after] = [apart.at(i - 1) ?? point, apart[(i + 1) % apart.length] ?? point];
    const [one, other] = [minus(point, before), minus(after, point)];
    const off = Math.abs(one.x * other.y - one.y * other.x);
    return off / Math.hypot(after.x - before.x, after.y - before.y) > near / 2;
  });
}

interface Measured {
  readonly scale: NamedScale;
  readonly depth: MakeReliefOptions['depth'];
  readonly dpi?: Dpi;
  readonly length?: number;
  readonly isShape: boolean;
}

function optionsOf(
  { relief }: DressReliefWish,
  { scale, depth, dpi, length = 1000, isShape }: Measured,
): MakeReliefOptions {
  const base = { ...relief, scale, output: '', bleed: pastMm, ...(dpi && { dpi }) };
  if (isShape) return { ...base, outline: { path: '' } };
  const long = { length: realMm(length * scale.ratio) };
  if (relief.section !== undefined) return { ...base, ...long };
  return { ...base, ...long, profile: relief.profile ?? 'panel', ...(depth && { depth }) };
}

// As the user knows it: a size of a piece by its key.
function asNamed<Value>({ key }: DressReliefWish, work: () => Value): Value {
  try {
    return work();
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    const message = cause.message.replace(
      /,? for ([a-zA-Z]+), got /,
      (_, name: string) => `, ${name} of ${key.text}, for relief, got `,
    );
    throw new RangeError(message, { cause });
  }
}
