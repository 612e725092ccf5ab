import type { DrawnArea, DrawnMark } from '../../page/drawn.js';
import { attributeOf, hrefOf } from '../attributes-of.js';
import { basesOf, type LinkBase } from '../xml-base.js';
import { BadDrawing } from '../bad-drawing.js';
import { type Drawing, type DrawingAttribute, type DrawingElement, isSvg } from '../drawing.js';
import { type Box, hasArea } from '../geometry/box.js';
import { type Aspect, fitView, parseAspect } from '../geometry/fit-view.js';
import { compose, identity, invert, type Matrix, type Spot } from '../../numeric/matrix.js';
import { type Page, pageOf } from '../geometry/page.js';
import { toUnits } from '../geometry/parse-length.js';
import { shapeNames } from '../outline/follow-shape.js';
import { type Around, type Scene, type Styled, styledIn } from '../places/around.js';
import { doubtOfDrawing } from '../places/doubt-of-drawing.js';
import { type Visit, walkDrawing } from '../places/walk-drawing.js';
import { readSheets, type Sheets } from '../style/read-sheets.js';
import { cascade, referenceIn } from '../style/style-of.js';
import { clipArea } from './clip-area.js';
import { isLineFirst } from '../style/is-line-first.js';
import { farthest } from './farthest.js';
import { refuseMark, ruleOf } from './trace.js';
import { Tracer } from './tracer.js';
import {
  carryPaint,
  inkOf,
  lineOf,
  oddIn,
  OddPaint,
  type Paint,
  painting,
  unpainted,
} from './paint.js';

/** A picture of a drawing, before anything is known of its file. */
export interface LinkedPicture {
  /** Its element. */
  readonly element: DrawingElement;
  /** What names its file. */
  readonly href: DrawingAttribute;
  /** From where that counts, or null for the drawing. */
  readonly base: LinkBase | null;
  /** What it is set into, in user units. */
  readonly rect: Box;
  /** How. */
  readonly aspect: Aspect;
}

/** Where a picture is laid, from user units. */
export interface LaidPicture {
  /** Tells it from a shape. */
  readonly kind: 'laid';
  /** Which. */
  readonly linked: LinkedPicture;
  /** From user units to mm of the part. */
  readonly matrix: Matrix;
  /** It shows inside all of these. */
  readonly clips: readonly DrawnArea[];
}

/** What a drawing is made of. */
export interface ListedMarks {
  /** In the order in which they are painted. */
  readonly marks: readonly (Extract<DrawnMark, { kind: 'shape' }> | LaidPicture)[];
  /** How the drawing lies on paper. */
  readonly page: Page;
}

interface Carried {
  readonly paint: Paint;
  readonly clips: readonly DrawnArea[];
  // Bounds of clips that are among those areas already.
  readonly bounds: ReadonlySet<readonly Spot[]>;
}

// As many as are covered in one drawing.
const mostMarks = 50_000;

const painted = [...shapeNames, 'line', 'image'];
const unknown = ['text', 'foreignObject', 'switch', 'video', 'canvas', 'iframe'];

/**
 * List what a drawing paints: flat fills, lines, and pictures, each inside its clips, with every
 * transform, viewBox, unit and use on the way.
 *
 * @param drawing - Read.
 * @returns What is painted, in its order.
 * @throws BadDrawing by name of what would not come out exactly as it is drawn.
 * @see SVG 2, 13: painting; CSS Masking Module Level 1, 5: clipping paths
 */
export function listMarks(drawing: Drawing): ListedMarks {
  const scene: Scene = { drawing, sheets: readSheets(drawing), clips: new Map() };
  const sheets = readSheets(drawing, painting.isWanted, 'mix-blend-mode');
  const root = styledIn(scene, drawing.root);
  const page = pageOf(root.attributes);
  const doubt = sheets.doubt ?? doubtOfDrawing(scene, root, page);
  if (doubt !== null) {
    const hint = 'set the size of its page anew in the drawing program, in mm';
    throw new BadDrawing(`holds ${doubt}`, doubt === page.doubt ? { hint } : {});
  }
  const { matrix, viewport } = page;
  const around = { matrix, viewport, clips: [], doubt: null, boxMatters: false, squares: false };
  const lister = new Lister(scene, sheets);
  const isWhole = walkDrawing<Carried>(scene, {
    names: [...painted, ...unknown],
    around,
    own: lister.enter(root, { paint: unpainted, clips: [], bounds: new Set() }, around) ?? nothing,
    enter: (styled, outer, inside) => lister.enter(styled, outer, inside),
    take: (visit) => {
      lister.take(visit);
    },
  });
  if (!isWhole) throw new BadDrawing('uses its own elements more often than anybody draws');
  return { marks: lister.marks, page };
}

const nothing: Carried = { paint: { ...unpainted, isHidden: true }, clips: [], bounds: new Set() };

class Lister {
  readonly marks: ListedMarks['marks'][number][] = [];
  readonly #scene: Scene;
  readonly #sheets: Sheets;
  readonly #tracer = new Tracer();
  readonly #baseOf: ReturnType<typeof basesOf>;
  readonly #pictures = new Map<number, LinkedPicture>();

  constructor(scene: Scene, sheets: Sheets) {
    this.#scene = scene;
    this.#baseOf = basesOf(scene.drawing);
    this.#sheets = sheets;
  }

  enter(styled: Styled, outer: Carried, inside: Around): Carried | undefined {
    const style = this.#styleOf(styled);
    const paint = carryPaint(style, outer.paint);
    if (paint === undefined) return undefined;
    const { element } = styled;
    if (isSvg(element, ...unknown)) {
      throw new BadDrawing(`holds <${element.name}>, which is not laid on pages`);
    }
    const odd = oddIn(style);
    if (odd !== null) throw refuseMark(element, `has ${odd}`);
    const reference = referenceIn(styled.style.get('clip-path'));
    if (reference === null) return { ...outer, paint };
    const clipped = { styled, matrix: inside.matrix, tracer: this.#tracer };
    const area = clipArea(this.#scene, this.#sheets, clipped);
    // A page takes a clip of no area for none, or for a hair line: nothing shows through one.
    if (isFlat(area)) return undefined;
    const clips = [...outer.clips, area];
    // Its bounds stand last among the clips, where it has any.
    const last = this.#hasBounds(reference) ? inside.clips.at(-1) : undefined;
    const bounds = last === undefined ? outer.bounds : new Set([...outer.bounds, last]);
    return { paint, clips, bounds };
  }

  take({ styled, around, own }: Visit<Carried>): void {
    const { element } = styled;
    const { paint } = own;
    if (paint.isHidden) return;
    if (around.doubt !== null) throw refuseMark(element, `holds ${around.doubt}`);
    const { matrix, viewport } = around;
    // What is flattened shows nothing.
    if (invert(matrix) === null) return;
    this.#check(element, matrix);
    refuseNegative(styled);
    const clips = [...own.clips, ...viewportsOf(around, own)];
    this.#tracer.count(clips);
    if (element.name === 'image') {
      this.#takePicture(styled, { matrix, viewport, clips });
      return;
    }
    try {
      const line = lineOf(paint, viewport);
      const fill = element.name === 'line' ? null : inkOf(paint, 'fill');
      if (fill === null && line === null) return;
      const steps = this.#tracer.trace(styled, viewport);
      if (steps.length === 0) return;
      const rule = ruleOf(paint, 'fill-rule');
      const lineFirst = isLineFirst(paint.set.get('paint-order') ?? '');
      this.marks.push({ kind: 'shape', steps, matrix, rule, fill, line, lineFirst, clips });
    } catch (cause) {
      if (!(cause instanceof OddPaint)) throw cause;
      throw refuseMark(element, cause.message);
    }
  }

  #check(element: DrawingElement, matrix: Matrix): void {
    if (this.marks.length === mostMarks) {
      throw new BadDrawing(`shows more than pages hold: over ${mostMarks} shapes and pictures`);
    }
    if (matrix.every((figure) => Math.abs(figure) <= farthest)) return;
    throw refuseMark(element, 'is drawn at a scale that makes no sense');
  }

  #hasBounds(reference: { readonly id: string } | 'unknown'): boolean {
    const { drawing, clips } = this.#scene;
    const clip = reference === 'unknown' ? undefined : drawing.byId.get(reference.id);
    return clip !== undefined && (clips.get(clip.index)?.box ?? null) !== null;
  }

  #styleOf(styled: Pick<Styled, 'element' | 'attributes'>): ReadonlyMap<string, string> {
    return cascade(styled, this.#sheets, painting);
  }

  #takePicture(
    { element, attributes }: Styled,
    { matrix, viewport, clips }: Pick<Around, 'matrix' | 'viewport'> & Pick<LaidPicture, 'clips'>,
  ): void {
    const href = hrefOf(attributes);
    if (href === undefined) return;
    const side = (name: string, whole: number): number => {
      const value = toUnits(attributeOf(attributes, name)?.value, whole, NaN);
      return value ?? NaN;
    };
    const [x, y] = [side('x', viewport.width) || 0, side('y', viewport.height) || 0];
    const [width, height] = [side('width', viewport.width), side('height', viewport.height)];
    const rect = { x0: x, y0: y, x1: x + width, y1: y + height };
    const aspect = parseAspect(attributeOf(attributes, 'preserveAspectRatio')?.value);
    if (!hasArea(rect) || aspect === null) throw refuseMark(element, 'states no size');
    const known = this.#pictures.get(element.index);
    const linked = known ?? { element, href, base: this.#baseOf(element), rect, aspect };
    this.#pictures.set(element.index, linked);
    const cut =
      aspect.fit === 'slice' ? [...clips, { steps: boxSteps(rect), matrix, rule }] : clips;
    this.marks.push({ kind: 'laid', linked, matrix, clips: cut });
  }
}

// SVG 2, 10: an error, of which programs make nothing, or what they like.
function refuseNegative({ element, attributes }: Styled): void {
  for (const name of ['width', 'height', 'r', 'rx', 'ry']) {
    const text = attributeOf(attributes, name)?.value.trim() ?? '';
    if (/^-[^-]*[1-9]/.test(text)) {
      throw refuseMark(element, `has a ${name} of ${text.slice(0, 40)}`);
    }
  }
}

// By its points, and those that its curves bend to.
function isFlat({ steps, matrix }: DrawnArea): boolean {
  if (invert(matrix) === null) return true;
  const low = [Infinity, Infinity];
  const high = [-Infinity, -Infinity];
  for (const [, ...numbers] of steps) {
    for (const [i, at] of numbers.entries()) {
      low[i % 2] = Math.min(low[i % 2]!, at);
      high[i % 2] = Math.max(high[i % 2]!, at);
    }
  }
  return !(high[0]! > low[0]! && high[1]! > low[1]!);
}

const rule = 'nonzero' as const;
// What viewports on the way cut off.
function viewportsOf({ clips }: Around, { bounds }: Carried): DrawnArea[] {
  return clips
    .filter((corners) => !bounds.has(corners))
    .map((corners) => ({
      steps: [
        ...corners.map(({ x, y }, i) => [i === 0 ? 'M' : 'L', x, y] as const),
        ['Z'] as const,
      ],
      matrix: identity,
      rule,
    }));
}

function boxSteps({ x0, y0, x1, y1 }: Box): DrawnArea['steps'] {
  return [['M', x0, y0], ['L', x1, y0], ['L', x1, y1], ['L', x0, y1], ['Z']];
}

/**
 * Lay a picture as its drawing does.
 *
 * @param laid - Where.
 * @param pixels - Its columns and rows.
 * @returns From its pixels to mm of the part.
 */
export function matrixOf(laid: LaidPicture, pixels: Around['viewport']): Matrix {
  const { rect, aspect } = laid.linked;
  const { width, height } = pixels;
  const whole = { x0: 0, y0: 0, x1: width, y1: height };
  return compose(laid.matrix, fitView(whole, rect, aspect));
}
