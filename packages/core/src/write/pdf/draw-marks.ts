import type { DrawnArea, DrawnLine, DrawnMark, DrawnShape, Ink } from '../../page/drawn.js';
import { paleGrey } from '../../page/page.js';
import type { PageDrawing } from '../page/page-picture.js';
import type { Document } from './open-document.js';

/** How a drawing is drawn. */
export interface DrawMarksOptions {
  /** Flat and pale, to be cut along, without what is printed on it. */
  readonly blank: boolean;
  /** An image of the document, of a PNG or JPEG. */
  readonly imageOf: (bytes: Uint8Array) => PDFKit.Mixins.ImageSrc;
}

const pale: Ink = {
  colour: `#${paleGrey.toString(16).repeat(3)}`,
  opacity: 1,
};

/**
 * Draw a part that is a drawing: its shapes as shapes, its pictures stored once each.
 *
 * @param document - Drawn on; its units are mm of the part.
 * @param drawing - What to draw.
 * @param options - How.
 * @see ISO 32000-1:2008, 8.5: path construction, painting and clipping
 */
export function drawMarks(
  document: Document,
  drawing: PageDrawing,
  options: DrawMarksOptions,
): void {
  for (const mark of drawing.marks) {
    document.save();
    for (const clip of mark.clips) clipTo(document, clip);
    document.transform(...mark.matrix);
    if (mark.kind === 'shape') drawShape(document, mark, options);
    else drawPicture(document, drawing.pictures[mark.picture]!, options);
    document.restore();
  }
}

// A clip stays when its transform is taken back, which restoring would not let it.
function clipTo(document: Document, { steps, matrix, rule }: DrawnArea): void {
  trace(document, steps, matrix);
  document.clip(rule === 'evenodd' ? 'even-odd' : 'non-zero');
}

function trace(
  document: Document,
  steps: DrawnArea['steps'],
  [a, b, c, d, e, f]: DrawnMark['matrix'] = [1, 0, 0, 1, 0, 0],
): void {
  const x = (i: number, j: number): number => a * i + c * j + e;
  const y = (i: number, j: number): number => b * i + d * j + f;
  for (const step of steps) {
    switch (step[0]) {
      case 'M':
        document.moveTo(x(step[1], step[2]), y(step[1], step[2]));
        break;
      case 'L':
        document.lineTo(x(step[1], step[2]), y(step[1], step[2]));
        break;
      case 'C': {
        const [, p, q, r, s, t, u] = step;
        document.bezierCurveTo(x(p, q), y(p, q), x(r, s), y(r, s), x(t, u), y(t, u));
        break;
      }
      case 'Z':
        document.closePath();
    }
  }
}

function drawShape(
  document: Document,
  { steps, rule, fill, line, lineFirst }: DrawnShape,
  { blank }: DrawMarksOptions,
): void {
  const fillIt = (): void => {
    if (fill === null) return;
    const { colour, opacity } = blank ? pale : fill;
    const areas = bounding(steps);
    if (areas.length === 0) return;
    trace(document, areas);
    document.fillOpacity(opacity).fill(colour, rule === 'evenodd' ? 'even-odd' : 'non-zero');
  };
  if (!lineFirst) fillIt();
  if (line !== null) {
    setLine(document, line);
    const { colour, opacity } = blank ? pale : line;
    trace(document, steps);
    document.strokeOpacity(opacity).stroke(colour);
  }
  if (lineFirst) fillIt();
}

// ISO 32000-1, 8.5.3.3.1: what bounds no area is filled with a hairline all the same, which SVG does not.
function bounding(steps: DrawnArea['steps']): DrawnArea['steps'] {
  const runs: DrawnArea['steps'][number][][] = [];
  for (const step of steps) {
    if (step[0] === 'M' || runs.length === 0) runs.push([]);
    runs.at(-1)?.push(step);
  }
  return runs.filter((run) => !isFlat(run)).flat();
}

// By its points and those that its curves bend to, against the line to the farthest: one close by tells no direction.
function isFlat(steps: DrawnArea['steps']): boolean {
  const [x0 = 0, y0 = 0, ...spots] = steps.flatMap(([, ...numbers]) => numbers as number[]);
  let [dx, dy] = [0, 0];
  for (let i = 0; i + 1 < spots.length; i += 2) {
    const [x, y] = [spots[i]! - x0, spots[i + 1]! - y0];
    if (x * x + y * y > dx * dx + dy * dy) [dx, dy] = [x, y];
  }
  const most = 1e-12 * (dx * dx + dy * dy);
  for (let i = 0; i + 1 < spots.length; i += 2) {
    if (Math.abs(dx * (spots[i + 1]! - y0) - dy * (spots[i]! - x0)) > most) return false;
  }
  return true;
}

function setLine(document: Document, line: DrawnLine): void {
  const { width, cap, join, miterLimit, dashes, dashOffset } = line;
  document.lineWidth(width).lineCap(cap).lineJoin(join).miterLimit(miterLimit);
  // An odd number of them is taken twice over: SVG 2, 13.5.6.
  const all = (dashes.length % 2 === 1 ? [...dashes, ...dashes] : dashes).map(plainNumber);
  // ISO 32000-1, 8.4.3.6: not all of them may be noughts.
  if (!all.some((text) => Number(text) > 0)) return;
  document.addContent(`[${all.join(' ')}] ${plainNumber(dashOffset)} d`);
}

// ISO 32000-1, 7.3.3: a number has no exponent.
function plainNumber(value: number): string {
  const most = 1e9;
  return Math.min(most, Math.max(-most, value))
    .toFixed(6)
    .replace(/\.?0+$/, '');
}

function drawPicture(
  document: Document,
  { bytes, shape, pixels: { width, height } }: PageDrawing['pictures'][number],
  { blank, imageOf }: DrawMarksOptions,
): void {
  const shown = blank ? shape : bytes;
  if (shown === null) document.rect(0, 0, width, height).fill(pale.colour);
  else document.image(imageOf(shown), 0, 0, { width, height });
}
