import { createRaster, type Raster } from '../raster/raster.js';
import { resampleRaster } from '../raster/resample-raster.js';
import type { SeamInspection } from '../seam/inspect-seams.js';

/** Along which axes a picture is to repeat. */
export type RepeatAxis = 'x' | 'y' | 'both';

type Colour = readonly [red: number, green: number, blue: number];

// Light, not sRGB: paper grey around the panels, and a mark that says go or look.
const paper: Colour = [0.6, 0.6, 0.6];
const good: Colour = [0.02, 0.35, 0.1];
const bad: Colour = [0.8, 0.05, 0.02];
// The tiling is as large as the picture beside it, and large enough to be looked at.
const leastTiling = 768;

interface Spot {
  readonly x: number;
  readonly y: number;
}

/**
 * Draw a picture's seams where they can be seen: on the left the picture at its own size, pushed on
 * by half, so that its seams cross in the middle, with marks in the margin where they lie (green
 * where none shows, red where one does); on the right the picture laid three times each way.
 *
 * @param raster - The picture.
 * @param seams - What its inspection found.
 * @param axis - Which seams to show.
 * @returns A new picture.
 */
export function drawSeams(raster: Raster, seams: SeamInspection, axis: RepeatAxis): Raster {
  const { width, height } = raster;
  const across = axis === 'y' ? 1 : 3;
  const down = axis === 'x' ? 1 : 3;
  const wanted = Math.max(leastTiling, width, height);
  const shrink = Math.min(1, wanted / Math.max(across * width, down * height));
  const small = resampleRaster(raster, {
    width: Math.max(1, Math.round(width * shrink)),
    height: Math.max(1, Math.round(height * shrink)),
  });
  const margin = Math.max(16, Math.round(Math.min(width, height) / 24));
  const tall = Math.max(height, down * small.height);
  const out = createRaster(width + across * small.width + 3 * margin, tall + 2 * margin);
  out.planes.forEach((plane, channel) => plane.fill(paper[channel] ?? 0));

  const half = {
    x: axis === 'y' ? 0 : Math.floor(width / 2),
    y: axis === 'x' ? 0 : Math.floor(height / 2),
  };
  const corner = { x: margin, y: margin + Math.floor((tall - height) / 2) };
  lay(raster, out, { at: corner, columns: width, rows: height, from: half });
  // A picture pushed on by `half` shows its first column or row where the other half ends.
  const seam = { x: corner.x + width - half.x, y: corner.y + height - half.y };
  if (axis !== 'y') {
    const colour = seams.x.seamless ? good : bad;
    mark(out, { tip: { x: seam.x, y: corner.y - 1 }, step: { x: 0, y: -1 }, size: margin, colour });
    mark(out, {
      tip: { x: seam.x, y: corner.y + height },
      step: { x: 0, y: 1 },
      size: margin,
      colour,
    });
  }
  if (axis !== 'x') {
    const colour = seams.y.seamless ? good : bad;
    mark(out, { tip: { x: corner.x - 1, y: seam.y }, step: { x: -1, y: 0 }, size: margin, colour });
    mark(out, {
      tip: { x: corner.x + width, y: seam.y },
      step: { x: 1, y: 0 },
      size: margin,
      colour,
    });
  }
  lay(small, out, {
    at: { x: width + 2 * margin, y: margin + Math.floor((tall - down * small.height) / 2) },
    columns: across * small.width,
    rows: down * small.height,
    from: { x: 0, y: 0 },
  });
  return out;
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

// A triangle in the margin whose tip touches the picture where its seam ends.
function mark(
  page: Raster,
  arrow: {
    readonly tip: Spot;
    readonly step: Spot;
    readonly size: number;
    readonly colour: Colour;
  },
): void {
  const { tip, step, size, colour } = arrow;
  for (let depth = 1; depth < size - 2; depth++) {
    const spread = Math.floor(depth / 1.5);
    for (let aside = -spread; aside <= spread; aside++) {
      const x = tip.x + step.x * depth + (step.x === 0 ? aside : 0);
      const y = tip.y + step.y * depth + (step.y === 0 ? aside : 0);
      const at = y * page.width + x;
      page.planes.forEach((plane, channel) => {
        plane[at] = colour[channel] ?? 0;
      });
    }
  }
}
