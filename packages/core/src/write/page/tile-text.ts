import type { DrawnArea, DrawnLine, DrawnShape, Ink } from '../../page/drawn.js';
import { paleGrey } from '../../page/page.js';
import { compose, type Matrix } from '../../numeric/matrix.js';
import type { Size } from '../../units/parse-size.js';

/** A picture in a tile, ready to be laid. */
export interface TilePicture {
  /** A PNG; null for a flat pale one. */
  readonly png: Buffer | null;
  /** Its columns and rows. */
  readonly pixels: Size<number>;
  /** From its pixels to dots of the tile. */
  readonly matrix: Matrix;
  /** It shows inside all of these, in mm of the part. */
  readonly clips: readonly DrawnArea[];
}

/** What a tile shows. */
export type TileMark = DrawnShape | TilePicture;

/** How a tile lies. */
export interface TileOptions {
  /** Its columns and rows. */
  readonly size: Size<number>;
  /** From mm of the part to its dots. */
  readonly matrix: Matrix;
  /** Whether everything is flat and pale, to be cut along. */
  readonly blank: boolean;
}

/** Flat and pale, as a layer of card shows that carries no print. */
const pale: Ink = { colour: `#${paleGrey.toString(16).repeat(3)}`, opacity: 1 };

const head =
  '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="';

/**
 * Spell out what a tile shows, for a renderer that is given nothing but this: paths, flat colours, and
 * PNGs that we made, one pixel to a dot. Nothing of the drawing's own text is in it.
 *
 * @param marks - In the order in which they are painted.
 * @param options - How the tile lies.
 * @returns The text of an SVG on white, in ASCII.
 */
export function tileText(marks: readonly TileMark[], options: TileOptions): Buffer {
  const { size, matrix } = options;
  const { width, height } = size;
  const pieces = [
    `${head}${width}" height="${height}"><rect width="${width}" height="${height}" fill="#fff"/>`,
  ];
  let clips = 0;
  for (const mark of marks) {
    for (const [i, clip] of mark.clips.entries()) {
      const inner = i === 0 ? '' : ` clip-path="url(#c${clips})"`;
      pieces.push(`<clipPath id="c${++clips}"${inner}>${clipText(clip, matrix)}</clipPath>`);
    }
    const shown = 'kind' in mark ? shapeText(mark, options) : pictureText(mark);
    pieces.push(mark.clips.length === 0 ? shown : `<g clip-path="url(#c${clips})">${shown}</g>`);
  }
  pieces.push('</svg>');
  return Buffer.concat(pieces.map((piece) => Buffer.from(piece, 'latin1')));
}

function clipText({ steps, matrix, rule }: DrawnArea, outer: Matrix): string {
  return `<path ${moved(compose(outer, matrix))} d="${pathText(steps)}" clip-rule="${rule}"/>`;
}

function shapeText(shape: DrawnShape, { matrix, blank }: TileOptions): string {
  const { steps, rule, fill, line, lineFirst } = shape;
  const whole = compose(matrix, shape.matrix);
  return [
    `<path ${moved(whole)} d="${pathText(steps)}" fill-rule="${rule}"`,
    inkText('fill', fill === null ? null : blank ? pale : fill),
    inkText('stroke', line === null ? null : blank ? pale : line),
    ...(line === null ? [] : [lineText(line, whole)]),
    ...(lineFirst ? ['paint-order="stroke"'] : []),
  ]
    .join(' ')
    .concat('/>');
}

function inkText(name: 'fill' | 'stroke', ink: Ink | null): string {
  return ink === null
    ? `${name}="none"`
    : `${name}="${ink.colour}" ${name}-opacity="${ink.opacity}"`;
}

/**
 * Widen a line that is thinner than a dot, or it would print grey.
 *
 * @param line - In its path's units.
 * @param matrix - From those to dots.
 * @returns The line, a dot wide at least.
 */
export function printable(line: DrawnLine, matrix: Matrix): DrawnLine {
  const [a, b, c, d] = matrix;
  return { ...line, width: Math.max(line.width, 1 / Math.sqrt(Math.abs(a * d - b * c))) };
}

function lineText(line: DrawnLine, matrix: Matrix): string {
  const { width, cap, join, miterLimit, dashes, dashOffset } = printable(line, matrix);
  const dashed =
    dashes.length === 0
      ? ''
      : ` stroke-dasharray="${dashes.join(' ')}" stroke-dashoffset="${dashOffset}"`;
  return `stroke-width="${width}" stroke-linecap="${cap}" stroke-linejoin="${join}" stroke-miterlimit="${miterLimit}"${dashed}`;
}

function pictureText({ png, pixels: { width, height }, matrix }: TilePicture): string {
  const box = `${moved(matrix)} width="${width}" height="${height}"`;
  if (png === null) return `<rect ${box} fill="${pale.colour}"/>`;
  return `<image ${box} preserveAspectRatio="none" xlink:href="data:image/png;base64,${png.toString('base64')}"/>`;
}

function moved(matrix: Matrix): string {
  return `transform="matrix(${matrix.join(' ')})"`;
}

function pathText(steps: DrawnArea['steps']): string {
  return steps.map(([name, ...numbers]) => name + numbers.join(' ')).join('');
}
