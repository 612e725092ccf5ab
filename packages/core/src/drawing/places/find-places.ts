import { attributeOf, attributesOf, targetOf } from '../attributes-of.js';
import {
  childrenOf,
  type Drawing,
  type DrawingAttribute,
  type DrawingElement,
  isSvg,
  namespaces,
} from '../drawing.js';
import type { Box } from '../geometry/box.js';
import { cornersOf } from '../geometry/box.js';
import { type Aspect, parseAspect } from '../geometry/fit-view.js';
import { compose, identity } from '../geometry/matrix.js';
import { pageOf } from '../geometry/page.js';
import { toUnits } from '../geometry/parse-length.js';
import { readSheets } from '../style/read-sheets.js';
import { geometryIn, type PlacingStyle, styleOf } from '../style/style-of.js';
import { type Around, enter, isSet, type Scene, type Styled } from './around.js';
import { enterViewport } from './enter-viewport.js';
import { insideOf } from './inside-of.js';
import { leadsToPicture } from './leads-to-picture.js';
import type { PicturePlace, PlacedPicture, Placement } from './placed-picture.js';

// Elements looked at, through `use` of `use` as often as they show.
const mostSteps = 50_000;

// What shows its children where it stands.
const groups = new Set(['g', 'a', 'switch', 'svg']);

const moving = ['animate', 'animateTransform', 'animateMotion', 'animateColor', 'set'];

interface Step {
  readonly element: DrawingElement;
  readonly around: Around;
  // Of the `use` that brought it in.
  readonly user: readonly DrawingAttribute[] | null;
  readonly chain: Chain | null;
}

interface Chain {
  readonly target: DrawingElement;
  readonly outer: Chain | null;
}

interface Seen {
  readonly places: PicturePlace[];
  doubt: string | null;
  boxMatters: boolean;
  squares: boolean;
}

/**
 * Find every picture of a drawing, and where on paper it shows: every transform, viewBox and unit on
 * the way, what clips it, and each place at which it is used again.
 *
 * @param drawing - Read.
 * @returns The pictures, in document order.
 * @see SVG 2, 8: coordinate systems, transformations and units
 */
export function findPlaces(drawing: Drawing): Placement {
  const sheets = readSheets(drawing);
  const walk = new Walk({ drawing, sheets, clips: new Map() });
  const rootAttributes = attributesOf(drawing, drawing.root);
  const page = pageOf(rootAttributes);
  const isMoving = drawing.elements.some((element) => isSvg(element, ...moving));
  const rootStyle = styleOf(drawing.root, rootAttributes, sheets);
  const sized = geometryIn(rootStyle);
  const doubt =
    sheets.doubt ??
    (drawing.scripted ? 'a script' : null) ??
    (isMoving ? 'something that moves' : null) ??
    page.doubt ??
    (sized === undefined ? null : `a style that sets ${sized}`);
  const isOpen = rootStyle.get('overflow')?.startsWith('visible') === true;
  const { matrix, viewport, box } = page;
  const clips = box === null || isOpen ? [] : [cornersOf(identity, box)];
  const boxMatters = isSet(rootStyle, 'clip-path', 'mask', 'filter');
  walk.run({ matrix, viewport, clips, doubt, boxMatters, squares: false });
  return {
    pictures: listPictures(drawing, walk, doubt),
    isTrueSize: page.isTrue,
    steady: sheets.steady && doubt === null,
  };
}

function listPictures(drawing: Drawing, walk: Walk, doubt: string | null): PlacedPicture[] {
  const inside = insideOf(drawing);
  const pictures: PlacedPicture[] = [];
  for (const element of drawing.elements) {
    if (!isSvg(element, 'image')) continue;
    const { attributes, style } = walk.styled(element);
    const links = linksOf(attributes);
    if (links === null) continue;
    const seen = walk.seen.get(element.index) ?? { ...unseen, doubt: unseenDoubt(style) };
    const aspect = parseAspect(attributeOf(attributes, 'preserveAspectRatio')?.value);
    const own = aspect === null ? 'a preserveAspectRatio that makes no sense' : null;
    const doubts = [doubt, walk.doubt, seen.doubt, links.doubt, own];
    pictures.push({
      ...seen,
      ...links,
      element,
      attributes,
      rect: seen.places[0]?.rect ?? ownRect(attributes),
      aspect: aspect ?? stretched,
      inside: inside.get(element.index) ?? null,
      doubt: doubts.find((one) => one !== null) ?? null,
      isCovered: isSet(style, 'clip-path', 'mask', 'filter'),
    });
  }
  return pictures;
}

// Where one picture is named twice, the older name is kept: every program knows it.
function linksOf(attributes: readonly DrawingAttribute[]): {
  readonly href: DrawingAttribute;
  readonly again: DrawingAttribute | null;
  readonly doubt: string | null;
} | null {
  const links = attributes.filter(
    ({ name, namespace }) =>
      name === 'href' && (namespace === null || namespace === namespaces.xlink),
  );
  const [one, other] = links;
  if (one === undefined) return null;
  if (other === undefined) return { href: one, again: null, doubt: null };
  if (one.raw !== other.raw) return { href: one, again: null, doubt: 'two links that differ' };
  return one.namespace === null
    ? { href: other, again: one, doubt: null }
    : { href: one, again: other, doubt: null };
}

function unseenDoubt(style: PlacingStyle): string | null {
  const moved = geometryIn(style);
  return moved === undefined ? null : `a style that sets ${moved}`;
}

// Without anything around it that shares could be of.
function ownRect(attributes: readonly DrawingAttribute[]): Box | null {
  const rect = rectOf(attributes, { width: NaN, height: NaN });
  return typeof rect === 'string' ? null : rect;
}

const unseen: Seen = { places: [], doubt: null, boxMatters: true, squares: false };

const stretched: Aspect = { x: 0, y: 0, fit: 'none' };

class Walk {
  readonly seen = new Map<number, Seen>();
  doubt: string | null = null;
  readonly #scene: Scene;
  readonly #leads: ReadonlySet<number>;
  readonly #known = new Map<number, Styled>();
  readonly #waiting: Step[] = [];

  constructor(scene: Scene) {
    this.#scene = scene;
    this.#leads = leadsToPicture(scene.drawing);
  }

  styled(element: DrawingElement): Styled {
    const known = this.#known.get(element.index);
    if (known !== undefined) return known;
    const attributes = attributesOf(this.#scene.drawing, element);
    const style = styleOf(element, attributes, this.#scene.sheets);
    const styled = { element, attributes, style };
    this.#known.set(element.index, styled);
    return styled;
  }

  // No recursion: how deep `use` leads is for the file to say.
  run(around: Around): void {
    this.#pushChildren(this.#scene.drawing.root, around, null);
    let steps = 0;
    for (let step = this.#waiting.pop(); step !== undefined; step = this.#waiting.pop()) {
      if (++steps > mostSteps) {
        this.doubt = `over ${mostSteps} uses of one another`;
        return;
      }
      this.#take(step);
    }
  }

  #take({ element, around: outer, user, chain }: Step): void {
    const styled = this.styled(element);
    const around = enter(this.#scene, outer, styled);
    if (element.name === 'image') this.#takePicture(styled, around);
    else if (element.name === 'use') this.#follow(styled, around, chain);
    else if (element.name === 'svg' || (element.name === 'symbol' && user !== null)) {
      const inside = enterViewport(around, styled, user);
      if (inside !== null) this.#pushChildren(element, inside, chain);
    } else if (groups.has(element.name)) this.#pushChildren(element, around, chain);
  }

  #pushChildren(element: DrawingElement, around: Around, chain: Chain | null): void {
    for (const child of childrenOf(this.#scene.drawing, element)) {
      if (!this.#leads.has(child.index) || !isSvg(child, child.name)) continue;
      this.#waiting.push({ element: child, around, user: null, chain });
    }
  }

  #follow({ element, attributes }: Styled, around: Around, outer: Chain | null): void {
    const target = targetOf(this.#scene.drawing, attributes);
    if (target === undefined || !this.#leads.has(target.index)) return;
    if (leadsRound(element, target, outer)) return;
    const { viewport } = around;
    const x = toUnits(attributeOf(attributes, 'x')?.value, viewport.width, 0);
    const y = toUnits(attributeOf(attributes, 'y')?.value, viewport.height, 0);
    this.#waiting.push({
      element: target,
      around: {
        ...around,
        matrix: compose(around.matrix, [1, 0, 0, 1, x ?? 0, y ?? 0]),
        doubt:
          around.doubt ?? (x === null || y === null ? 'a place in units that have no size' : null),
      },
      user: attributes,
      chain: { target, outer },
    });
  }

  #takePicture({ element, attributes }: Styled, around: Around): void {
    let seen = this.seen.get(element.index);
    if (seen === undefined) {
      seen = { places: [], doubt: null, boxMatters: false, squares: false };
      this.seen.set(element.index, seen);
    }
    const rect = rectOf(attributes, around.viewport);
    seen.boxMatters ||= around.boxMatters;
    seen.squares ||= around.squares;
    seen.doubt ??= around.doubt;
    if (typeof rect === 'string') {
      seen.doubt ??= rect;
      return;
    }
    const [first] = seen.places;
    if (first !== undefined && differ(first.rect, rect)) {
      seen.doubt ??= 'a size that is another at each place';
    }
    seen.places.push({ matrix: around.matrix, rect, clips: around.clips });
  }
}

// What uses what it stands in shows nothing.
function leadsRound(user: DrawingElement, target: DrawingElement, chain: Chain | null): boolean {
  for (let at = user.parent; at !== null; at = at.parent) if (at === target) return true;
  for (let at = chain; at !== null; at = at.outer) if (at.target === target) return true;
  return false;
}

function differ(a: Box, b: Box): boolean {
  return a.x0 !== b.x0 || a.y0 !== b.y0 || a.x1 !== b.x1 || a.y1 !== b.y1;
}

function rectOf(
  attributes: readonly DrawingAttribute[],
  viewport: Around['viewport'],
): Box | string {
  const read = (name: string, whole: number): number | null =>
    toUnits(attributeOf(attributes, name)?.value, whole, 0);
  const [x, y] = [read('x', viewport.width), read('y', viewport.height)];
  const [width, height] = [read('width', viewport.width), read('height', viewport.height)];
  if (x === null || y === null || width === null || height === null) {
    return 'a size in units that have none';
  }
  if (!(width > 0 && height > 0)) return 'no size of its own';
  return { x0: x, y0: y, x1: x + width, y1: y + height };
}
