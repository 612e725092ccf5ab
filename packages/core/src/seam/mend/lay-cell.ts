import { wrapInto } from '../../numeric/wrap-into.js';
import type { Raster } from '../../raster/raster.js';
import type { Cell } from '../extend/cell.js';
import { createMosaic } from '../extend/mosaic.js';
import { pasteCell } from '../extend/paste-cell.js';

/** A brick that takes another's place. */
export interface LaidCell {
  /** Where it is taken from, in pixels of the picture. */
  readonly from: Cell;
  /** Where it goes, in pixels of the tile; past an edge of that it comes in at the other. */
  readonly to: Cell;
  /** Pixels on each side of the middle of a joint over which it fades into what is there. */
  readonly fade: number;
  /** By what its light is multiplied, colour by colour. */
  readonly gains: readonly [number, number, number];
}

/**
 * Lay a brick of a picture over one of a tile, stretched a little so that its joints come to lie on
 * the other's.
 *
 * @param tile - Its planes are written to.
 * @param picture - In linear light.
 * @param laid - From where to where.
 */
export function layCell(tile: Raster, picture: Raster, laid: LaidCell): void {
  const { from, to, fade, gains } = laid;
  const left = Math.floor(to.left - fade) - 1;
  const top = Math.floor(to.top - fade) - 1;
  const piece = createMosaic(
    Math.ceil(to.right + fade) + 1 - left,
    Math.ceil(to.bottom + fade) + 1 - top,
  );
  const place = {
    left: to.left - left,
    right: to.right - left,
    top: to.top - top,
    bottom: to.bottom - top,
  };
  pasteCell(piece, picture, { from, to: place, fade });
  const { width, height } = piece.raster;
  for (let channel = 0; channel < 3; channel++) {
    const plane = tile.planes[channel]!;
    const own = piece.raster.planes[channel]!;
    for (let y = 0, at = 0; y < height; y++) {
      const row = wrapInto(top + y, tile.height) * tile.width;
      for (let x = 0; x < width; x++, at++) {
        const share = piece.shares[at]!;
        if (share === 0) continue;
        const i = row + wrapInto(left + x, tile.width);
        plane[i] = plane[i]! * (1 - share) + own[at]! * gains[channel]!;
      }
    }
  }
}
