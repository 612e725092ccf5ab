import { createRaster, type Raster } from '../../raster/raster.js';
import { resampleRaster } from '../../raster/resample-raster.js';
import { toPrintResolution } from '../../scale/to-print-resolution.js';
import type { Seam } from '../../seam/inspect/inspected-seam.js';
import type { OddPlace } from '../../seam/odd/to-odd-place.js';
import type { PerAxis } from '../../surface/measurement.js';
import { dpi as toDpi, type Dpi } from '../../units/units.js';
import { type Colour, markSeam, outlinePlace } from './mark-seams.js';

/** Along which axes a picture is to repeat. */
export type RepeatAxis = 'x' | 'y' | 'both';

/** What is drawn of a picture's repeat. */
export interface SeamContent {
  /** How it meets itself. */
  readonly seams: PerAxis<Seam>;
  /** Which seams to show. */
  readonly axis: RepeatAxis;
  /** Places that catch the eye. */
  readonly odd: readonly OddPlace[];
  /** Millimetres of paper to its pixel, and the printer; null where nobody knows. */
  readonly print: { readonly mmPerPx: PerAxis<number>; readonly dpi: Dpi } | null;
}

/** A page that shows a picture's repeat. */
export interface SeamPage {
  /** What to write. */
  readonly raster: Raster;
  /** At how many dots to an inch its tiling is as large as on the model, or null. */
  readonly dpi: Dpi | null;
}

// Light, not sRGB: paper grey around the panels.
const paper: Colour = [0.6, 0.6, 0.6];
// The picture pushed on is shown no larger; its tiling, where nobody knows how large it prints, at
// least so large; where its print is known, with as many dots as fit in this.
const largestPicture = 2048;
const leastTiling = 768;
const largestTiling = 3600;

interface Spot {
  readonly x: number;
  readonly y: number;
}

/**
 * Draw a picture's seams where they can be seen: on the left the picture pushed on by half, so that
 * its seams cross in the middle, with arrows in the margin where they lie (black where a seam shows,
 * hollow where none does) and a frame around each odd place; on the right the picture laid three
 * times each way, as large as it prints where that is known.
 *
 * @param raster - The picture.
 * @param content - What its inspection found, and how large it prints.
 * @returns A new picture, and its resolution.
 */
export function drawSeams(raster: Raster, content: SeamContent): SeamPage {
  const { axis, seams, odd } = content;
  const across = axis === 'y' ? 1 : 3;
  const down = axis === 'x' ? 1 : 3;
  const shown = shrunk(raster, largestPicture / Math.max(raster.width, raster.height));
  const { width, height } = shown;
  const { tile, dpi } = tileOf(raster, content, { across, down });
  const margin = Math.max(16, Math.round(Math.min(width, height) / 24));
  const tall = Math.max(height, down * tile.height);
  const out = createRaster(width + across * tile.width + 3 * margin, tall + 2 * margin);
  out.planes.forEach((plane, channel) => plane.fill(paper[channel] ?? 0));

  const half = {
    x: axis === 'y' ? 0 : Math.floor(width / 2),
    y: axis === 'x' ? 0 : Math.floor(height / 2),
  };
  const corner = { x: margin, y: margin + Math.floor((tall - height) / 2) };
  const panel = { at: corner, columns: width, rows: height, from: half };
  lay(shown, out, panel);
  const times = { x: width / raster.width, y: height / raster.height };
  for (const place of odd) outlinePlace(out, place, { ...panel, times });
  // A picture pushed on by `half` shows its first column or row where the other half ends.
  const seam = { x: corner.x + width - half.x, y: corner.y + height - half.y };
  if (axis !== 'y') {
    const arrow = { size: margin, shows: !seams.x.seamless };
    markSeam(out, { ...arrow, tip: { x: seam.x, y: corner.y - 1 }, step: { x: 0, y: -1 } });
    markSeam(out, { ...arrow, tip: { x: seam.x, y: corner.y + height }, step: { x: 0, y: 1 } });
  }
  if (axis !== 'x') {
    const arrow = { size: margin, shows: !seams.y.seamless };
    markSeam(out, { ...arrow, tip: { x: corner.x - 1, y: seam.y }, step: { x: -1, y: 0 } });
    markSeam(out, { ...arrow, tip: { x: corner.x + width, y: seam.y }, step: { x: 1, y: 0 } });
  }
  lay(tile, out, {
    at: { x: width + 2 * margin, y: margin + Math.floor((tall - down * tile.height) / 2) },
    columns: across * tile.width,
    rows: down * tile.height,
    from: { x: 0, y: 0 },
  });
  return { raster: out, dpi };
}

// One of the tiling: in dots of the print, of every second, every third, … where those are too many;
// else as it is, and smaller where that is large.
function tileOf(
  raster: Raster,
  { print }: SeamContent,
  { across, down }: { readonly across: number; readonly down: number },
): { readonly tile: Raster; readonly dpi: Dpi | null } {
  const { width, height } = raster;
  if (print === null) {
    const wanted = Math.max(leastTiling, Math.min(largestPicture, Math.max(width, height)));
    return { tile: shrunk(raster, wanted / Math.max(across * width, down * height)), dpi: null };
  }
  const { mmPerPx, dpi } = print;
  const dots = { x: (mmPerPx.x * dpi) / 25.4, y: (mmPerPx.y * dpi) / 25.4 };
  const side = Math.max(across * width * dots.x, down * height * dots.y);
  const every = Math.max(1, Math.ceil(side / largestTiling));
  const factor = { x: dots.x / every, y: dots.y / every };
  const tile = toPrintResolution(raster, { factor, wrap: { x: true, y: true } });
  return { tile, dpi: toDpi(dpi / every) };
}

function shrunk(raster: Raster, share: number): Raster {
  if (share >= 1) return raster;
  return resampleRaster(raster, {
    width: Math.max(1, Math.round(raster.width * share)),
    height: Math.max(1, Math.round(raster.height * share)),
  });
}

// Cover a window of the page with a picture that goes on with its other side.
function lay(
  picture: Raster,
  page: Raster,
  window: {
    readonly at: Spot;
    readonly columns: number;
    readonly rows: number;
    readonly from: Spot;
  },
): void {
  const { at, columns, rows, from } = window;
  for (let channel = 0; channel < 3; channel++) {
    const source = picture.planes[channel]!;
    const target = page.planes[channel]!;
    for (let y = 0; y < rows; y++) {
      const line = ((y + from.y) % picture.height) * picture.width;
      const start = (y + at.y) * page.width + at.x;
      for (let x = 0; x < columns; x++) {
        target[start + x] = source[line + ((x + from.x) % picture.width)]!;
      }
    }
  }
}
