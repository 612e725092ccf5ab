import { colourDifference } from '../../colour/colour-difference.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Box } from '../../page/page.js';
import type { Raster } from '../../raster/raster.js';
import { findMarks } from './find-marks.js';
import { fitLight, type StripLight } from './fit-light.js';
import { type Lab, labOf, labOfLight } from './lab-of.js';
import { areaAt, type PlacedStrip, placeStrip } from './place-strip.js';
import { type CameraCurve, tellCurve } from './tell-curve.js';
import { sampleBoxes } from './sample-boxes.js';
import { markCentres, patchBox, whiteCentres, whiteSide } from './strip-layout.js';
import { stripPatches } from './strip-patches.js';
import {
  refuseLight,
  refuseMarks,
  refuseSmall,
  refuseUnlike,
  refuseVersion,
  type StripRefusal,
} from './strip-refusals.js';

/** What a print of the strip shows. */
export interface MeasuredStrip extends SeenColours {
  /** The least light on it, as a share of the most. */
  readonly evenness: number;
  /** What the camera did to light of its own accord, by what the strip's uneven light tells; taken out. */
  readonly curve: CameraCurve;
  /** Whether it is seen aslant, as a camera sees it and no scanner does. */
  readonly isAslant: boolean;
  /** Pixels along a patch where it is smallest. */
  readonly patchPx: number;
  /** Where it lies. */
  readonly place: PlacedStrip;
}

/** Colours that were sent, and what came. */
export interface SeenColours {
  /** As sent, 0 to 1 as encoded in sRGB, none of them twice. */
  readonly sent: Float64Array;
  /** Lightness, a* and b* of each on paper, whose white is 100, 0, 0. */
  readonly seen: Float64Array;
  /** How much those that are printed in several places differ from their mean: mean CIEDE2000. */
  readonly unsteady: number;
}

const boxes = stripPatches.map((_, i) => patchBox(i));
// How well lightness, and colour, must follow those of the strip: coefficients of correlation.
const leastAlike = 0.8;
const leastColour = 0.5;
// How much smaller than the largest corner mark the smallest is, from which on it is seen aslant.
const aslant = 0.95;

/**
 * Read a test strip: find its marks, even out the light by the white between its patches, and measure them.
 *
 * @param picture - A scan or a photo of the print, in linear light.
 * @returns What it shows, or why it cannot be read.
 */
export function measureStrip(picture: Raster): Outcome<MeasuredStrip, StripRefusal> {
  const marks = findMarks(picture);
  const place = placeStrip(picture, marks);
  if (place === null) return refuseMarks(marks.length);
  const { map } = place;
  const areas = markCentres.map(({ x, y }) => areaAt(map, x, y));
  const patchPx = (boxes[0]?.width ?? 0) * Math.sqrt(Math.min(...areas));
  const unfit = refuseVersion(place.version) ?? refuseSmall(patchPx);
  if (unfit) return unfit;

  const paper = sampleBoxes(picture, map, whiteCentres.map(whiteAround));
  const light = fitLight(whiteCentres, paper.light);
  const dim = refuseLight(paper, light);
  if (dim) return dim;
  const patches = sampleBoxes(picture, map, boxes.map(middleOf)).light;
  const believed = toColours(patches, light);
  if (!isAlike(believed)) return refuseUnlike(isGrey(believed));
  const curve = tellCurve({ patches, paper: paper.light });
  const colours = curve.isTold
    ? toColours(patches.map(curve.undo), fitLight(whiteCentres, paper.light.map(curve.undo)))
    : believed;
  const isAslant = Math.min(...areas) < aslant * Math.max(...areas);
  const { evenness } = light;
  const value = { ...joinLike(colours), evenness, curve, isAslant, patchPx, place };
  return { ok: true, value, warnings: [] };
}

function whiteAround({ x, y }: { readonly x: number; readonly y: number }): Box {
  return { x: x - whiteSide / 2, y: y - whiteSide / 2, width: whiteSide, height: whiteSide };
}

// Clear of edges that are blurred, or a little off: 1.1 mm.
function middleOf({ x, y, width, height }: Box): Box {
  const clear = 0.15;
  return {
    x: x + clear * width,
    y: y + clear * height,
    width: (1 - 2 * clear) * width,
    height: (1 - 2 * clear) * height,
  };
}

// As shares of what bare paper throws back in the same light.
function toColours(seen: Float64Array, light: StripLight): readonly Lab[] {
  return boxes.map(({ x, y, width, height }, i) => {
    const white = light.at({ x: x + width / 2, y: y + height / 2 });
    return labOfLight(white.map((full, channel) => seen[3 * i + channel]! / full));
  });
}

function isAlike(colours: readonly Lab[]): boolean {
  const asked = stripPatches.map((colour) => labOf(colour.map((level) => level / 255)));
  const alike = [0, 1, 2].map((i) => {
    const [one, other] = [asked.map((lab) => lab[i]!), colours.map((lab) => lab[i]!)];
    return correlation(one, other);
  });
  return alike[0]! >= leastAlike && alike[1]! >= leastColour && alike[2]! >= leastColour;
}

// Half of the chroma that is just seen beside a grey, in the mean of patches that are nearly all colourful.
const leastChroma = 1;

function isGrey(colours: readonly Lab[]): boolean {
  const sum = colours.reduce((all, [, a, b]) => all + Math.hypot(a, b), 0);
  return sum < leastChroma * colours.length;
}

function correlation(one: readonly number[], other: readonly number[]): number {
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const [a, b] = [mean(one), mean(other)];
  let [both, ones, others] = [0, 0, 0];
  one.forEach((value, i) => {
    both += (value - a) * (other[i]! - b);
    ones += (value - a) ** 2;
    others += (other[i]! - b) ** 2;
  });
  return both / Math.sqrt(ones * others);
}

// A colour that is printed in several places is their mean; white is bare paper, which was seen all over.
function joinLike(colours: readonly Lab[]): SeenColours {
  const places = new Map<string, number[]>();
  stripPatches.forEach((colour, i) => {
    const key = colour.join();
    places.set(key, [...(places.get(key) ?? []), i]);
  });
  const means: Lab[] = [];
  const apart: number[] = [];
  for (const indices of places.values()) {
    const all = indices.map((i) => colours[i]!);
    const [l = 0, a = 0, b = 0] = [0, 1, 2].map(
      (part) => all.reduce((sum, lab) => sum + lab[part]!, 0) / all.length,
    );
    const isWhite = stripPatches[indices[0]!]!.every((level) => level === 255);
    means.push(isWhite ? [100, 0, 0] : [l, a, b]);
    if (all.length > 1) apart.push(...all.map((lab) => colourDifference(lab, [l, a, b])));
  }
  const sent = [...places.values()].flatMap((indices) =>
    stripPatches[indices[0]!]!.map((level) => level / 255),
  );
  return {
    sent: Float64Array.from(sent),
    seen: Float64Array.from(means.flat()),
    unsteady: apart.reduce((sum, value) => sum + value, 0) / apart.length,
  };
}
