/** A page in memory. */
export interface PageBytes {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** RGBRGB… in sRGB. */
  readonly bytes: Uint8Array;
}

/** A line in dots, from the left top corner of the page. */
export interface DotLine {
  /** Where it begins. */
  readonly from: { readonly x: number; readonly y: number };
  /** Where it ends; the same for a dot. */
  readonly to: { readonly x: number; readonly y: number };
  /** Half of its width, above 0. */
  readonly half: number;
}

/**
 * Draw a black line with round ends, its edges smoothed over a dot.
 *
 * @param page - Changed in place; what falls outside is left out.
 * @param line - Where.
 */
export function drawLine(page: PageBytes, line: DotLine): void {
  const { width, height, bytes } = page;
  const { from, to, half } = line;
  const reach = half + 1;
  const left = Math.max(0, Math.floor(Math.min(from.x, to.x) - reach));
  const right = Math.min(width - 1, Math.ceil(Math.max(from.x, to.x) + reach));
  const top = Math.max(0, Math.floor(Math.min(from.y, to.y) - reach));
  const bottom = Math.min(height - 1, Math.ceil(Math.max(from.y, to.y) + reach));
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const squared = dx * dx + dy * dy;
  for (let y = top; y <= bottom; y++) {
    for (let x = left; x <= right; x++) {
      const [px, py] = [x + 0.5 - from.x, y + 0.5 - from.y];
      const along = squared === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / squared));
      const away = Math.hypot(px - along * dx, py - along * dy);
      const ink = Math.min(1, Math.max(0, half + 0.5 - away));
      if (ink === 0) continue;
      const at = 3 * (y * width + x);
      for (let i = at; i < at + 3; i++) bytes[i] = Math.round(bytes[i]! * (1 - ink));
    }
  }
}
