import { SVGPathData } from 'svg-pathdata';
import { attributeOf } from '../attributes-of.js';
import type { DrawingAttribute, DrawingElement } from '../drawing.js';
import { type Box, boxAround } from './box.js';
import type { Spot } from '../../numeric/matrix.js';
import { parseLength } from './parse-length.js';

/** Bounds of an element: null for nothing, `unknown` where they could be anything. */
export type Bounds = Box | null | 'unknown';

// Nobody draws by hand what is longer, and it is only looked at to cut a picture smaller.
const mostPathLength = 2_000_000;

/** What shares are shares of, in user units. */
interface Viewport {
  /** Of what lies across. */
  readonly width: number;
  /** Of what lies down. */
  readonly height: number;
}

type Read = (name: string) => number | 'unknown';
type Measure = (attributes: readonly DrawingAttribute[], viewport: Viewport | null) => Bounds;

const shapes: ReadonlyMap<string, Measure> = new Map([
  ['rect', rectBox],
  ['circle', (...told) => roundBox(...told, ['r', 'r'])],
  ['ellipse', (...told) => roundBox(...told, ['rx', 'ry'])],
  ['polygon', pointsBox],
  ['polyline', pointsBox],
  ['path', pathBox],
  // They cover no area.
  ...['line', 'image', 'title', 'desc', 'metadata'].map((name) => [name, () => null] as const),
]);

function reader(attributes: readonly DrawingAttribute[], viewport: Viewport | null): Read {
  return (name) => {
    const text = attributeOf(attributes, name)?.value;
    if (text === undefined) return 0;
    const length = parseLength(text);
    if (length === null) return 'unknown';
    if (length.kind !== '%') return length.value;
    return viewport === null ? 'unknown' : length.value * wholeOf(name, viewport);
  };
}

// SVG 2, 8.9: a share of what lies neither across nor down is one of the diagonal.
function wholeOf(name: string, { width, height }: Viewport): number {
  if (['x', 'width', 'cx', 'rx'].includes(name)) return width;
  return name === 'r' ? Math.sqrt((width * width + height * height) / 2) : height;
}

function rectBox(attributes: readonly DrawingAttribute[], viewport: Viewport | null): Bounds {
  const read = reader(attributes, viewport);
  const [x, y, width, height] = [read('x'), read('y'), read('width'), read('height')];
  if (x === 'unknown' || y === 'unknown') return 'unknown';
  if (width === 'unknown' || height === 'unknown') return 'unknown';
  return width > 0 && height > 0 ? finite({ x0: x, y0: y, x1: x + width, y1: y + height }) : null;
}

function roundBox(
  attributes: readonly DrawingAttribute[],
  viewport: Viewport | null,
  [h, v]: readonly [string, string],
): Bounds {
  const read = reader(attributes, viewport);
  const [x, y, rx, ry] = [read('cx'), read('cy'), read(h), read(v)];
  if (x === 'unknown' || y === 'unknown' || rx === 'unknown' || ry === 'unknown') return 'unknown';
  // One radius alone counts for both in SVG 2, for none before.
  const [across, down] = [rx > 0 ? rx : ry, ry > 0 ? ry : rx];
  if (!(across > 0 && down > 0)) return null;
  return finite({ x0: x - across, y0: y - down, x1: x + across, y1: y + down });
}

function pointsBox(attributes: readonly DrawingAttribute[]): Bounds {
  const text = attributeOf(attributes, 'points')?.value ?? '';
  const numbers = text.match(/[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?/gi) ?? [];
  if (text.replace(/[\d.eE+\-,\s]/g, '') !== '' || numbers.length % 2 === 1) return 'unknown';
  const spots: Spot[] = [];
  for (let i = 0; i + 1 < numbers.length; i += 2) {
    spots.push({ x: Number(numbers[i]), y: Number(numbers[i + 1]) });
  }
  return spots.length === 0 ? null : finite(boxAround(spots));
}

function pathBox(attributes: readonly DrawingAttribute[]): Bounds {
  const data = attributeOf(attributes, 'd')?.value ?? '';
  if (data.trim() === '') return null;
  if (data.length > mostPathLength) return 'unknown';
  try {
    const { minX, minY, maxX, maxY } = new SVGPathData(data).getBounds();
    // It moves, and draws nothing.
    if (minX === Infinity && maxX === -Infinity) return null;
    return finite({ x0: minX, y0: minY, x1: maxX, y1: maxY });
  } catch {
    // Drawing programs show it up to where it breaks off.
    return 'unknown';
  }
}

function finite(box: Box): Bounds {
  return Object.values(box).every(Number.isFinite) ? box : 'unknown';
}

/**
 * The bounds of a shape in its own coordinates, its line left out.
 *
 * @param element - Of a drawing.
 * @param attributes - Its attributes.
 * @param viewport - What shares are shares of, or null where that is not known.
 * @returns Them; `unknown` for text, for shares of what is not known, and for what breaks its grammar.
 */
export function shapeBox(
  element: DrawingElement,
  attributes: readonly DrawingAttribute[],
  viewport: Viewport | null = null,
): Bounds {
  const measure = shapes.get(element.name);
  return measure === undefined ? 'unknown' : measure(attributes, viewport);
}
