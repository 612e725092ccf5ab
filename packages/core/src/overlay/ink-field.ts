/** A part of a page, in pixels. */
export interface PageWindow {
  /** Left edge. */
  readonly x: number;
  /** Top edge. */
  readonly y: number;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/**
 * How far every pixel of a page lies from the edge of what is being drawn: below 0 inside, above 0
 * outside. Strokes that meet are one shape in it, so that nothing is inked twice where they do.
 */
export interface InkField {
  /** Columns of the page. */
  readonly width: number;
  /** Rows of the page. */
  readonly height: number;
  /** One signed distance a pixel, in pixels; `Infinity` where nothing is near. */
  readonly distance: Float32Array;
}

/**
 * Make a field that holds nothing.
 *
 * @param width - Columns of the page.
 * @param height - Rows of the page.
 * @returns The field; it is used again for every ink.
 */
export function createField(width: number, height: number): InkField {
  return { width, height, distance: new Float32Array(width * height).fill(Infinity) };
}
