import { attributeOf } from '../attributes-of.js';
import { type Drawing, type DrawingAttribute, isSvg, namespaces } from '../drawing.js';
import type { Box } from '../geometry/box.js';
import { cornersOf } from '../geometry/box.js';
import { type Aspect, parseAspect } from '../geometry/fit-view.js';
import { identity } from '../../numeric/matrix.js';
import { pageOf } from '../geometry/page.js';
import { toUnits } from '../geometry/parse-length.js';
import { basesOf } from '../xml-base.js';
import { readSheets } from '../style/read-sheets.js';
import { geometryIn, type PlacingStyle } from '../style/style-of.js';
import { type Around, isSet, type Scene, type Styled, styledIn } from './around.js';
import { doubtOfDrawing } from './doubt-of-drawing.js';
import { insideOf } from './inside-of.js';
import type { PicturePlace, PlacedPicture, Placement } from './placed-picture.js';
import { walkDrawing } from './walk-drawing.js';

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
  const scene: Scene = { drawing, sheets: readSheets(drawing), clips: new Map() };
  const walk = new Walk(scene);
  const root = styledIn(scene, drawing.root);
  const page = pageOf(root.attributes);
  const doubt = doubtOfDrawing(scene, root, page);
  const isOpen = root.style.get('overflow')?.startsWith('visible') === true;
  const { matrix, viewport, box } = page;
  const clips = box === null || isOpen ? [] : [cornersOf(identity, box)];
  const boxMatters = isSet(root.style, 'clip-path', 'mask', 'filter');
  walk.run({ matrix, viewport, clips, doubt, boxMatters, squares: false });
  return {
    pictures: listPictures(scene, walk, doubt),
    isTrueSize: page.isTrue,
    steady: scene.sheets.steady && doubt === null,
  };
}

function listPictures(scene: Scene, walk: Walk, doubt: string | null): PlacedPicture[] {
  const { drawing } = scene;
  const inside = insideOf(drawing);
  const baseOf = basesOf(drawing);
  const pictures: PlacedPicture[] = [];
  for (const element of drawing.elements) {
    if (!isSvg(element, 'image')) continue;
    const { attributes, style } = styledIn(scene, element);
    const links = linksOf(attributes);
    if (links === null) continue;
    const seen = walk.seen.get(element.index) ?? { ...unseen, doubt: unseenDoubt(style) };
    const aspect = parseAspect(attributeOf(attributes, 'preserveAspectRatio')?.value);
    const own = aspect === null ? 'a preserveAspectRatio that makes no sense' : null;
    const doubts = [doubt, walk.doubt, seen.doubt, links.doubt, own];
    pictures.push({
      ...seen,
      ...links,
      base: baseOf(element),
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

  constructor(scene: Scene) {
    this.#scene = scene;
  }

  run(around: Around): void {
    const isWhole = walkDrawing(this.#scene, {
      names: ['image'],
      around,
      own: null,
      enter: () => null,
      take: ({ styled, around: at }) => {
        this.#takePicture(styled, at);
      },
    });
    if (!isWhole) this.doubt = 'uses of one another without end';
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
