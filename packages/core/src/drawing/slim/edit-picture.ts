import { attributeOf } from '../attributes-of.js';
import type { Drawing, DrawingElement } from '../drawing.js';
import type { Edit } from '../edit-text.js';
import type { Box } from '../geometry/box.js';
import type { Matrix } from '../../numeric/matrix.js';
import { escapeText, linkNameAt, removal, showMatrix, showNumber, tagNameEnd } from '../markup.js';
import type { PlacedPicture } from '../places/placed-picture.js';

/** A link that is written: an address, or a picture itself, whose base64 is long and never copied. */
export interface NewLink {
  /** The address, or what stands before the base64. */
  readonly head: string;
  /** Empty where it is an address. */
  readonly base64: string;
}

/** What is to change of an `image` that stays one. */
export interface PictureChange {
  /** Its new link, or null where it stays. */
  readonly href: NewLink | null;
  /** Where its new pixels lie, in user units, or null where nothing changes. */
  readonly rect: Box | null;
  /** Id of what it is clipped to, or null. */
  readonly clip: string | null;
}

/** A picture that is stored once, for several places. */
export interface StoredPicture {
  /** Its id. */
  readonly id: string;
  /** Its link: the picture itself. */
  readonly href: NewLink;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** What it is clipped to, in its own pixels, or null. */
  readonly frame: Box | null;
}

/** A rectangle that an `image` is clipped to. */
export interface ClipFrame {
  /** Of its `clipPath`. */
  readonly id: string;
  /** In the user units that the `image` stands in. */
  readonly box: Box;
}

const geometry = ['x', 'y', 'width', 'height', 'preserveAspectRatio'];

// Replaced where it stands; else added behind the last.
function setting(picture: PlacedPicture, name: string, value: string): Edit {
  const { attributes, element } = picture;
  const there = attributeOf(attributes, name);
  if (there !== undefined) return { start: there.valueStart, end: there.valueEnd, text: value };
  const at = attributes.at(-1)?.end ?? tagNameEnd(element);
  return { start: at, end: at, text: ` ${name}="${value}"` };
}

/**
 * Change an `image` where it stands.
 *
 * @param drawing - Which it is of.
 * @param picture - As placed.
 * @param change - What is to change.
 * @returns The edits.
 */
export function editPicture(
  drawing: Drawing,
  picture: PlacedPicture,
  change: PictureChange,
): Edit[] {
  const { href, again } = picture;
  const { rect, clip } = change;
  const edits: Edit[] = [];
  if (change.href !== null) {
    const { valueStart, valueEnd } = href;
    const { head, base64 } = change.href;
    edits.push({ start: valueStart, end: valueEnd, text: escapeText(head) });
    if (base64 !== '') edits.push({ start: valueEnd, end: valueEnd, text: base64 });
  }
  if (again !== null) edits.push(removal(drawing, again));
  if (rect !== null) {
    const { x0, y0, x1, y1 } = rect;
    const values = [x0, y0, x1 - x0, y1 - y0].map(showNumber);
    geometry.forEach((name, i) => {
      edits.push(setting(picture, name, values[i] ?? 'none'));
    });
  }
  if (clip !== null) edits.push(setting(picture, 'clip-path', `url(#${clip})`));
  return edits;
}

/**
 * Let a place use a picture that is stored elsewhere: the `image` becomes a `use`, with all else that
 * is set on it. What is clipped, masked or filtered in its own coordinates becomes a group around it.
 *
 * @param drawing - Which it is of.
 * @param picture - As placed.
 * @param stored - Id of what it uses.
 * @param matrix - From the pixels stored to the user units of the place.
 * @returns The edits.
 */
export function editToUse(
  drawing: Drawing,
  picture: PlacedPicture,
  stored: string,
  matrix: Matrix,
): Edit[] {
  const { element, attributes, href, again, isCovered } = picture;
  const gone = attributes.filter(
    (one) =>
      one === href || one === again || (one.namespace === null && geometry.includes(one.name)),
  );
  const edits = gone.map((one) => removal(drawing, one));
  const place = showMatrix(matrix);
  const prefix = element.prefix === '' ? '' : `${element.prefix}:`;
  edits.push(...renaming(element, isCovered ? 'g' : 'use'));
  const link = `${href.qualified}="#${stored}"`;
  if (!isCovered) {
    const transform = attributeOf(attributes, 'transform');
    const at = attributes.at(-1)?.end ?? tagNameEnd(element);
    if (transform === undefined) {
      edits.push({ start: at, end: at, text: ` transform="${place}" ${link}` });
    } else {
      const { valueEnd } = transform;
      edits.push({ start: valueEnd, end: valueEnd, text: ` ${place}` });
      edits.push({ start: at, end: at, text: ` ${link}` });
    }
    return edits;
  }
  const use = `<${prefix}use transform="${place}" ${link}/>`;
  if (!element.selfClosing) {
    edits.push({ start: element.contentEnd, end: element.contentEnd, text: use });
    return edits;
  }
  const close = drawing.text.lastIndexOf('/', element.end);
  edits.push({ start: close, end: element.end, text: `>${use}</${prefix}g>` });
  return edits;
}

function renaming(element: DrawingElement, name: string): Edit[] {
  const end = tagNameEnd(element);
  const edits = [{ start: end - element.name.length, end, text: name }];
  if (element.selfClosing) return edits;
  const colon = element.prefix === '' ? 0 : element.prefix.length + 1;
  const start = element.contentEnd + 2 + colon;
  return [...edits, { start, end: start + element.name.length, text: name }];
}

/**
 * Store pictures and frames at the head of a drawing, where its elements find them.
 *
 * @param drawing - Which they are for.
 * @param pictures - Those used at several places.
 * @param frames - What other elements are clipped to.
 * @returns The edits: none where there is nothing to store.
 */
export function storePictures(
  drawing: Drawing,
  pictures: readonly StoredPicture[],
  frames: readonly ClipFrame[],
): Edit[] {
  if (pictures.length + frames.length === 0) return [];
  const { root } = drawing;
  const prefix = root.prefix === '' ? '' : `${root.prefix}:`;
  const clips = [
    ...frames,
    ...pictures.flatMap(({ id, frame }) =>
      frame === null ? [] : [{ id: `${id}-frame`, box: frame }],
    ),
  ];
  const boxes = clips.map(({ id, box: { x0, y0, x1, y1 } }) => {
    const [x, y, width, height] = [x0, y0, x1 - x0, y1 - y0].map(showNumber);
    const rect = `<${prefix}rect x="${x}" y="${y}" width="${width}" height="${height}"/>`;
    return `<${prefix}clipPath id="${id}">${rect}</${prefix}clipPath>`;
  });
  const images = pictures.flatMap(({ id, href, width, height, frame }) => {
    const clip = frame === null ? '' : ` clip-path="url(#${id}-frame)"`;
    const size = `width="${width}" height="${height}" preserveAspectRatio="none"`;
    const link = `${linkNameAt(drawing.root.scope)}="${href.head}`;
    return [`<${prefix}image id="${id}" ${size}${clip} ${link}`, href.base64, '"/>'];
  });
  const pieces = [`<${prefix}defs>`, ...boxes, ...images, `</${prefix}defs>`];
  const at = root.contentStart;
  return pieces.map((text) => ({ start: at, end: at, text }));
}
