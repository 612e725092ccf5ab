import { isLaid, layCopies } from '../../fill/lay-copies.js';
import { toRows } from '../../raster/row-source.js';
import { toPrintResolution } from '../../scale/to-print-resolution.js';
import { mmPerInch, px } from '../../units/units.js';
import { encodePicture } from '../../write/encode-picture.js';
import { openKeepFolder } from '../../write/keep-folder.js';
import { recallSurface } from './run-task.js';
import type { TiledTask, View } from './view-task.js';

const times = 3;
// Of all of it: what catches the eye nine times is large.
const largest = 930;
const quality = 74;

/**
 * Draw three by three repeats of a surface.
 *
 * @param task - Which.
 * @returns The picture, and one repeat's size on paper.
 * @throws TextureError where it is not kept any more.
 */
export async function drawTiled(task: TiledTask): Promise<View> {
  const { folder, key, dpi, mostPixels } = task;
  const longest = Math.min(largest, Math.sqrt(mostPixels));
  const { made } = await recallSurface(await openKeepFolder(folder), key);
  const { raster, plan } = made;
  const copy = isLaid(raster) ? raster.copy : raster;
  const shrunk = Math.min(1, longest / times / Math.max(copy.width, copy.height));
  // Whole pixels, so that it meets itself as the surface does.
  const side = (length: number): number => Math.max(1, Math.round(length * shrunk));
  const [width, height] = [side(copy.width), side(copy.height)];
  const small =
    shrunk === 1
      ? copy
      : toPrintResolution(copy, {
          factor: { x: width / copy.width, y: height / copy.height },
          wrap: { x: true, y: true },
        });
  const laid = layCopies(small, {
    x: { copies: times, period: px(times * small.width) },
    y: { copies: times, period: px(times * small.height) },
  });
  const mm = mmPerInch / dpi;
  return {
    bytes: await encodePicture(toRows(laid), { format: 'jpeg', quality }),
    width: laid.width,
    height: laid.height,
    found: null,
    size: {
      width: (mm * plan.x.period) / plan.x.copies,
      height: (mm * plan.y.period) / plan.y.copies,
    },
  };
}
