import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/** Red, green and blue in linear light. */
export type Colour = readonly [red: number, green: number, blue: number];

// Told apart by lightness and shape alone, whoever looks: a solid arrow, and a hollow one.
const ink: Colour = [0, 0, 0];
const white: Colour = [1, 1, 1];

/** An arrow in the margin whose tip touches the picture where its seam ends. */
export interface SeamArrow {
  /** Just outside the picture. */
  readonly tip: PerAxis<number>;
  /** Away from it, one pixel. */
  readonly step: PerAxis<number>;
  /** How far it may reach. */
  readonly size: number;
  /** Whether a seam shows: it is solid then. */
  readonly shows: boolean;
}

/**
 * Mark where a seam lies.
 *
 * @param page - Changed in place.
 * @param arrow - Where, and what to say.
 */
export function markSeam(page: Raster, arrow: SeamArrow): void {
  const { tip, step, size, shows } = arrow;
  const longest = size - 2;
  const line = Math.max(2, Math.round(size / 12));
  for (let depth = 1; depth < longest; depth++) {
    const spread = Math.floor(depth / 1.5);
    for (let aside = -spread; aside <= spread; aside++) {
      const isEdge = spread - Math.abs(aside) < line || depth >= longest - line;
      const x = tip.x + step.x * depth + (step.x === 0 ? aside : 0);
      const y = tip.y + step.y * depth + (step.y === 0 ? aside : 0);
      paint(page, x, y, shows || isEdge ? ink : white);
    }
  }
}

/** Where a picture was laid on a page. */
export interface LaidPanel {
  /** Its top left corner. */
  readonly at: PerAxis<number>;
  /** Columns and rows. */
  readonly columns: number;
  /** Rows. */
  readonly rows: number;
  /** The pixel of the picture that lies in the corner. */
  readonly from: PerAxis<number>;
  /** Pixels of the page to one of the whole picture. */
  readonly times: PerAxis<number>;
}

/**
 * Frame an odd place: black and white, so that it shows on anything. It goes around the edges.
 *
 * @param page - Changed in place.
 * @param place - In pixels of the picture.
 * @param panel - Where the picture lies.
 */
export function outlinePlace(
  page: Raster,
  place: Size<number> & PerAxis<number>,
  panel: LaidPanel,
): void {
  const { at, columns, rows, from, times } = panel;
  const line = Math.max(1, Math.round(Math.min(columns, rows) / 240));
  // Beside the place, not on it.
  const out = 3 * line;
  const width = Math.round(place.width * times.x) + 2 * out;
  const height = Math.round(place.height * times.y) + 2 * out;
  const left = Math.round(place.x * times.x) - out - from.x;
  const top = Math.round(place.y * times.y) - out - from.y;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const depth = Math.min(x, y, width - 1 - x, height - 1 - y);
      if (depth >= 3 * line) continue;
      const u = at.x + ((((left + x) % columns) + columns) % columns);
      const v = at.y + ((((top + y) % rows) + rows) % rows);
      paint(page, u, v, depth >= line && depth < 2 * line ? white : ink);
    }
  }
}

function paint(page: Raster, x: number, y: number, colour: Colour): void {
  const at = y * page.width + x;
  page.planes.forEach((plane, channel) => {
    plane[at] = colour[channel] ?? 0;
  });
}
