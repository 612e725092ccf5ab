import type { SectionEntry } from '../../catalogue/section-entry.js';
import { parseCssColour } from '../../colour/css-colour.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { nameCards } from '../../finish/relief/cut-cards.js';
import type { Bend } from '../../finish/relief/bend.js';
import { leastLine } from '../../finish/relief/pens.js';
import { riseOf } from '../../finish/relief/cover-flanges.js';
import type { SectionSizes } from '../../finish/relief/profiles/profile.js';
import type { Covers, ReliefPlan } from '../../finish/relief/relief-plan.js';
import type { PerAxis } from '../../surface/measurement.js';
import {
  type Dpi,
  dpi as toDpi,
  mmPerInch,
  type RealMm,
  realMm,
  toPrint,
} from '../../units/units.js';
import { planFigure } from './plan-figure.js';
import type { MakeReliefOptions } from './relief-options.js';
import { type DrawnShape, sizeRelief, toPaper } from './size-relief.js';

/** What a drawing says of a piece. */
export interface DrawnPiece {
  /** What it is bent along, or null. */
  readonly bend: Bend | null;
  /** Its shape, or null. */
  readonly shape: DrawnShape | null;
}

/** A sheet of pieces, settled before anything is read. */
export interface ReliefSheet {
  /** One piece. */
  readonly plan: ReliefPlan;
  /** From top to foot, plates on its flanges included, mm of paper. */
  readonly depth: number;
  /** Its sizes of the real thing, mm. */
  readonly real: SectionSizes;
  /** The rolled section whose proportions say how thick its flange is, or null where that is told. */
  readonly like: SectionEntry | null;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Past every side, mm of paper. */
  readonly bleed: number;
  /** Pieces. */
  readonly copies: number;
  /** Paper between them, mm. */
  readonly gap: number;
  /** Under relief where there is no photo: `#rrggbb`. */
  readonly colour: string;
}

// The long side of A0 (ISO 216).
const longest = 1189;
// What a PNG can say.
const mostPixels = 2 ** 31 - 1;
const fewestDots = 6;
// Head of a rivet of 3/4 in, 1.6 times as wide; a splice plate: common practice, no source.
const usualHead = 30;
const usualSplice = 300;
const usualColour = '#8c8c8c';

/**
 * Settle everything about pieces in relief, before anything is read or allocated.
 *
 * @param options - As the caller gave them.
 * @param drawn - What a drawing says of a piece.
 * @returns The pieces on paper.
 * @throws RangeError when they make no sense, alone or together.
 */
export function planRelief(options: MakeReliefOptions, drawn: DrawnPiece): ReliefSheet {
  const { dpi = toDpi(600), bleed = 0, copies = 1, light = 'above', strength = 0.7 } = options;
  checkNumbers({ dpi, bleed, strength, copies });
  const { bend, shape } = drawn;
  const length = lengthOf(options);
  const { profile, sizes, sizedBy, like } = sizeRelief(options, shape);
  const { ratio } = options.scale;
  const onPaper = (mm: number): number => toPrint(realMm(mm), ratio);
  const { web, flange } = sizes;
  const plan: ReliefPlan = {
    profile,
    sizes: toPaper(sizes, onPaper),
    sizedBy,
    ratio,
    length: drawnLength(drawn) ?? onPaper(length),
    bend,
    // A dot more, for one that a side only begins.
    bleed,
    margin: bleed + mmPerInch / dpi,
    light,
    strength,
    ...planFittings(options, web, onPaper),
    covers: planCovers(options, flange, onPaper),
    ...planFigure(options, profile, onPaper),
    shape: shape?.area ?? null,
    card: cardOf(options),
  };
  refuseFlat(plan);
  const gap = gapOf(options);
  const whole = plan.sizes.depth + 2 * riseOf(plan.covers);
  checkDepth(plan, whole, dpi);
  if (bend === null) {
    const size = { x: plan.length + 2 * plan.around, y: whole + 2 * plan.around };
    checkPaper(size, [shape === null ? 'length' : 'outline', sizedBy], { dpi, bleed, copies, gap });
  }
  const colour = colourOf(options);
  return { plan, depth: whole, real: sizes, like, dpi, bleed, copies, gap, colour };
}

function drawnLength({ bend, shape }: DrawnPiece): number | null {
  return bend?.length ?? shape?.size.x ?? null;
}

type Numbers = Required<Pick<MakeReliefOptions, 'dpi' | 'bleed' | 'strength' | 'copies'>>;

function checkNumbers({ dpi, bleed, strength, copies }: Numbers): void {
  inRange('dpi', dpi, [10, 4800]);
  inRange('bleed', bleed, [0, 100], ' mm');
  inRange('strength', strength, [0, 1]);
  inRange('copies', copies, [1, 1000]);
  if (!Number.isInteger(copies)) throw outOfRange('a whole number', 'copies', copies);
}

function inRange(
  name: string,
  value: number,
  [least, most]: readonly [number, number],
  unit = '',
): void {
  if (value >= least && value <= most) return;
  throw outOfRange(`${least} to ${most}${unit}`, name, unit === '' ? value : `${value}${unit}`);
}

function gapOf({ gap, copies = 1 }: MakeReliefOptions): number {
  if (gap === undefined) return 1;
  if (copies === 1) throw outOfRange('copies to lie between', 'gap', `${gap} mm`);
  inRange('gap', gap, [0, 100], ' mm');
  return gap;
}

const usualCard = 0.5;

function cardOf({ isLayered = false, card }: MakeReliefOptions): number | null {
  if (!isLayered && card !== undefined)
    throw outOfRange('layers that it is for', 'card', `${card} mm`);
  if (!isLayered) return null;
  const thick = card ?? usualCard;
  inRange('card', thick, [0.1, 3], ' mm');
  return thick;
}

// Of card there is to be more than the whole.
function refuseFlat(plan: ReliefPlan): void {
  const { card, bend, profile } = plan;
  if (card === null) return;
  if (bend?.isClosed === true)
    throw outOfRange('a path with two ends, for layers,', 'along', 'one that closes');
  if (nameCards(plan).length > 0) return;
  const needs =
    'something that stands out (i, channel, angle, tee, plate-girder, door; or a panel, frame or quoins with some ground around)';
  throw outOfRange(needs, 'layers', `a ${profile.name}`);
}

// In hexadecimal, or after a slash or a third comma.
const hasAlpha = /^\s*#(?:[\da-f]{4}|[\da-f]{8})\s*$|\/|a\(|(?:,[^,]*){3}/i;

function colourOf({ colour }: MakeReliefOptions): string {
  if (colour === undefined) return usualColour;
  const read = hasAlpha.test(colour) ? null : parseCssColour(colour);
  if (read === null) {
    throw outOfRange('an opaque colour such as #7a543e or firebrick', 'colour', colour);
  }
  return read;
}

function planFittings(
  options: MakeReliefOptions,
  web: number | null,
  onPaper: (mm: number) => number,
): Pick<ReliefPlan, 'rivets' | 'stiffeners' | 'splices'> {
  const { rivets, rivetHead = usualHead, stiffeners, splices, spliceWidth = usualSplice } = options;
  checkFittings(options);
  if (options.web !== undefined && options.width === undefined && stiffeners === undefined) {
    throw outOfRange(
      'a width, or stiffeners, beside the thickness of the web',
      'web',
      `${options.web} mm`,
    );
  }
  if (stiffeners !== undefined && web === null) {
    throw outOfRange('the thickness of the web, which stiffeners share,', 'web', undefined);
  }
  return {
    rivets:
      rivets === undefined
        ? null
        : {
            pitch: onPaper(rivets),
            head: onPaper(rivetHead),
            isHeadTold: options.rivetHead !== undefined,
          },
    stiffeners:
      stiffeners === undefined
        ? null
        : { pitch: onPaper(stiffeners), thickness: onPaper(web ?? 0) },
    splices:
      splices === undefined
        ? null
        : {
            at: splices.map(onPaper),
            width: onPaper(spliceWidth),
            isWidthTold: options.spliceWidth !== undefined,
          },
  };
}

function planCovers(
  options: MakeReliefOptions,
  flange: number | null,
  onPaper: (mm: number) => number,
): Covers | null {
  const { covers } = options;
  if (covers === undefined) return null;
  if (covers.length === 0) throw outOfRange('one or more', 'covers', 'none of them');
  if (flange === null)
    throw outOfRange('a profile with flanges', 'covers', `${covers.join(' mm, ')} mm`);
  const lengths = covers.map(onPaper).sort((a, b) => b - a);
  const least = Math.max(leastLine, cardOf(options) ?? 0);
  return { lengths, thickness: onPaper(flange), least };
}

// No word on what is not there.
function checkFittings({ rivets, rivetHead, splices, spliceWidth }: MakeReliefOptions): void {
  if (rivetHead !== undefined && rivets === undefined) {
    throw outOfRange('rivets that it goes with', 'rivetHead', `${rivetHead} mm`);
  }
  if (spliceWidth !== undefined && splices === undefined) {
    throw outOfRange('splices that it goes with', 'spliceWidth', `${spliceWidth} mm`);
  }
}

// A piece is as long as the path that it follows.
function lengthOf({ length, along, outline }: MakeReliefOptions): RealMm {
  if (along !== undefined && outline !== undefined) {
    throw outOfRange('no path beside an outline', 'along', along.path);
  }
  const drawn = along !== undefined ? 'a path' : outline !== undefined ? 'an outline' : null;
  if (drawn !== null) {
    if (length === undefined) return realMm(1);
    throw outOfRange(`no length beside ${drawn}, which has its own,`, 'length', `${length} mm`);
  }
  if (length === undefined) throw outOfRange('a length, or a path to follow,', 'length', undefined);
  return length;
}

function checkDepth({ length, sizedBy }: ReliefPlan, depth: number, dpi: Dpi): void {
  const dots = (depth * dpi) / mmPerInch;
  if (dots < fewestDots) {
    const wanted = `${fewestDots} dots or more at ${dpi} dpi`;
    throw outOfRange(wanted, sizedBy, `${Number(dots.toPrecision(3))} dots`);
  }
  if ((length * dpi) / mmPerInch >= 1) return;
  throw outOfRange(`a dot or more at ${dpi} dpi`, 'length', inMm(length));
}

function inMm(mm: number): string {
  return `${Number(mm.toPrecision(6))} mm of paper`;
}

/**
 * Check that pieces find room on a page.
 *
 * @param piece - What one measures, mm of paper.
 * @param names - What says so, as the user knows it: from left to right, and from top to foot.
 * @param sheet - How they lie.
 * @throws RangeError when they do not.
 */
export function checkPaper(
  piece: PerAxis<number>,
  names: readonly [string, string],
  sheet: Pick<ReliefSheet, 'dpi' | 'bleed' | 'copies' | 'gap'>,
): void {
  const { dpi, bleed, copies, gap } = sheet;
  for (const [name, mm] of [
    [names[0], piece.x],
    [names[1], piece.y],
  ] as const) {
    if (mm > longest) throw outOfRange(`up to ${longest} mm of paper, an A0 page,`, name, inMm(mm));
  }
  const perMm = dpi / mmPerInch;
  const rows = copies * (piece.y + 2 * bleed + gap) * perMm;
  const all = rows * (piece.x + 2 * bleed) * perMm;
  if (all <= mostPixels) return;
  if (all > copies * mostPixels) throw outOfRange(`up to ${mostPixels} dots in all`, 'dpi', dpi);
  throw outOfRange(`up to ${mostPixels} dots in all at ${dpi} dpi`, 'copies', copies);
}
