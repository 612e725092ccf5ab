import { attributeOf } from '../attributes-of.js';
import {
  type Drawing,
  type DrawingAttribute,
  type DrawingElement,
  namespaceOf,
  namespaces,
} from '../drawing.js';
import type { Edit } from '../edit-text.js';
import type { Box } from '../geometry/box.js';
import type { Matrix } from '../geometry/matrix.js';
import type { PlacedPicture } from '../places/placed-picture.js';

/** What is to change of an `image` that stays one. */
export interface PictureChange {
  /** Its new link, or null where it stays. */
  readonly href: string | null;
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
  readonly href: string;
  /** As written where it stood first: `xlink:href` or `href`. */
  readonly linkName: string;
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

// Ten digits at most, and no noughts that do not count.
function show(value: number): string {
  return String(Number(value.toPrecision(10)));
}

// Quotes round the value may be of either kind.
function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&apos;');
}

function tagNameEnd(element: DrawingElement): number {
  const colon = element.prefix === '' ? 0 : element.prefix.length + 1;
  return element.start + 1 + colon + element.name.length;
}

function removal(drawing: Drawing, attribute: DrawingAttribute): Edit {
  let { start } = attribute;
  while (/\s/.test(drawing.text[start - 1] ?? '')) start--;
  return { start, end: attribute.end, text: '' };
}

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
    edits.push({ start: href.valueStart, end: href.valueEnd, text: escaped(change.href) });
  }
  if (again !== null) edits.push(removal(drawing, again));
  if (rect !== null) {
    const { x0, y0, x1, y1 } = rect;
    const values = [x0, y0, x1 - x0, y1 - y0].map(show);
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
  const place = `matrix(${matrix.map(show).join(' ')})`;
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
  const lines = [
    ...clips.map(({ id, box: { x0, y0, x1, y1 } }) => {
      const [x, y, width, height] = [x0, y0, x1 - x0, y1 - y0].map(show);
      const rect = `<${prefix}rect x="${x}" y="${y}" width="${width}" height="${height}"/>`;
      return `<${prefix}clipPath id="${id}">${rect}</${prefix}clipPath>`;
    }),
    ...pictures.map(({ id, href, linkName, width, height, frame }) => {
      const clip = frame === null ? '' : ` clip-path="url(#${id}-frame)"`;
      const size = `width="${width}" height="${height}" preserveAspectRatio="none"`;
      return `<${prefix}image id="${id}" ${size}${clip} ${linkAt(drawing, linkName)}="${href}"/>`;
    }),
  ];
  const text = `<${prefix}defs>${lines.join('')}</${prefix}defs>`;
  return [{ start: root.contentStart, end: root.contentStart, text }];
}

// The name it had where it stood may mean nothing at the head.
function linkAt(drawing: Drawing, name: string): string {
  const colon = name.indexOf(':');
  if (colon === -1) return name;
  const prefix = name.slice(0, colon);
  if (namespaceOf(drawing.root.scope, prefix) === namespaces.xlink) return name;
  return `xmlns:${prefix}="${namespaces.xlink}" ${name}`;
}

/**
 * Find an id that is still free.
 *
 * @param drawing - Whose ids are not.
 * @param taken - Given out already; the new one is added.
 * @param stem - What it begins with.
 * @returns The stem and a number.
 */
export function freshId(drawing: Drawing, taken: Set<string>, stem: string): string {
  for (let n = 1; ; n++) {
    const id = `${stem}-${n}`;
    if (drawing.byId.has(id) || taken.has(id)) continue;
    taken.add(id);
    return id;
  }
}
