import type { Point, Size } from '@gaugerod/core/pure';

/** How a photo is shown: what of it, and how large. */
export interface View {
  /** Pixels of the screen to one of the photo. */
  readonly scale: number;
  /** Where the photo's left edge lies in its frame. */
  readonly left: number;
  /** Where its top edge lies. */
  readonly top: number;
}

/** How near one may come: so many pixels of the screen to one of the photo. */
const nearest = 32;
/** Free round a photo that is shown whole. */
const margin = 12;

/**
 * Show a photo whole.
 *
 * @param frame - What it is shown in.
 * @param photo - Its size.
 * @returns How it is shown then.
 */
export function viewWhole(frame: Size<number>, photo: Size<number>): View {
  const across = (frame.width - 2 * margin) / photo.width;
  const scale = Math.max(
    1e-3,
    Math.min(nearest, across, (frame.height - 2 * margin) / photo.height),
  );
  return {
    scale,
    left: (frame.width - scale * photo.width) / 2,
    top: (frame.height - scale * photo.height) / 2,
  };
}

/**
 * Come nearer or go back, what is under a place staying there.
 *
 * @param view - As it was.
 * @param by - More than 1 to come nearer.
 * @param at - A place in the frame.
 * @param least - The smallest scale, that of the whole photo.
 * @returns How it is shown then.
 */
export function viewNearer(view: View, by: number, at: Point, least: number): View {
  const scale = Math.min(nearest, Math.max(Math.min(1, least), view.scale * by));
  const times = scale / view.scale;
  return { scale, left: at.x - (at.x - view.left) * times, top: at.y - (at.y - view.top) * times };
}

/**
 * Keep some of the photo in its frame.
 *
 * @param view - As asked for.
 * @param frame - What it is shown in.
 * @param photo - Its size.
 * @returns The view, moved where nothing would be seen.
 */
export function keepInSight(view: View, frame: Size<number>, photo: Size<number>): View {
  const [width, height] = [view.scale * photo.width, view.scale * photo.height];
  const kept = (at: number, length: number, room: number): number => {
    const least = Math.min(room / 3, length / 3);
    return Math.min(room - least, Math.max(least - length, at));
  };
  return {
    scale: view.scale,
    left: kept(view.left, width, frame.width),
    top: kept(view.top, height, frame.height),
  };
}

/**
 * Bring a place into the middle of the frame.
 *
 * @param place - In pixels of the photo.
 * @param scale - How large.
 * @param frame - What it is shown in.
 * @returns How it is shown then.
 */
export function viewAbout(place: Point, scale: number, frame: Size<number>): View {
  const left = frame.width / 2 - scale * place.x;
  return { scale, left, top: frame.height / 2 - scale * place.y };
}

/**
 * Find where a place of the photo is shown.
 *
 * @param view - As shown.
 * @param place - In pixels of the photo.
 * @returns In pixels of the frame.
 */
export function toScreen(view: View, place: Point): Point {
  const { scale, left, top } = view;
  return { x: left + scale * place.x, y: top + scale * place.y };
}
