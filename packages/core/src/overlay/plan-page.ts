import type { Measurement, PerAxis } from '../surface/measurement.js';
import type { Size } from '../units/parse-size.js';
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
/** What of a page is settled by whoever wants it. */
export interface OverlayOptions {
  /** Long side of the photo as drawn, in pixels, 100 or more; at most 2400 unless told, a whole number of times smaller. */
  readonly longest?: number;
  /** The photo that the picture was made smaller from, whose numbers the caption tells; the picture's own unless told. */
  readonly whole?: {
    /** In pixels. */
    readonly size: Size<number>;
    /** In pixels of it. */
    readonly measurement: Measurement | null;
  };
}

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
  /** How many times smaller than it is, a whole number; 1 where it is any other size. */
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
 * @param options - How large, and whose numbers it tells.
 * @returns Where everything lies.
 */
export function planPage(
  size: Readonly<Record<'width' | 'height', number>>,
  content: OverlayContent,
  options: OverlayOptions = {},
): PagePlan {
  const { longest, whole = { size, measurement: content.measurement } } = options;
  const long = Math.max(size.width, size.height);
  // No photo is so narrow that nothing of it would be left.
  const least = Math.min(size.width, size.height);
  const times = longest === undefined ? Math.min(least, Math.ceil(long / largest)) : 1;
  const most = longest === undefined ? Infinity : longest / long;
  const by = Math.min(most, Math.max(1, smallest / long));
  const side = (length: number): number =>
    times > 1 ? Math.floor(length / times) : Math.max(1, Math.round(length * by));
  const [width, height] = [side(size.width), side(size.height)];
  const scale =
    times > 1 ? { x: 1 / times, y: 1 / times } : { x: width / size.width, y: height / size.height };
  const unit = Math.max(width, height) / 1000;
  const isWhole = whole.size.width === size.width && whole.size.height === size.height;
  const own = isWhole ? scale : { x: width / whole.size.width, y: height / whole.size.height };
  const words = { unit, drawnAt: Math.min(own.x, own.y), units: Math.min(scale.x, scale.y) / unit };
  const told = { ...content, measurement: whole.measurement };
  const edge = Math.round(margin * unit);
  const room = Math.round(rodRoom * unit);
  const axis = content.joints?.axis;
  const x = axis === 'y' ? room : edge;
  const y = axis === 'x' ? room : edge;
  const photo = { x, y, width, height };
  if (height > tall * width) {
    const caption = planCaption(told, { width: besideWidth * unit, ...words });
    const captionAt = { x: x + width + 1.5 * edge, y: y - 0.8 * edge };
    return {
      width: Math.ceil(captionAt.x + besideWidth * unit) + edge,
      height: Math.ceil(Math.max(y + height + edge, captionAt.y + caption.height)),
      ...{ unit, photo, times, scale, caption, captionAt },
    };
  }
  const inside = Math.max(Math.round(leastWidth * unit), x - edge + width);
  const caption = planCaption(told, { width: inside, ...words });
  return {
    width: inside + 2 * edge,
    height: y + height + Math.ceil(caption.height),
    ...{ unit, photo, times, scale, caption, captionAt: { x: edge, y: y + height } },
  };
}
