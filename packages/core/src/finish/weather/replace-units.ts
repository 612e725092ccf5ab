import type { PerAxis } from '../../surface/measurement.js';
import { hashCell } from './hash-cell.js';
import { noiseAt } from './noise.js';
import { listOctaves } from './octaves.js';
import type { PaintedRun, WallDots } from './paint-row.js';
import { type MendedPlace, placeMended } from './place-mended.js';
import type { WeatherSite } from './site.js';
import type { BrickMiddles, RepeatedPicture } from './vary-bricks.js';

/**
 * Fills in what red, green and blue of each unit of a copy are multiplied by, three numbers a unit, and lessens what new
 * ones take of the weather; of a copy that begins at a dot of what repeats. Tells whether any is new.
 */
export type ToneUnits = (
  start: PerAxis<number>,
  gains: Float32Array,
  shares: Float32Array,
) => boolean;

/** How many of a mended place's units are new, as a bar that noise of deviation 1 passes: three in four. */
const most = -0.67;
/** How far the tone of a delivery lies from that of the roof: common practice, no source. */
const lighter = { least: 0.08, most: 0.26 };
const tint = 0.05;
/** How far one of it lies from the next. */
const spread = 0.03;

/**
 * Replace units of what is laid dry, slates, tiles and boards, in the places where a wall's would be pointed anew: whole
 * ones of another delivery, lighter or darker than those round them, and cleaner.
 *
 * @param units - Of the picture.
 * @param picture - It, and how it lies on the roof.
 * @param site - The roof.
 * @returns What tones the units of a copy, or null where none are replaced.
 */
export function replaceUnits(
  units: BrickMiddles,
  picture: RepeatedPicture,
  site: WeatherSite,
): ToneUnits | null {
  if (!site.isDry || site.strengths.patches === 0) return null;
  const { mmPerDot, origin } = picture;
  const near = placeMended(site, 0);
  const seed = hashCell(94, 0, site.ground.seed) | 0;
  // By noise, so that a hair's breadth leaves a unit what it is.
  const ground = { ...site.ground, seed, finest: 1 };
  const [chosen] = listOctaves(ground, { id: 94, cell: 84, count: 1, gain: 1 });
  const [varied] = listOctaves(ground, { id: 95, cell: 84, count: 1, gain: 1 });
  if (chosen === undefined || varied === undefined) return null;
  return (start, gains, shares) => {
    gains.fill(1);
    let isAny = false;
    for (let i = 1; i < units.x.length; i++) {
      const x = (start.x + units.x[i]! - origin.x + 0.5) * mmPerDot.x;
      const y = (start.y + units.y[i]! - origin.y + 0.5) * mmPerDot.y;
      const place = near(y).find(
        (one) => Math.abs(x - one.x) <= one.wide && Math.abs(y - one.y) <= one.high,
      );
      if (place === undefined || noiseAt(chosen, x, y) < most) continue;
      isAny = true;
      gains.set(toneOf(place, spread * noiseAt(varied, x, y)), 3 * i);
      shares[i] = shares[i]! * (1 - 0.6 * place.fresh);
    }
    return isAny;
  };
}

// Of one place all came together.
function toneOf({ chance }: MendedPlace, off: number): readonly [number, number, number] {
  const far = lighter.least + (lighter.most - lighter.least) * chance(4);
  const tone = 1 + off + (chance(2) < 0.7 ? far : -far);
  const warm = tint * (2 * chance(5) - 1);
  return [tone * (1 + warm), tone, tone * (1 - warm)];
}

/** A row to be toned, and its copies. */
export interface RowToTone {
  /** The picture's row. */
  readonly from: WallDots;
  /** Which dots of the page show which of it. */
  readonly runs: readonly PaintedRun[];
  /** What red, green and blue of each unit are multiplied by, copy by copy. */
  readonly gains: Float32Array;
}

/**
 * Tone a row's units that are not what the picture has.
 *
 * @param row - Dot by dot: filled.
 * @param what - From what.
 */
export function toneRow(row: WallDots, what: RowToTone): void {
  const { from, runs, gains } = what;
  for (const run of runs) {
    for (let x = run.from, at = run.pixel; x < run.to; x++, at++) {
      const label = from.labels[at]!;
      const unit = 3 * (run.brick + label);
      for (let c = 0; c < 3; c++) row.dots[4 * x + c] = gains[unit + c]! * from.dots[4 * at + c]!;
      row.dots[4 * x + 3] = from.dots[4 * at + 3]!;
      row.labels[x] = label;
    }
  }
}
