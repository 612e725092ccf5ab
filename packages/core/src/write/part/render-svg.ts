import type { PartPattern, PartPicture } from './part-picture.js';

/** A picture that an SVG shows. */
export type ShownPicture =
  /** In it. */
  | { readonly png: Uint8Array }
  /** Beside it, by the name of its file. */
  | { readonly file: string };

/**
 * Draw a part as an SVG of one picture, at exact size.
 *
 * @param part - What to draw.
 * @param picture - Its dots.
 * @yields The text, in ASCII, piece by piece.
 * @see Scalable Vector Graphics (SVG) 2, 12.3: the image element
 */
export function* renderBaked(part: PartPicture, picture: ShownPicture): Generator<string> {
  yield* head(part);
  yield* showPart(part, picture);
  yield '</svg>\n';
}

/**
 * Draw a part as an SVG of one picture, and over it the line to cut along, which has the id `cut` and prints
 * nothing.
 *
 * @param part - What to draw.
 * @param loops - The line: points x, y, x, y…, mm from the page's top left corner.
 * @param picture - The part's dots.
 * @yields The text, in ASCII, piece by piece.
 */
export function* renderCut(
  part: PartPicture,
  loops: readonly Float64Array[],
  picture: ShownPicture,
): Generator<string> {
  yield* head(part);
  yield* showPart(part, picture);
  yield `<path id="cut" fill="none" stroke="none" d="${loops.map(pathOf).join('')}"/>\n</svg>\n`;
}

/**
 * Draw a part's picture where it lies on its page.
 *
 * @param part - Where they lie, and how large they are.
 * @param picture - Its dots.
 * @yields An image element, piece by piece.
 */
export function* showPart(part: PartPicture, picture: ShownPicture): Generator<string> {
  const { rows, at, dot } = part;
  yield* image(picture, { ...at, width: rows.width * dot, height: rows.height * dot });
}

/**
 * Draw a part as an SVG of its shape, filled with a pattern of what repeats. Under it lies the same
 * shape in one colour, so that what a program leaves between two repeats does not show as white.
 *
 * @param part - What to draw.
 * @param pattern - What repeats, and the shape.
 * @param picture - The dots of one repeat.
 * @yields The text, in ASCII, piece by piece.
 * @see Scalable Vector Graphics (SVG) 2, 14.3: patterns
 */
export function* renderPattern(
  part: PartPicture,
  pattern: PartPattern,
  picture: ShownPicture,
): Generator<string> {
  const { tile, at, colour, loops, rule } = pattern;
  const size = { width: tile.width * part.dot, height: tile.height * part.dot };
  yield* head(part);
  // A program that draws a repeat on whole dots of its own must not need one more for the last digit.
  const cell = { ...at, width: size.width - hair, height: size.height - hair };
  yield `<defs><pattern id="wall" patternUnits="userSpaceOnUse" ${boxOf(cell)}>\n`;
  yield* image(picture, { x: 0, y: 0, ...size });
  yield '</pattern></defs>\n';
  const d = loops.map(pathOf).join('');
  yield `<path fill="${colour}" fill-rule="${rule}" d="${d}"/>\n`;
  yield `<path fill="url(#wall)" fill-rule="${rule}" d="${d}"/>\n</svg>\n`;
}

/**
 * Begin a drawing as large as a part.
 *
 * @param part - What it will show, with its bleed.
 * @yields What stands before its elements.
 */
export function* head(part: PartPicture): Generator<string> {
  const { page } = part;
  const [width, height] = [inMm(page.width), inMm(page.height)];
  yield '<?xml version="1.0" encoding="UTF-8"?>\n';
  yield '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"';
  yield ` width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">\n`;
}

// Over all the repeats of the largest page no thousandth of a millimetre.
const hair = 1e-6;

// Characters are written as they come of whole groups of three bytes.
const groups = 3 << 18;

function* image(picture: ShownPicture, box: Box): Generator<string> {
  yield `<image ${boxOf(box)} preserveAspectRatio="none" xlink:href="`;
  if ('file' in picture) {
    yield encodeURIComponent(picture.file);
  } else {
    yield 'data:image/png;base64,';
    const bytes = Buffer.from(picture.png.buffer, picture.png.byteOffset, picture.png.length);
    for (let at = 0; at < bytes.length; at += groups) {
      yield bytes.toString('base64', at, at + groups);
    }
  }
  yield '"/>\n';
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function boxOf({ x, y, width, height }: Box): string {
  return `x="${inMm(x)}" y="${inMm(y)}" width="${inMm(width)}" height="${inMm(height)}"`;
}

/**
 * Write a closed line down as a path's data.
 *
 * @param loop - Of points x, y, x, y….
 * @returns Its steps.
 */
export function pathOf(loop: Float64Array): string {
  const points: string[] = [];
  for (let i = 0; i < loop.length; i += 2) points.push(`${inMm(loop[i]!)} ${inMm(loop[i + 1]!)}`);
  return `M${points.join('L')}Z`;
}

/**
 * Write a length to a millionth of a millimetre, never in powers of ten.
 *
 * @param mm - Of the length.
 * @returns Its digits.
 */
export function inMm(mm: number): string {
  return mm
    .toFixed(6)
    .replace(/\.?0+$/, '')
    .replace(/^-0$/, '0');
}
