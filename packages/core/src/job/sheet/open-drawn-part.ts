import { limitsOf } from '../../read/held-limits.js';
import { createHash } from 'node:crypto';
import { dirname, join } from 'node:path';
import { isWholeBase64, parseDataUri } from '../../drawing/data-uri.js';
import { decodeDrawing } from '../../drawing/decode-drawing.js';
import { resolveLink } from '../../drawing/xml-base.js';
import { type Box, boxAround, cornersOf } from '../../drawing/geometry/box.js';
import { compose, type Matrix } from '../../numeric/matrix.js';
import {
  type LaidPicture,
  type LinkedPicture,
  type ListedMarks,
  listMarks,
  matrixOf,
} from '../../drawing/paint/list-marks.js';
import { readDrawing } from '../../drawing/read-drawing.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { DrawnMark, Ink } from '../../page/drawn.js';
import { findLinked } from '../../read/find-linked.js';
import {
  type ChangeColours,
  openPrint,
  type OpenPrintOptions,
  type PrintPicture,
  readPrint,
} from '../../read/open-print.js';
import { mmPerInch } from '../../units/units.js';
import type { PageDrawing } from '../../write/page/page-picture.js';
import { faultInDots } from '../../write/page/fault-in-dots.js';
import { splitDashes } from '../../write/page/split-dashes.js';
import { decodeBase64 } from '../open/decode-base64.js';
import { explainDrawing } from '../open/explain-drawing.js';
import type { OpenPart } from './open-part.js';
import { refuseDrawing } from '../open/refuse-drawing.js';
import { warnOfPrintSize } from './warn-of-print-size.js';

const otherWay =
  'a part is pictures, flat fills and lines, clipped by plain shapes, as gaugerod fill and dress write it: make text into paths, and what is blended into a picture, in the drawing program';

/** What a drawn part is for. */
export interface DrawnPartOptions extends OpenPrintOptions {
  /** Dots to the inch of pages that become pictures, or null for those of a PDF. */
  readonly dpi: number | null;
  /** A folder in which linked pictures may lie, beside the drawing's own. */
  readonly linkedIn?: string | undefined;
}

/**
 * Open a part that is a drawing of true size.
 *
 * @param path - Of the drawing.
 * @param bytes - The file.
 * @param options - What it is for.
 * @returns What it shows.
 * @throws TextureError when the drawing does not allow it.
 */
export async function openDrawnPart(
  path: string,
  bytes: Buffer,
  options: DrawnPartOptions,
): Promise<OpenPart> {
  const { marks, page } = look(path, bytes);
  if (marks.length === 0) throw refuse(path, 'shows no picture and no shape');
  const size = { width: page.x1 - page.x0, height: page.y1 - page.y0 };
  const shift: Matrix = [1, 0, 0, 1, -page.x0, -page.y0];
  const { pictures, linked } = await openPictures(path, marks, options);
  const only = onlyPicture(marks, pictures, page);
  if (only !== null) {
    const { picture, matrix } = only;
    const { width, height } = picture.pixels;
    const box = boxAround(
      cornersOf(compose(shift, matrix), { x0: 0, y0: 0, x1: width, y1: height }),
    );
    const shownSize = { width: box.x1 - box.x0, height: box.y1 - box.y0 };
    const dpi = {
      x: (width * mmPerInch) / shownSize.width,
      y: (height * mmPerInch) / shownSize.height,
    };
    const shown = { ...picture, size: shownSize, at: { x: box.x0, y: box.y0 } };
    const warnings = [...picture.warnings, ...warnOfPrintSize(path, dpi)];
    return { path, size, shown, linked, isPrinted: picture.isPrinted, warnings };
  }
  const opened = [...new Set(pictures.values())];
  const isPrinted = opened.some((picture) => picture.isPrinted);
  const warnings = opened.flatMap((picture) => picture.warnings);
  const inked = inkedBy(toDrawing(marks, pictures, shift), options.change);
  const shown = options.dpi === null ? inked : splitDashes(inked);
  const fault = options.dpi === null ? null : faultInDots(shown, options.dpi);
  if (fault !== null) {
    throw refuseDrawing(path, 'bad-drawing', {
      message: `shows ${fault}`,
      hint: 'lay it on pages of a PDF: -o page.pdf',
    });
  }
  return { path, size, shown, linked, isPrinted, warnings };
}

type Opened = ReadonlyMap<LinkedPicture, PrintPicture>;

function look(
  path: string,
  bytes: Buffer,
): { readonly page: Box; readonly marks: ListedMarks['marks'] } {
  const drawing = explained(path, () =>
    readDrawing(decodeDrawing(bytes).text, limitsOf('drawing')),
  );
  const { marks, page } = explained(path, () => listMarks(drawing), otherWay);
  const { box, isTrue } = page;
  if (box !== null && isTrue) return { page: box, marks };
  throw new TextureError(
    'no-print-size',
    `${showPath(path)} does not say how large it is on paper: its width and height need units such as mm`,
  );
}

// What is no drawing at all has no other way.
function explained<Value>(path: string, work: () => Value, hint?: string): Value {
  try {
    return work();
  } catch (cause) {
    const told = explainDrawing(path, cause);
    if (hint === undefined || !(told instanceof TextureError) || told.hint !== undefined)
      throw told;
    throw new TextureError(told.code, told.message, { cause, hint });
  }
}

function refuse(path: string, what: string): TextureError {
  return refuseDrawing(path, 'bad-drawing', { message: what, hint: otherWay });
}

// Each once by its bytes, however often it is laid, linked or held.
async function openPictures(
  path: string,
  marks: ListedMarks['marks'],
  options: DrawnPartOptions,
): Promise<{ readonly pictures: Opened; readonly linked: readonly string[] }> {
  const pictures = new Map<LinkedPicture, PrintPicture>();
  const known = new Map<string, PrintPicture>();
  const linked = new Set<string>();
  for (const mark of marks) {
    if (mark.kind !== 'laid' || pictures.has(mark.linked)) continue;
    const { bytes, file } = await readShown(path, mark.linked, options.linkedIn);
    if (file !== null) linked.add(file);
    const hash = createHash('sha256').update(bytes).digest('hex');
    const name = file === null ? `a picture in ${path}` : nameOf(path, mark.linked, file);
    const picture = known.get(hash) ?? (await openPrint(name, bytes, options));
    known.set(hash, picture);
    pictures.set(mark.linked, picture);
  }
  return { pictures, linked: [...linked] };
}

// As the drawing links it, from where the user stands: its real path where that is no way from there.
function nameOf(path: string, { href, base }: LinkedPicture, file: string): string {
  const link = resolveLink(href.value, base).trim();
  return file.endsWith(link) ? join(dirname(path), link) : file;
}

// Of one that fills its page, dots are laid on dots.
function onlyPicture(
  marks: ListedMarks['marks'],
  pictures: Opened,
  page: Box,
): { readonly picture: PrintPicture; readonly matrix: Matrix } | null {
  const [only] = marks;
  if (marks.length !== 1 || only?.kind !== 'laid' || only.clips.length > 0) return null;
  const matrix = laidAs(only, pictures);
  const [a, b, c, d] = matrix;
  if (b !== 0 || c !== 0 || !(a > 0) || !(d > 0)) return null;
  const picture = pictureOf(only, pictures);
  const { width, height } = picture.pixels;
  const shown = boxAround(cornersOf(matrix, { x0: 0, y0: 0, x1: width, y1: height }));
  return covers(shown, page) ? { picture, matrix } : null;
}

// A dot of 600 to the inch, which rounding a size may leave bare.
const bare = 0.043;

function covers(shown: Box, page: Box): boolean {
  const [left, top] = [shown.x0 - page.x0, shown.y0 - page.y0];
  return Math.max(left, top, page.x1 - shown.x1, page.y1 - shown.y1) <= bare;
}

function pictureOf({ linked }: LaidPicture, pictures: Opened): PrintPicture {
  const picture = pictures.get(linked);
  if (picture === undefined) throw new Error('a picture that nobody opened');
  return picture;
}

function laidAs(laid: LaidPicture, pictures: Opened): Matrix {
  return matrixOf(laid, pictureOf(laid, pictures).pixels);
}

function toDrawing(marks: ListedMarks['marks'], pictures: Opened, shift: Matrix): PageDrawing {
  const order = [...new Set(pictures.values())];
  const moved = marks.map((mark): DrawnMark => {
    const clips = mark.clips.map((clip) => ({ ...clip, matrix: compose(shift, clip.matrix) }));
    if (mark.kind === 'shape') return { ...mark, clips, matrix: compose(shift, mark.matrix) };
    const matrix = compose(shift, laidAs(mark, pictures));
    return { kind: 'picture', picture: order.indexOf(pictureOf(mark, pictures)), matrix, clips };
  });
  return { marks: moved, pictures: order };
}

function inkedBy(drawing: PageDrawing, change: ChangeColours | null): PageDrawing {
  if (change === null) return drawing;
  const inked = <Colour extends Ink>(ink: Colour): Colour => {
    const colour = Float32Array.from(
      [1, 3, 5],
      (at) => parseInt(ink.colour.slice(at, at + 2), 16) / 255,
    );
    change(colour);
    const digits = Array.from(colour, (level) =>
      Math.round(255 * level)
        .toString(16)
        .padStart(2, '0'),
    );
    return { ...ink, colour: `#${digits.join('')}` };
  };
  const marks = drawing.marks.map((mark): DrawnMark => {
    if (mark.kind === 'picture') return mark;
    return { ...mark, fill: mark.fill && inked(mark.fill), line: mark.line && inked(mark.line) };
  });
  return { ...drawing, marks };
}

async function readShown(
  path: string,
  { href, base }: LinkedPicture,
  linkedIn: string | undefined,
): Promise<{ readonly bytes: Buffer; readonly file: string | null }> {
  const uri = parseDataUri(href);
  if (uri !== null) {
    if (uri.base64 !== null && isWholeBase64(uri.base64)) {
      return { bytes: decodeBase64(uri.base64), file: null };
    }
    const fault = uri.base64 === null ? 'is not written in base64' : 'is no whole base64';
    throw refuse(path, `holds a picture that ${fault}`);
  }
  const link = resolveLink(href.value, base);
  const found = await (await findLinked(dirname(path), linkedIn)).follow(link);
  if (found.kind === 'found' && found.asLinked) {
    return { bytes: await readPrint(found.path), file: found.path };
  }
  const why = found.kind === 'missing' ? found.why : 'does not exist';
  throw new TextureError('no-file', `${showPath(path)} shows ${showPath(link)}, which ${why}`, {
    hint: 'gaugerod slim --embed --find FOLDER puts pictures of a folder into the drawing',
  });
}
