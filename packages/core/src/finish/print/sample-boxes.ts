import { applyHomography, type Homography } from '../../numeric/homography.js';
import type { Box } from '../../page/page.js';
import type { Raster } from '../../raster/raster.js';

/** What boxes of a strip look like in a picture: three numbers of linear light for each. */
export interface SampledBoxes {
  /** Red, green and blue of each box. */
  readonly light: Float64Array;
  /** The share of what was looked at that is as bright as a picture can say, in the worst channel. */
  readonly blown: number;
}

// Light at which the last level of a picture begins.
const brightest = 0.985;
const blocks = 4;

/**
 * Look at boxes of a strip. Dots of a printer are taken together by their light, as the eye does; dust and
 * hairs are left out.
 *
 * @param picture - In linear light.
 * @param map - From mm of the strip to px of the picture.
 * @param boxes - What to look at, all of it, mm; each lies in the picture.
 * @returns Their light.
 */
export function sampleBoxes(picture: Raster, map: Homography, boxes: readonly Box[]): SampledBoxes {
  const light = new Float64Array(3 * boxes.length);
  const sums = new Float64Array(3 * blocks * blocks);
  const worst = [0, 0, 0];
  let looked = 0;
  boxes.forEach((box, index) => {
    looked += fillBlocks(sums, { picture, map, box, worst });
    for (let channel = 0; channel < 3; channel++) {
      light[3 * index + channel] = middleOf(
        sums.subarray(channel * blocks * blocks, (channel + 1) * blocks * blocks),
      );
    }
  });
  return { light, blown: Math.max(...worst) / looked };
}

interface BoxToSample {
  readonly picture: Raster;
  readonly map: Homography;
  readonly box: Box;
  // Counts what is blown, channel by channel.
  readonly worst: number[];
}

// As many places along each side of a block as it has pixels.
function fillBlocks(sums: Float64Array, { picture, map, box, worst }: BoxToSample): number {
  const { width, height, planes } = picture;
  const start = applyHomography(map, box.x, box.y);
  const end = applyHomography(map, box.x + box.width, box.y + box.height);
  const far = Math.hypot(end.x - start.x, end.y - start.y);
  const each = Math.min(12, Math.max(2, Math.ceil((0.75 * far) / blocks)));
  const steps = blocks * each;
  sums.fill(0);
  for (let v = 0; v < steps; v++) {
    for (let u = 0; u < steps; u++) {
      const at = applyHomography(
        map,
        box.x + ((u + 0.5) / steps) * box.width,
        box.y + ((v + 0.5) / steps) * box.height,
      );
      const x = Math.min(width - 1, Math.max(0, Math.floor(at.x)));
      const y = Math.min(height - 1, Math.max(0, Math.floor(at.y)));
      const block = Math.floor(v / each) * blocks + Math.floor(u / each);
      planes.forEach((plane, channel) => {
        const light = plane[y * width + x]!;
        sums[channel * blocks * blocks + block]! += light / (each * each);
        if (light >= brightest) worst[channel]! += 1;
      });
    }
  }
  return steps * steps;
}

// The mean of the middle half.
function middleOf(values: Float64Array): number {
  const kept = values.toSorted().subarray(values.length / 4, (3 * values.length) / 4);
  return kept.reduce((sum, value) => sum + value, 0) / kept.length;
}
