import { type PathCommand, SVGPathData } from 'svg-pathdata';
import { BadDrawing } from '../bad-drawing.js';
import type { Spot } from '../../numeric/matrix.js';
import type { Pen } from './pen.js';

const { ARC, CLOSE_PATH, CURVE_TO, LINE_TO, MOVE_TO, QUAD_TO } = SVGPathData;
const degree = Math.PI / 180;
const mostLength = 2_000_000;

/**
 * Follow a path's data.
 *
 * @param data - As it stands in `d`.
 * @param maker - Takes what it says.
 * @throws BadDrawing where the data breaks its grammar.
 * @see Scalable Vector Graphics (SVG) 2, 9.3 and 9.5: path data and its errors
 */
export function followPath(data: string, maker: Pen): void {
  if (data.trim() === '') return;
  if (data.length > mostLength) throw new BadDrawing('holds a path too long to follow');
  let at: Spot = { x: 0, y: 0 };
  let start = at;
  let isClosed = false;
  for (const command of parse(data)) {
    const end = { x: command.x ?? NaN, y: command.y ?? NaN };
    if (command.type === CLOSE_PATH) {
      maker.close();
      [at, isClosed] = [start, true];
      continue;
    }
    if (command.type === MOVE_TO) {
      maker.moveTo(end);
      start = end;
    } else {
      // A line that goes on after it closed begins where it began before.
      if (isClosed) maker.moveTo(start);
      follow(command, at, end, maker);
    }
    [at, isClosed] = [end, false];
  }
  maker.end();
}

function parse(data: string): readonly PathCommand[] {
  try {
    // Order matters: a curve that continues another is known by what stands before it.
    return new SVGPathData(data).toAbs().normalizeHVZ(false).normalizeST().annotateArcs().commands;
  } catch (cause) {
    const said = cause instanceof Error ? cause.message : String(cause);
    const words = said.slice(0, 120).replace(/\.$/, '');
    throw new BadDrawing(`holds a path that makes no sense: ${words}`, { cause });
  }
}

function follow(command: PathCommand, at: Spot, end: Spot, maker: Pen): void {
  const { x1 = NaN, y1 = NaN, x2 = NaN, y2 = NaN } = command;
  if (command.type === LINE_TO) maker.lineTo(end);
  if (command.type === QUAD_TO) maker.curveTo([at, { x: x1, y: y1 }, end]);
  if (command.type === CURVE_TO) maker.curveTo([at, { x: x1, y: y1 }, { x: x2, y: y2 }, end]);
  // One that ends where it begins is left out, says SVG 2, 9.5.1.
  if (command.type === ARC && (at.x !== end.x || at.y !== end.y)) followArc(command, maker, end);
}

function followArc(command: PathCommand, maker: Pen, end: Spot): void {
  const { rX = NaN, rY = NaN, xRot = 0, cX = NaN, cY = NaN, phi1 = NaN, phi2 = NaN } = command;
  const [cos, sin] = [Math.cos(xRot * degree), Math.sin(xRot * degree)];
  maker.arcTo({
    centre: { x: cX, y: cY },
    across: { x: rX * cos, y: rX * sin },
    down: { x: -rY * sin, y: rY * cos },
    from: phi1 * degree,
    by: (phi2 - phi1) * degree,
  });
  maker.lineTo(end);
}
