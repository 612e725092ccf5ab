import type { PerAxis } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import type { PageWindow } from './ink-field.js';
import { rodRoom } from './lay-rod.js';
import type { OverlayContent } from './overlay-content.js';
import { type Caption, planCaption } from './plan-caption.js';

/**
 * Long side of the photo as drawn, in pixels: fine enough to print, large enough to read. A larger
 * photo is made a whole number of times smaller, which takes half the time of any other size.
 */
const largest = 2400;
const smallest = 1000;
/** Around all, in units. */
const margin = 14;
/** Narrowest room for the caption below the photo, and the room it has beside one, in units. */
const leastWidth = 520;
const besideWidth = 400;
/** A photo this much higher than it is wide has its caption beside it. */
const tall = 1.5;

/** Where everything lies on the page, in pixels. */
export interface PagePlan {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** A thousandth of the photo's long side as drawn. */
  readonly unit: number;
  /** Where the photo lies. */
  readonly photo: PageWindow;
  /** How many times smaller than it is, a whole number; 1 where as large or larger. */
  readonly times: number;
  /** Pixels of the page for each of the photo's. */
  readonly scale: PerAxis<number>;
  /** What the caption says. */
  readonly caption: Caption;
  /** Its top left corner. */
  readonly captionAt: Point;
}

/**
 * Plan the page: the photo, a gauge rod beside or above it, and the caption below it, or beside a
 * tall one.
 *
 * @param size - The photo, in pixels.
 * @param content - What is shown of it.
 * @returns Where everything lies.
 */
export function planPage(
  size: Readonly<Record<'width' | 'height', number>>,
  content: OverlayContent,
): PagePlan {
  const long = Math.max(size.width, size.height);
  // No photo is so narrow that nothing of it would be left.
  const times = Math.min(size.width, size.height, Math.ceil(long / largest));
  const larger = Math.max(1, smallest / long);
  const width = times > 1 ? Math.floor(size.width / times) : Math.round(size.width * larger);
  const height = times > 1 ? Math.floor(size.height / times) : Math.round(size.height * larger);
  const scale =
    times > 1 ? { x: 1 / times, y: 1 / times } : { x: width / size.width, y: height / size.height };
  const drawnAt = Math.min(scale.x, scale.y);
  const unit = Math.max(width, height) / 1000;
  const edge = Math.round(margin * unit);
  const room = Math.round(rodRoom * unit);
  const axis = content.joints?.axis;
  const x = axis === 'y' ? room : edge;
  const y = axis === 'x' ? room : edge;
  const photo = { x, y, width, height };
  if (height > tall * width) {
    const caption = planCaption(content, { width: besideWidth * unit, unit, drawnAt });
    const captionAt = { x: x + width + 1.5 * edge, y: y - 0.8 * edge };
    return {
      width: Math.ceil(captionAt.x + besideWidth * unit) + edge,
      height: Math.ceil(Math.max(y + height + edge, captionAt.y + caption.height)),
      ...{ unit, photo, times, scale, caption, captionAt },
    };
  }
  const inside = Math.max(Math.round(leastWidth * unit), x - edge + width);
  const caption = planCaption(content, { width: inside, unit, drawnAt });
  return {
    width: inside + 2 * edge,
    height: y + height + Math.ceil(caption.height),
    ...{ unit, photo, times, scale, caption, captionAt: { x: edge, y: y + height } },
  };
}
