import { fromSrgb } from '../../colour/srgb.js';
import type { GroundMean } from '../../finish/relief/on-ground.js';
import type { PageRows } from '../../finish/weather/weather-wall.js';
import { meanLight } from '../../raster/mean-light.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';

/** What a part is covered with. */
export interface CoveredWith {
  /** What repeats. */
  readonly tile: Raster;
  /** The dot of it that lies on the datum. */
  readonly origin: PerAxis<number>;
  /** The same, weathered, or null. */
  readonly wall: PageRows | null;
}

// Rows and columns: a metre or a few, which cost no time.
const most = 512;
// Whatever a part has of its own counts for nothing: parts of one wall are lit alike, and meet.
const nowhere = { ledges: [], fixings: [], foot: null };

/**
 * Average what lies under relief as it is to be seen: of a weathered wall, some of it from the datum on. What a printer
 * is sent in its place does not count, for that is to look the same.
 *
 * @param ground - Of a part.
 * @returns The mean of red, green and blue in linear light.
 */
export function meanOfWall(ground: CoveredWith): GroundMean {
  const { tile, origin, wall } = ground;
  if (wall === null) return meanLight(tile);
  const page = { width: most, height: most, left: Math.round(origin.x), top: Math.round(origin.y) };
  const sums: [number, number, number] = [0, 0, 0];
  for (const row of wall({ ...page, places: nowhere })) {
    for (let i = 0; i < row.length; i += 3) {
      for (let c = 0; c < 3; c++) sums[c]! += fromSrgb(row[i + c]!);
    }
  }
  return [sums[0] / most ** 2, sums[1] / most ** 2, sums[2] / most ** 2];
}
