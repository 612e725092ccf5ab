import { overlay } from '../../colour/blend.js';
import { toLab } from '../../colour/lab.js';
import { srgbToLinear, toSrgb } from '../../colour/srgb.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import { type GroundMean, onGround } from '../../finish/relief/on-ground.js';
import { inks, leastLine } from '../../finish/relief/pens.js';
import { narrowestBar } from '../../finish/relief/profiles/panes.js';
import type { ReliefSheet } from './plan-relief.js';
import { toFigures } from '../to-figures.js';

// In L*: about what the eye tells from one strip of paper to the next.
const leastSeen = 6;

/**
 * Tell what of a piece is not as it should be.
 *
 * @param sheet - As planned.
 * @param mean - Of what lies under relief.
 * @param path - Of the photo, or null for a colour.
 * @returns What the user should know.
 */
export function warnOfRelief(
  sheet: ReliefSheet,
  mean: GroundMean,
  path: string | null,
): readonly Warning[] {
  const { plan, colour } = sheet;
  const { strength } = plan;
  const faint = strength === 0 ? [] : warnOfGround(mean, strength, path ?? colour);
  return [...warnOfSizes(sheet), ...faint];
}

/**
 * Tell what of a piece is drawn wider than it is, and what was not told of it.
 *
 * @param sheet - As planned.
 * @returns What the user should know.
 */
export function warnOfSizes(sheet: ReliefSheet): readonly Warning[] {
  const { plan, real } = sheet;
  const { sizes, rivets, stiffeners, covers, panes } = plan;
  const cut = plan.card ?? 0;
  const least = Math.max(leastLine, cut);
  const thin = [
    ['a flange', real.flange, sizes.flange, least],
    ['a plate on it', real.flange, covers?.thickness ?? null, covers?.least],
    [
      'a stiffener',
      real.web,
      stiffeners?.thickness ?? null,
      Math.max(leastLine, cut - 2 * leastLine),
    ],
    ['a rivet', null, rivets?.head ?? null],
    ['a rail', real.rail, sizes.rail, Math.max(narrowestBar, cut)],
    ['a bar', real.bar, panes.x * panes.y > 1 ? sizes.bar : null, Math.max(narrowestBar, cut)],
  ] as const;
  const widened = thin.flatMap(([name, mm, paper, least = leastLine]): Warning[] => {
    if (paper === null || paper >= least) return [];
    const was = mm === null ? '' : ` of ${toFigures(mm, 4)} mm`;
    const message = `${name}${was} is ${toFigures(paper, 2)} mm of paper: drawn ${toFigures(least, 3)} mm, the least that ${whyLeast(least, cut)}`;
    return [{ code: 'drawn-wider', message }];
  });
  return [...warnOfAssumed(sheet), ...widened];
}

function warnOfAssumed({ like, real }: ReliefSheet): Warning[] {
  if (like === null || real.flange === null) return [];
  const message = `a flange of ${toFigures(real.flange, 3)} mm is taken, by the proportions of ${like.name}, about as deep: tell its thickness where it is known`;
  return [{ code: 'flange-assumed', message }];
}

function whyLeast(least: number, cut: number): string {
  if (cut > leastLine && (least === cut || least === cut - 2 * leastLine))
    return 'is cut from the card';
  return least === leastLine ? 'prints as a line' : 'holds a light line and a dark one';
}

// Overlay keeps black black and white white: on them no line shows.
function warnOfGround(mean: GroundMean, strength: number, name: string): Warning[] {
  const encoded = mean.map(toSrgb);
  const ground = lightness(encoded);
  const isFaint = (tone: 0 | 1, at: number): boolean => {
    const opacity = inks.line * at;
    const line = {
      kind: 'band',
      tone: tone === 1 ? 'light' : 'dark',
      top: opacity,
      foot: opacity,
    } as const;
    const laid = onGround([{ ...line, x0: 0, x1: 1, y0: 0, y1: 1 }], mean);
    const lit = encoded.map((c) =>
      laid.reduce(
        (under, mark) => under + ('top' in mark ? mark.top : 0) * (overlay(under, tone) - under),
        c,
      ),
    );
    return Math.abs(lightness(lit) - ground) < leastSeen;
  };
  const faint = ([1, 0] as const).filter((tone) => isFaint(tone, strength));
  if (faint.length === 0) return [];
  const what =
    faint.length === 2 ? 'no lines' : faint[0] === 1 ? 'no light lines' : 'no dark lines';
  const how = ground < 50 ? 'a paler' : 'a darker';
  const more = faint.some((tone) => isFaint(tone, 1)) ? '' : ', or a greater --strength,';
  const message = `${showPath(name)} shows ${what}, or hardly any: ${how} one${more} would`;
  return [{ code: 'faint-relief', message }];
}

function lightness(encoded: readonly number[]): number {
  const planes = encoded.map((c) => Float32Array.of(srgbToLinear(Math.round(255 * c))));
  const [red, green, blue] = planes;
  if (!red || !green || !blue) return 0;
  toLab([red, green, blue]);
  return red[0] ?? 0;
}
