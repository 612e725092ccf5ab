import { attributeOf } from '../attributes-of.js';
import { BadDrawing } from '../bad-drawing.js';
import type { DrawingAttribute } from '../drawing.js';
import type { Matrix, Spot } from '../../numeric/matrix.js';
import { toUnits } from '../geometry/parse-length.js';
import { followPath } from './follow-path.js';
import { type FollowedLine, LoopMaker } from './loop-maker.js';
import type { Pen } from './pen.js';

/** A shape as it stands in a drawing. */
export interface ShapeToFollow {
  /** `path`, `rect` and so on. */
  readonly name: string;
  /** Its own. */
  readonly attributes: readonly DrawingAttribute[];
  /** From its units to mm of paper. */
  readonly matrix: Matrix;
  /** What shares of it are shares of, in its units. */
  readonly viewport: { readonly width: number; readonly height: number };
}

type Told = Omit<ShapeToFollow, 'matrix'>;
type Follow = (shape: Told, maker: Pen) => void;

const followers: ReadonlyMap<string, Follow> = new Map<string, Follow>([
  [
    'path',
    ({ attributes }, maker) => {
      followPath(attributeOf(attributes, 'd')?.value ?? '', maker);
    },
  ],
  ['rect', followRect],
  ['circle', followEllipse],
  ['ellipse', followEllipse],
  ['polygon', followPoints],
  ['polyline', followPoints],
]);

/** Elements that bound an area. */
export const shapeNames: readonly string[] = [...followers.keys()];

/**
 * Follow what bounds a shape, its line's own width left out.
 *
 * @param shape - As it stands.
 * @param tolerance - How far a straight piece may be from a curve, mm.
 * @returns Its loops, of points x, y, x, y… in mm; none where it has no area.
 * @throws BadDrawing where it makes no sense.
 * @see Scalable Vector Graphics (SVG) 2, 9 and 10: paths and basic shapes
 */
export function followShape(shape: ShapeToFollow, tolerance: number): readonly Float64Array[] {
  const maker = new LoopMaker(shape.matrix, tolerance);
  tellShape(shape, maker);
  return maker.loops;
}

/**
 * Follow a shape as a line.
 *
 * @param shape - As it stands.
 * @param tolerance - How far a straight piece may be from a curve, mm.
 * @returns Every line that is drawn.
 * @throws BadDrawing where it makes no sense.
 */
export function followLines(shape: ShapeToFollow, tolerance: number): readonly FollowedLine[] {
  const maker = new LoopMaker(shape.matrix, tolerance);
  tellShape(shape, maker);
  return maker.lines;
}

/**
 * Tell a pen what a shape's edge is, in the shape's own units.
 *
 * @param shape - As it stands: one of those that bound an area, or a line.
 * @param pen - Told.
 * @throws BadDrawing where it makes no sense.
 */
export function tellShape(shape: Omit<ShapeToFollow, 'matrix'>, pen: Pen): void {
  if (shape.name === 'line') followLine(shape, pen);
  else followers.get(shape.name)?.(shape, pen);
}

function read(
  { attributes, viewport }: Told,
  name: string,
  along: 'width' | 'height' | 'both',
): number {
  const { width, height } = viewport;
  const whole = along === 'both' ? Math.hypot(width, height) / Math.SQRT2 : viewport[along];
  const text = attributeOf(attributes, name)?.value;
  const value = toUnits(text, whole, 0);
  if (value !== null) return value;
  throw new BadDrawing(
    `holds a shape whose ${name} is "${(text ?? '').slice(0, 40)}", which is no size`,
  );
}

function followRect(shape: Told, maker: Pen): void {
  const [x, y] = [read(shape, 'x', 'width'), read(shape, 'y', 'height')];
  const [width, height] = [read(shape, 'width', 'width'), read(shape, 'height', 'height')];
  if (!(width > 0 && height > 0)) return;
  const { rx, ry } = radiiOf(shape, width / 2, height / 2);
  if (rx === 0 || ry === 0) {
    maker.moveTo({ x, y });
    maker.lineTo({ x: x + width, y });
    maker.lineTo({ x: x + width, y: y + height });
    maker.lineTo({ x, y: y + height });
    maker.close();
    return;
  }
  const [left, right, top, foot] = [x + rx, x + width - rx, y + ry, y + height - ry];
  const corners = [
    { x: right, y: top },
    { x: right, y: foot },
    { x: left, y: foot },
    { x: left, y: top },
  ];
  corners.forEach((centre, i) => {
    turn(maker, { centre, rx, ry }, ((i - 1) * Math.PI) / 2, Math.PI / 2);
  });
  maker.close();
}

// One radius alone counts for both; neither is more than half a side.
function radiiOf(
  shape: Told,
  mostX: number,
  mostY: number,
): { readonly rx: number; readonly ry: number } {
  const stated = (name: string): boolean => {
    const text = attributeOf(shape.attributes, name)?.value.trim();
    return text !== undefined && text !== '' && text !== 'auto';
  };
  const rx = stated('rx') ? read(shape, 'rx', 'width') : null;
  const ry = stated('ry') ? read(shape, 'ry', 'height') : null;
  const [across, down] = [rx ?? ry ?? 0, ry ?? rx ?? 0];
  return { rx: Math.min(Math.max(0, across), mostX), ry: Math.min(Math.max(0, down), mostY) };
}

function followEllipse(shape: Told, maker: Pen): void {
  const centre = { x: read(shape, 'cx', 'width'), y: read(shape, 'cy', 'height') };
  const isCircle = shape.name === 'circle';
  const r = isCircle ? read(shape, 'r', 'both') : 0;
  const { rx, ry } = isCircle ? { rx: r, ry: r } : radiiOf(shape, Infinity, Infinity);
  if (!(rx > 0 && ry > 0)) return;
  turn(maker, { centre, rx, ry }, 0, 2 * Math.PI);
  maker.close();
}

function turn(
  maker: Pen,
  { centre, rx, ry }: { readonly centre: Spot; readonly rx: number; readonly ry: number },
  from: number,
  by: number,
): void {
  maker.arcTo({ centre, across: { x: rx, y: 0 }, down: { x: 0, y: ry }, from, by });
}

function followPoints({ name, attributes }: Told, maker: Pen): void {
  const text = attributeOf(attributes, 'points')?.value ?? '';
  const numbers = text.match(/[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?/gi) ?? [];
  if (text.replace(/[\d.eE+\-,\s]/g, '') !== '' || numbers.length % 2 === 1) {
    throw new BadDrawing(`holds a ${name} whose points make no sense`);
  }
  for (let i = 0; i < numbers.length; i += 2) {
    maker.lineTo({ x: Number(numbers[i]), y: Number(numbers[i + 1]) });
  }
  if (name === 'polygon') maker.close();
  else maker.end();
}

function followLine(shape: Told, maker: Pen): void {
  maker.moveTo({ x: read(shape, 'x1', 'width'), y: read(shape, 'y1', 'height') });
  maker.lineTo({ x: read(shape, 'x2', 'width'), y: read(shape, 'y2', 'height') });
  maker.end();
}
