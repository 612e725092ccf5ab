import type { Drawing, DrawingElement } from '../drawing.js';
import type { Outcome } from '../../errors/outcome.js';
import { findShapes, type DrawnShape } from './find-shapes.js';
import { followShape } from './follow-shape.js';

/** A shape of a drawing, at its size on paper. */
export interface DrawnOutline {
  /** Its id, or null. */
  readonly id: string | null;
  /** Closed lines of points x, y, x, y… in mm from the page's top left corner, right and down. */
  readonly loops: readonly Float64Array[];
  /** What of it is inside. */
  readonly rule: 'nonzero' | 'evenodd';
}

/** What a caller may ask of {@link takeOutline}. */
export interface TakeOutlineOptions {
  /** Of the shape, or of what holds it alone; the only shape there is unless told. */
  readonly id?: string | undefined;
  /** How far a straight piece may be from a curve, mm. */
  readonly tolerance: number;
}

const mostNamed = 12;

/**
 * Take the outline of a piece of card from a drawing: its one shape, or one of a name, with whatever
 * holes its fill-rule makes. Lines that are drawn along it are left out of account.
 *
 * @param drawing - Read.
 * @param options - Which, and how true.
 * @returns It, or why there is none: words that follow the drawing's name.
 * @throws BadDrawing where a shape makes no sense.
 */
export function takeOutline(
  drawing: Drawing,
  options: TakeOutlineOptions,
): Outcome<DrawnOutline, 'no-outline' | 'no-print-size'> {
  const { id, tolerance } = options;
  const { shapes, page } = findShapes(drawing);
  if (!page.isTrue) return sizeless();
  const meant = id === undefined ? shapes : shapes.filter(({ ids }) => ids.includes(id));
  if (id !== undefined && meant.length === 0) return unknown(drawing, id, shapes);
  const found = meant
    .map((shape) => ({ shape, loops: follow(shape, tolerance) }))
    .filter(({ loops }) => loops.length > 0);
  const [only] = found;
  if (only === undefined) return empty(id);
  if (found.length > 1)
    return several(
      found.map(({ shape }) => shape),
      id,
    );
  const { doubt, element, rule } = only.shape;
  if (doubt !== null) {
    return refuse(`holds ${doubt}, so that its outline cannot be told`, saveAgain);
  }
  return { ok: true, value: { id: element.id, loops: only.loops, rule }, warnings: [] };
}

const saveAgain = 'draw the part as one plain path, and save it as plain SVG';

function follow(shape: DrawnShape, tolerance: number): readonly Float64Array[] {
  return followShape({ ...shape, name: shape.element.name }, tolerance);
}

/** Why nothing is taken. */
export type Refusal = Outcome<never, 'no-outline' | 'no-print-size'>;

function refuse(message: string, hint: string): Refusal {
  return { ok: false, code: 'no-outline', message, hint };
}

/**
 * Word that a drawing does not say how large it is.
 *
 * @returns Why nothing can be taken from it.
 */
export function sizeless(): Refusal {
  return {
    ok: false,
    code: 'no-print-size',
    message: 'does not say how large it is on paper: its width and height need units such as mm',
    hint: 'set the document\'s units to mm in the drawing program: <svg width="120mm" height="80mm" viewBox="0 0 120 80">',
  };
}

function empty(id: string | undefined): Refusal {
  const what = id === undefined ? 'holds no shape' : `holds nothing in #${id}`;
  return refuse(
    `${what} that bounds an area`,
    'draw the part as a closed path, a rectangle, an ellipse or a polygon that is not hidden',
  );
}

function several(shapes: readonly DrawnShape[], id: string | undefined): Refusal {
  const inside = id === undefined ? '' : ` in #${id}`;
  const own = ownNames(shapes);
  const named = [...new Set(own.flatMap((name) => (name === null ? [] : [`#${name}`])))];
  const nameless = own.filter((name) => name === null).length;
  const list = [
    ...named.slice(0, mostNamed),
    ...(named.length > mostNamed ? [`${named.length - mostNamed} more`] : []),
    ...(nameless > 0 ? [`${nameless} without an id that is theirs alone`] : []),
  ];
  const [first] = named;
  return refuse(
    `holds ${shapes.length} shapes${inside} and a part is one: ${list.join(', ')}`,
    `${chooseWords(shapes, first)}: --outline FILE.svg${first ?? '#part'}; windows are holes where they are of one path with the wall`,
  );
}

/**
 * Name shapes.
 *
 * @param shapes - Some of a drawing.
 * @returns For each the innermost id that means no other of them, or null.
 */
export function ownNames(shapes: readonly DrawnShape[]): readonly (string | null)[] {
  const counts = new Map<string, number>();
  for (const id of shapes.flatMap(({ ids }) => [...new Set(ids)])) {
    counts.set(id, (counts.get(id) ?? 0) + 1);
  }
  return shapes.map(({ ids }) => ids.find((id) => counts.get(id) === 1) ?? null);
}

function chooseWords(shapes: readonly DrawnShape[], first: string | undefined): string {
  if (first !== undefined) return 'name the one that is the part';
  const elements = new Set(shapes.map(({ element }) => element));
  if (elements.size < shapes.length) {
    return 'one shape shows several times: give the <use> that is the part an id of its own and name it';
  }
  return 'give the part an id that nothing else has and name it';
}

function namesOf(elements: readonly DrawingElement[]): readonly string[] {
  const ids = new Set(elements.flatMap(({ id }) => (id === null ? [] : [`#${id}`])));
  return [...ids];
}

function unknown(drawing: Drawing, id: string, shapes: readonly DrawnShape[]): Refusal {
  const named = namesOf(shapes.map(({ element }) => element));
  if (drawing.byId.has(id)) {
    return refuse(`shows no shape in #${id}`, listHint(named));
  }
  return refuse(`holds nothing with the id ${id}`, listHint(named));
}

function listHint(named: readonly string[]): string {
  if (named.length === 0) return 'give the part an id in the drawing program';
  const more = named.length > mostNamed ? ` and ${named.length - mostNamed} more` : '';
  return `shapes that it shows: ${named.slice(0, mostNamed).join(', ')}${more}`;
}
