import { parseCssColour } from '../../colour/css-colour.js';
import { attributeOf, attributesOf } from '../attributes-of.js';
import { type Drawing, type DrawingElement, isSvg } from '../drawing.js';
import { hasArea } from '../geometry/box.js';
import { invert, type Matrix } from '../../numeric/matrix.js';
import { type Page, pageOf } from '../geometry/page.js';
import { parseLength } from '../geometry/parse-length.js';
import { type Bounds, shapeBox } from '../geometry/shape-box.js';
import type { Around, Scene, Styled } from '../places/around.js';
import { type Chain, type Visit, walkDrawing } from '../places/walk-drawing.js';
import { isHidden } from '../style/is-hidden.js';
import { isLineFirst } from '../style/is-line-first.js';
import { readSheets } from '../style/read-sheets.js';
import { cascade, geometryIn, type PlacingStyle, referenceIn, styleOf } from '../style/style-of.js';

/** One outline, at one place at which it shows. */
export interface Outline {
  /** Its own: attributes are found in the text again, for there may be tens of thousands of outlines. */
  readonly element: DrawingElement;
  /** What else places it. */
  readonly style: PlacingStyle;
  /** What is set on it itself of what lets things behind it through. */
  readonly blending: PlacingStyle;
  /** Through which uses it shows there, innermost first, or null. */
  readonly chain: Chain | null;
  /** Itself and all around it, through uses, from the inside. */
  readonly holders: readonly DrawingElement[];
  /** From the user units that it stands in to millimetres of paper. */
  readonly outside: Matrix;
  /** From its own, after its transform. */
  readonly matrix: Matrix;
  /** What shares of its measures are shares of. */
  readonly viewport: Around['viewport'];
  /** Bounds in its own user units; `unknown` where they could be anything. */
  readonly box: Bounds;
  /** Its flat fill, `#rrggbb`; `none`; or `other` for anything else. */
  readonly fill: string;
  /** What of it is inside. */
  readonly rule: 'nonzero' | 'evenodd';
  /** Whether its line lies under its fill. */
  readonly lineFirst: boolean;
  /** Why it cannot be covered, to follow its name: `has no area`; or null. */
  readonly left: string | null;
}

/** A drawing's outlines. */
export interface FoundOutlines {
  /** In the order in which they stand. */
  readonly outlines: readonly Outline[];
  /** How the drawing lies on paper. */
  readonly page: Page;
  /** Why the drawing as a whole cannot be dressed, to follow its name; or null. */
  readonly fault: string | null;
  /** Why it cannot be told what some are filled with, or whether they are moved; or null. */
  readonly doubt: string | null;
}

// What is carried from outside in.
interface Paint {
  readonly own: PlacingStyle;
  readonly fill: string;
  readonly colour: string;
  readonly rule: string;
  readonly order: string;
  readonly isShown: boolean;
  readonly isHidden: boolean;
  readonly holders: Held | null;
}

interface Held {
  readonly element: DrawingElement;
  readonly outer: Held | null;
}

const painting = {
  attributes: [
    'fill',
    'fill-rule',
    'color',
    'opacity',
    'display',
    'visibility',
    'paint-order',
    'mix-blend-mode',
  ],
  isWanted: (name: string): boolean => painting.attributes.includes(name),
};

const names = ['path', 'rect', 'circle', 'ellipse', 'polygon', 'polyline', 'line', 'text'];

// CSS: what every property begins with.
const initial: Paint = {
  own: new Map(),
  fill: '#000000',
  colour: '#000000',
  rule: 'nonzero',
  order: 'normal',
  isShown: true,
  isHidden: false,
  holders: null,
};

/**
 * Find every outline of a drawing, where on paper it shows, and what it is filled with: by attributes,
 * styles and style sheets, its own or inherited.
 *
 * @param drawing - Read.
 * @returns All that shows, whether or not it can be covered.
 * @see SVG 2, 8 and 13: coordinate systems, painting
 */
export function findOutlines(drawing: Drawing): FoundOutlines {
  const sheets = readSheets(drawing);
  const scene: Scene = { drawing, sheets, clips: new Map() };
  const attributes = attributesOf(drawing, drawing.root);
  const page = pageOf(attributes);
  const root = {
    element: drawing.root,
    attributes,
    style: styleOf(drawing.root, attributes, sheets),
  };
  const { matrix, viewport } = page;
  const paints = readSheets(drawing, painting.isWanted);
  const enter = (styled: Styled, outer: Paint): Paint =>
    carry(styled.element, cascade(styled, paints, painting), outer);
  const outlines: Outline[] = [];
  let count = 0;
  const isWhole = walkDrawing<Paint>(scene, {
    names,
    around: { matrix, viewport, clips: [], doubt: null, boxMatters: false, squares: false },
    own: enter(root, initial),
    enter,
    take: (visit) => {
      if (++count <= mostFound) outlines.push(toOutline(scene, visit));
    },
  });
  const fault =
    faultOf(page, root) ?? (isWhole ? null : endless) ?? (count > mostFound ? tooMany : null);
  const inOrder = outlines.toSorted(
    (a, b) => a.element.index - b.element.index || compareChains(a.chain, b.chain),
  );
  return { outlines: inOrder, page, fault, doubt: paints.doubt ?? sheets.doubt };
}

// A kilobyte each, and nobody draws so many by hand.
const mostFound = 200_000;
const tooMany = `shows over ${mostFound} outlines`;
const endless = 'uses its own elements more often than anybody draws';

function faultOf({ box, doubt }: Page, { attributes, style }: Styled): string | null {
  const sized = geometryIn(style);
  if (sized !== undefined) return `has a style that sets ${sized} of the page itself`;
  if (doubt !== null) return `has ${doubt}`;
  const sides = ['width', 'height'].flatMap((name) => attributeOf(attributes, name) ?? []);
  const isTrue = sides.every(({ value }) => {
    const length = parseLength(value);
    return length?.kind === 'true' && length.value > 0;
  });
  return isTrue && sides.length > 0 && box !== null
    ? null
    : 'states no size in mm, cm, in, pt, pc or Q';
}

function compareChains(a: Chain | null, b: Chain | null): number {
  const [one, other] = [usersOf(a), usersOf(b)];
  for (let i = 0; i < Math.min(one.length, other.length); i++) {
    const difference = (one[i] ?? 0) - (other[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return one.length - other.length;
}

// Outermost first.
function usersOf(chain: Chain | null): number[] {
  const users: number[] = [];
  for (let at = chain; at !== null; at = at.outer) users.unshift(at.user.index);
  return users;
}

function carry(element: DrawingElement, style: PlacingStyle, outer: Paint): Paint {
  const take = (name: string, from: string): string => {
    const value = style.get(name)?.trim().toLowerCase();
    return value === undefined || ['inherit', 'unset', 'revert', ''].includes(value) ? from : value;
  };
  const colour = take('color', outer.colour);
  const fill = take('fill', outer.fill);
  return {
    own: style,
    fill: fill === 'initial' ? initial.fill : fill,
    colour: colour === 'currentcolor' ? outer.colour : colour,
    rule: take('fill-rule', outer.rule),
    order: take('paint-order', outer.order),
    isShown: outer.isShown && style.get('display')?.trim() !== 'none',
    isHidden: isHidden(style.get('visibility'), outer.isHidden),
    holders: { element, outer: outer.holders },
  };
}

function toOutline(scene: Scene, visit: Visit<Paint>): Outline {
  const { styled, around, outside, own, chain } = visit;
  const { element, attributes } = styled;
  const holders: DrawingElement[] = [];
  for (let at = own.holders; at !== null; at = at.outer) holders.push(at.element);
  const box = shapeBox(element, attributes, around.viewport);
  return {
    element,
    style: styled.style,
    blending: blendingOf(own.own),
    chain,
    holders,
    outside: outside.matrix,
    matrix: around.matrix,
    viewport: around.viewport,
    box,
    fill: flatFill(own),
    rule: own.rule === 'evenodd' ? 'evenodd' : 'nonzero',
    lineFirst: isLineFirst(own.order),
    left:
      leftFor(element, box, own) ??
      doubtOf(around.doubt, around.matrix, outside.matrix) ??
      coveredBy(scene, styled) ??
      namedIn(scene, chain),
  };
}

const plain: PlacingStyle = new Map();

function blendingOf(style: PlacingStyle): PlacingStyle {
  const set = ['opacity', 'mix-blend-mode'].flatMap((name) => {
    const value = style.get(name);
    return value === undefined ? [] : [[name, value] as const];
  });
  return set.length === 0 ? plain : new Map(set);
}

// What is inherited is the word: CSS Color Module Level 4, 9.2.
function flatFill({ fill, colour }: Paint): string {
  if (fill === 'none') return 'none';
  return parseCssColour(fill === 'currentcolor' ? colour : fill) ?? 'other';
}

function leftFor(element: DrawingElement, box: Bounds, own: Paint): string | null {
  if (isSvg(element, 'text')) return 'is text, which is no outline until it is made one';
  if (box === 'unknown') return `cannot be read: its ${geometryOf(element)} no sense`;
  if (box === null || !hasArea(box)) return 'has no area';
  return own.isShown && !own.isHidden ? null : 'is hidden';
}

// Programs differ on what shows of it.
function geometryOf(element: DrawingElement): string {
  if (isSvg(element, 'path')) return 'path data makes';
  return isSvg(element, 'polygon', 'polyline') ? 'points make' : 'sizes make';
}

function doubtOf(doubt: string | null, ...matrices: readonly Matrix[]): string | null {
  if (doubt !== null) return `cannot be placed because of ${doubt}`;
  if (matrices.every((matrix) => invert(matrix) !== null)) return null;
  return 'is flattened by a transform';
}

// A clip or mask measured by the box of what it is on would be another on a picture.
function coveredBy({ drawing }: Scene, { style }: Styled): string | null {
  const byBox = ['clip-path', 'mask'].some((name) => {
    const reference = referenceIn(style.get(name));
    if (reference === null) return false;
    const target = reference === 'unknown' ? undefined : drawing.byId.get(reference.id);
    if (target === undefined) return reference === 'unknown';
    const units = name === 'mask' ? 'maskContentUnits' : 'clipPathUnits';
    return attributeOf(attributesOf(drawing, target), units)?.value.trim() === 'objectBoundingBox';
  });
  return byBox ? 'is clipped or masked by its own box' : null;
}

// What is used is copied, and an id holds of one element only.
function namedIn({ drawing }: Scene, chain: Chain | null): string | null {
  if (chain === null || drawing.sheets.size === 0) return null;
  const sheets = [...drawing.sheets.values()].join('\n');
  if (!sheets.includes('#')) return null;
  for (let at: Chain | null = chain; at !== null; at = at.outer) {
    for (let index = at.target.index; index <= at.target.last; index++) {
      const id = drawing.elements[index]?.id ?? null;
      if (id === null || !sheets.includes(`#${id}`)) continue;
      return 'shows through a use, and a style sheet names it by its id';
    }
  }
  return null;
}
