import type { LaidOutline, LeftOutline } from './dress-plan.js';
import type { DressedWith } from './dress-surfaces.js';
import type { MatchedOutline } from '../../drawing/dress/match-keys.js';
import type { Drawing } from '../../drawing/drawing.js';
import type { PaintKey } from '../../drawing/dress/paint-key.js';
import { showPath } from '../../errors/show-path.js';
import type { ProfileId } from '../../finish/relief/profiles/profile.js';
import type { Warning } from '../../errors/warning.js';
import { type MeasurementReport, reportMeasurement } from '../measure/report-measurement.js';
import { toFigures } from '../to-figures.js';

/** An outline that was covered. */
export interface DressedOutline {
  /** Its id; `path`, or `path in gable`, where it has none. */
  readonly id: string;
  /** The key that means it, as it was written. */
  readonly key: string;
  /** The photo that it is covered with, as it was written. */
  readonly surface: string;
  /** How far courses are turned on paper, clockwise. */
  readonly turnedDegrees: number;
  /** How often the surface's picture is laid under it. */
  readonly pictures: number;
  /** What it is drawn as in relief, or null where it is flat. */
  readonly relief: ProfileId | null;
}

/** A picture that lies under outlines. */
export interface SurfacePictureReport {
  /** Its id in the drawing. */
  readonly id: string;
  /** The file beside the drawing, or null where it is in the drawing. */
  readonly file: string | null;
  /** Columns. */
  readonly widthPx: number;
  /** Rows. */
  readonly heightPx: number;
  /** Of its file. */
  readonly bytes: number;
}

/** A surface that outlines were covered with. */
export interface DressedSurface {
  /** The photo, as it was written. */
  readonly surface: string;
  /** How many outlines it covers. */
  readonly outlines: number;
  /** What repeats. */
  readonly tile: {
    /** Columns. */
    readonly widthPx: number;
    /** Rows. */
    readonly heightPx: number;
  };
  /** What rounding that to whole dots did to its scale, along the worse axis. */
  readonly scaleErrorPercent: number;
  /** The one picture of it; the first of several where weather leaves no two outlines alike. */
  readonly picture: SurfacePictureReport;
  /** All of them. */
  readonly pictures: readonly SurfacePictureReport[];
  /** Of the photo. */
  readonly measurement: MeasurementReport;
}

/** What a report goes by. */
export interface DressFacts {
  /** Surfaces, and what they cover. */
  readonly dressed: readonly DressedWith[];
  /** As the user wrote them. */
  readonly keys: readonly PaintKey[];
  /** By outline: relief on it. */
  readonly reliefs: ReadonlyMap<LaidOutline, { readonly profile: ProfileId }>;
  /** Of the surfaces' pictures, in their order. */
  readonly ids: readonly string[];
  /** The files of these pictures, or null where they are in the drawing. */
  readonly files: readonly string[] | null;
}

/**
 * Report what was covered, in the order of the drawing.
 *
 * @param facts - What became of it.
 * @returns Each outline at each place where it shows.
 */
export function reportOutlines(facts: DressFacts): DressedOutline[] {
  const { dressed, keys, reliefs } = facts;
  const all = dressed.flatMap(({ path, laid, under }) =>
    laid.map((one, i) => ({ one, path, pictures: under[i]?.places.length ?? 0 })),
  );
  return all
    .toSorted((a, b) => indexOf(a.one) - indexOf(b.one))
    .map(({ one, path, pictures }) => ({
      id: nameOf(one),
      key: keys[one.key]?.text ?? '',
      surface: path,
      turnedDegrees: toFigures(one.lattice.turned, 6),
      pictures,
      relief: reliefs.get(one)?.profile ?? null,
    }));
}

function indexOf({ outline }: LaidOutline): number {
  return outline.element.index;
}

/**
 * Name an outline.
 *
 * @param matched - Which.
 * @returns Its id; `path`, or `path in gable`, where it has none.
 */
export function nameOf(matched: MatchedOutline): string {
  const { element, holders } = matched.outline;
  const { id, name } = element;
  const around = holders.find((holder) => holder.id !== null)?.id;
  return id ?? (around === null || around === undefined ? name : `${name} in ${around}`);
}

/**
 * Report what outlines were covered with.
 *
 * @param facts - What became of it.
 * @returns Each surface, in the order in which it was named.
 */
export function reportSurfaces(facts: DressFacts): DressedSurface[] {
  const { dressed, ids, files } = facts;
  let at = 0;
  return dressed.map(({ path, laid, surface, pictures: all }) => {
    const { made, measurement, lattice, photo } = surface;
    const pictures = all.map(({ width, height, bytes }) => {
      const named = { id: ids[at] ?? '', file: files?.[at] ?? null };
      at++;
      return { ...named, widthPx: width, heightPx: height, bytes: bytes.length };
    });
    const [first] = pictures;
    if (first === undefined) throw new Error('a surface without a picture');
    const errors = [made.plan.x.scaleError, made.plan.y.scaleError];
    const worst = errors.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
    return {
      surface: path,
      outlines: laid.length,
      tile: { widthPx: made.raster.width, heightPx: made.raster.height },
      scaleErrorPercent: toFigures(100 * worst, 3),
      picture: first,
      pictures,
      measurement: reportMeasurement({ ...measurement, lattice }, photo),
    };
  });
}

const mostNamed = 3;

/**
 * Warn of outlines that are meant and were left as they are, by name; those that one thing stands
 * against together. That a line has no area needs no word where it only stands in a group.
 *
 * @param left - Outlines, and why, to follow their name.
 * @param drawing - Which they are of.
 * @returns The warnings.
 */
export function warnOfLeft(left: readonly LeftOutline[], drawing: Drawing): Warning[] {
  const together = new Map<string, MatchedOutline[]>();
  const warnings: Warning[] = [];
  const warn = (message: string): void => void warnings.push({ code: 'left-as-it-is', message });
  for (const { matched, why } of left) {
    const { element } = matched.outline;
    if (matched.isOwn) warn(`${showPath(nameOf(matched))} is left as it is: it ${why}`);
    else if (element.name !== 'line') {
      const alike = together.get(why);
      if (alike === undefined) together.set(why, [matched]);
      else alike.push(matched);
    }
  }
  for (const [why, all] of together) {
    const first = all.slice(0, mostNamed).map((matched) => placeOf(matched, drawing));
    const named = first.join(', ');
    const more = all.length > mostNamed ? ` and ${all.length - mostNamed} more` : '';
    const rest = all.length === 1 ? 'is left as it is: it' : 'are left as they are: each';
    warn(`${showPath(named)}${more} ${rest} ${why}`);
  }
  return warnings;
}

// What has no id, nor stands in anything that has, is found by its line.
function placeOf(matched: MatchedOutline, { text }: Drawing): string {
  const { holders, element } = matched.outline;
  const name = nameOf(matched);
  if (holders.some(({ id }) => id !== null)) return name;
  const lines = text.slice(0, element.start).split('\n').length;
  return `${name} on line ${lines}`;
}
