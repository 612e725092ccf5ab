import type { Measurement } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import type { Canvas } from './canvas.js';
import { levelToPage, photoToLevel, type WallFrame } from './wall-frame.js';

/** A scale bar as it lies on the page. */
export interface ScaleBar {
  /** Its real length. */
  readonly mm: number;
  /** Its left end on the page. */
  readonly from: Point;
  /** Its right end. */
  readonly to: Point;
  /** Both, and the borders of its parts between them. */
  readonly marks: readonly Point[];
}

/** As much of the photo's width as a bar may take. */
const mostWide = 0.4;
/** Between the bar and the photo's edges, in units. */
const inset = 34;
/** Half of the bar's height, in units. */
export const barHalf = 4.5;

/**
 * Place a scale bar: as long as a round number allows, on the wall, along the rows of the
 * level picture, as near the photo's foot as it fits.
 *
 * @param canvas - The page.
 * @param frame - How the wall lies on it.
 * @param measurement - Of the photo.
 * @returns Where the bar lies, or null where no bar fits.
 */
export function placeScale(
  canvas: Canvas,
  frame: WallFrame,
  measurement: Measurement,
): ScaleBar | null {
  const { photo, unit } = canvas;
  const { width, height } = frame.size;
  const pixel = 1 / frame.scale.x;
  const edge = Math.min(inset * unit, 0.12 * photo.width) * pixel;
  const { x: mmPerPx } = measurement.mmPerPx;
  for (let up = edge; up < height; up += 0.04 * height) {
    const from = photoToLevel(frame, { x: edge, y: height - up });
    const to = photoToLevel(frame, { x: edge + mostWide * width, y: height - up });
    const room = Math.hypot(to.x - from.x, to.y - from.y) * mmPerPx;
    const bar = layBar(frame, from, { mm: roundDown(room), mmPerPx });
    if (bar.marks.every((mark) => inside(mark, canvas))) return bar;
  }
  return null;
}

// 1, 2 or 5 and noughts.
function roundDown(mm: number): number {
  const ten = 10 ** Math.floor(Math.log10(mm));
  return ten * ([5, 2, 1].find((times) => times * ten <= mm) ?? 1);
}

function layBar(
  frame: WallFrame,
  from: Point,
  { mm, mmPerPx }: { readonly mm: number; readonly mmPerPx: number },
): ScaleBar {
  const parts = String(mm).includes('2') ? 4 : 5;
  const at = (share: number): Point =>
    levelToPage(frame, { x: from.x + (mm * share) / mmPerPx, y: from.y });
  const marks = Array.from({ length: parts + 1 }, (_, i) => at(i / parts));
  return { mm, from: at(0), to: at(1), marks };
}

function inside({ x, y }: Point, { photo, unit }: Canvas): boolean {
  const away = (barHalf + 6) * unit;
  return (
    x >= photo.x + away &&
    x <= photo.x + photo.width - away &&
    y >= photo.y + away + 18 * unit &&
    y <= photo.y + photo.height - away
  );
}
