import { moveMark } from '../../page/move-mark.js';
import type {
  ReliefBand,
  ReliefDisc,
  ReliefMark,
  ReliefShape,
  ShadeStop,
  ShapeClip,
} from '../../page/relief-mark.js';
import type { RowSource } from '../../raster/row-source.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { PartPicture } from './part-picture.js';
import { head, inMm, pathOf, showPart, type ShownPicture } from './render-svg.js';

/** Pieces in relief on a page. */
export interface DrawnPieces {
  /** All of them, with their relief. */
  readonly part: PartPicture;
  /** The same dots without relief. */
  readonly flat: RowSource;
  /** Of one piece, in mm of paper from its top left corner, in the order they lie over one another. */
  readonly marks: readonly ReliefMark[];
  /** Of one piece, mm of paper, without bleed: what marks reach past it and its bleed is not drawn. */
  readonly depth: number;
  /** Where that corner lies on the page, of each piece. */
  readonly origins: readonly PerAxis<number>[];
}

// A program that blends shows the lines, live; one that does not, or knows no such rule, shows the picture
// that they were blended into already.
const style = [
  '.ink{mix-blend-mode:overlay}',
  '#live{display:none;isolation:isolate}',
  '@supports (mix-blend-mode:overlay){#live{display:inline}#baked{display:none}}',
].join('');

/**
 * Draw pieces in relief as an SVG: the ground as a picture, each mark a shape that can be changed, and
 * beside them the picture of both for programs that do not blend.
 *
 * @param pieces - What to draw.
 * @param pictures - With relief, and without.
 * @yields The text, in ASCII, piece by piece.
 * @see W3C Compositing and Blending Level 1, 3.1: mix-blend-mode
 */
export function* renderRelief(
  pieces: DrawnPieces,
  pictures: readonly [ShownPicture, ShownPicture],
): Generator<string> {
  const { part, flat, marks, origins, depth } = pieces;
  const [baked, plain] = pictures;
  yield* head(part);
  yield `<style>${style}</style>\n`;
  const shades = new Map<string, string>();
  const shapes = origins.map((origin) =>
    together(marks).map((laid) => {
      const drawn = laid
        .map((mark) => drawMark(within(mark, part, depth), origin, shades))
        .join('');
      return laid.length > 1 ? `<g>\n${drawn}</g>\n` : drawn;
    }),
  );
  yield `<defs>\n${[...shades].map(define).join('')}</defs>\n`;
  yield '<g id="baked">\n';
  yield* showPart(part, baked);
  yield '</g>\n<g id="live">\n';
  yield* showPart({ ...part, rows: flat }, plain);
  yield '<g id="lines">\n';
  for (const piece of shapes) yield piece.join('');
  yield '</g>\n</g>\n</svg>\n';
}

// What lies over itself is moved as one.
function together(marks: readonly ReliefMark[]): readonly (readonly ReliefMark[])[] {
  const groups: ReliefMark[][] = [];
  for (const mark of marks) {
    if (mark.isAgain === true) groups.at(-1)?.push(mark);
    else groups.push([mark]);
  }
  return groups;
}

// Only marks of one shade reach past the piece.
function within(mark: ReliefMark, { page, bleed }: PartPicture, depth: number): ReliefMark {
  if (mark.kind === 'disc') return mark;
  const x = (at: number): number => Math.min(page.width - bleed, Math.max(-bleed, at));
  const y = (at: number): number => Math.min(depth + bleed, Math.max(-bleed, at));
  if (mark.kind === 'band') {
    return { ...mark, x0: x(mark.x0), x1: x(mark.x1), y0: y(mark.y0), y1: y(mark.y1) };
  }
  const held = (loop: Float64Array): Float64Array =>
    isLevel(loop) ? loop.map((at, i) => (i % 2 === 0 ? x(at) : y(at))) : loop;
  const pieces = mark.pieces.map((piece) => ({ ...piece, loops: piece.loops.map(held) }));
  return { ...mark, pieces };
}

// A rectangle as bands are joined of: its sides run along the page's.
function isLevel(loop: Float64Array): boolean {
  const [x0, y0, x1, y1, x2, y2, x3, y3] = loop;
  return loop.length === 8 && y0 === y1 && x1 === x2 && y2 === y3 && x3 === x0;
}

// By what stands in it, so that each shade is defined once.
type Shades = Map<string, string>;

function shadeOf(stops: string, shades: Shades): string {
  return idOf(`linearGradient ${stops}`, shades);
}

function clipOf({ loops, side }: ShapeClip, shades: Shades): string {
  const all = side === 'inside' ? loops : [everywhere, ...loops];
  return idOf(`clipPath ><path clip-rule="evenodd" d="${all.map(pathOf).join('')}"/>`, shades);
}

// What is defined, without its id, to that.
function idOf(text: string, shades: Shades): string {
  const id = shades.get(text) ?? `shade-${shades.size + 1}`;
  shades.set(text, id);
  return id;
}

function define([text, id]: readonly [string, string]): string {
  const [name = ''] = text.split(' ', 1);
  return `<${name} id="${id}" ${text.slice(name.length + 1)}</${name}>\n`;
}

// Over any page, mm.
const far = 10_000;
const everywhere = Float64Array.of(-far, -far, far, -far, far, far, -far, far);

function drawMark(mark: ReliefMark, origin: PerAxis<number>, shades: Shades): string {
  switch (mark.kind) {
    case 'band':
      return drawBand(mark, origin, shades);
    case 'disc':
      return drawDisc(mark, origin, shades);
    case 'shape':
      return drawShape(mark, origin, shades);
  }
}

function drawShape(shape: ReliefShape, { x, y }: PerAxis<number>, shades: Shades): string {
  const { pieces, clip } = moveMark(shape, x, y);
  const within = clip === null ? '' : ` clip-path="url(#${clipOf(clip, shades)})"`;
  return pieces
    .map(({ loops, toward, stops }) => {
      const d = loops.map(pathOf).join('');
      const [first, last] = [stops[0], stops.at(-1)];
      if (first === undefined || last === undefined) return '';
      const { colour, opacity } = inkOf(first.shade);
      const even = `fill="${colour}" fill-opacity="${inMm(opacity)}"`;
      if (first === last) return `<path class="ink" ${even}${within} d="${d}"/>\n`;
      const [from, to] = [first, last].map(
        ({ at }) => [inMm(at * toward.x), inMm(at * toward.y)] as const,
      );
      const line = `x1="${from?.[0] ?? ''}" y1="${from?.[1] ?? ''}" x2="${to?.[0] ?? ''}" y2="${to?.[1] ?? ''}"`;
      const wide = last.at - first.at;
      const list = crossing(stops).map(({ at, shade, as }) => {
        const ink = inkOf(as);
        return `<stop offset="${inMm((at - first.at) / wide)}" stop-color="${ink.colour}" stop-opacity="${inMm(Math.abs(shade))}"/>`;
      });
      const id = shadeOf(`gradientUnits="userSpaceOnUse" ${line}>${list.join('')}`, shades);
      return `<path class="ink" fill="url(#${id})"${within} d="${d}"/>\n`;
    })
    .join('');
}

function inkOf(shade: number): { readonly colour: string; readonly opacity: number } {
  return { colour: shade > 0 ? tones.light : tones.dark, opacity: Math.abs(shade) };
}

// Between white and black both are clear.
function crossing(stops: readonly ShadeStop[]): readonly (ShadeStop & { readonly as: number })[] {
  return stops.flatMap((stop, i) => {
    const own = { ...stop, as: stop.shade };
    const before = stops[i - 1];
    if (before === undefined || before.shade * stop.shade >= 0) {
      // One that is clear takes the colour of its neighbour.
      const as = stop.shade === 0 ? (before?.shade ?? stops[i + 1]?.shade ?? 0) : stop.shade;
      return [{ ...own, as }];
    }
    const share = before.shade / (before.shade - stop.shade);
    const at = before.at + share * (stop.at - before.at);
    return [{ at, shade: 0, as: before.shade }, { at, shade: 0, as: stop.shade }, own];
  });
}

const tones = { light: '#fff', dark: '#000', paper: '#fff' } as const;

function drawBand(band: ReliefBand, origin: PerAxis<number>, shades: Shades): string {
  const { x0, x1, y0, y1, tone, top, foot } = band;
  const box = `x="${inMm(origin.x + x0)}" y="${inMm(origin.y + y0)}" width="${inMm(x1 - x0)}" height="${inMm(y1 - y0)}"`;
  const colour = tones[tone];
  if (tone === 'paper') return `<rect ${box} fill="${colour}"/>\n`;
  if (top === foot)
    return `<rect class="ink" ${box} fill="${colour}" fill-opacity="${inMm(top)}"/>\n`;
  const stops = `x2="0" y2="1">${stop(0, colour, top)}${stop(1, colour, foot)}`;
  return `<rect class="ink" ${box} fill="url(#${shadeOf(stops, shades)})"/>\n`;
}

function drawDisc(disc: ReliefDisc, origin: PerAxis<number>, shades: Shades): string {
  const { x, y, radius, opacity, light } = disc;
  // From the rim nearest to the light to the one farthest from it, as shares of the box round it.
  const [from, to] = [1, -1].map((sign) => ({
    x: inMm(0.5 + (sign * light.x) / 2),
    y: inMm(0.5 + (sign * light.y) / 2),
  }));
  const line = `x1="${from?.x ?? ''}" y1="${from?.y ?? ''}" x2="${to?.x ?? ''}" y2="${to?.y ?? ''}"`;
  const { light: white, dark: black } = tones;
  const stops = `${line}>${stop(0, white, opacity)}${stop(0.5, white, 0)}${stop(0.5, black, 0)}${stop(1, black, opacity)}`;
  const fill = `fill="url(#${shadeOf(stops, shades)})"`;
  return `<circle class="ink" cx="${inMm(origin.x + x)}" cy="${inMm(origin.y + y)}" r="${inMm(radius)}" ${fill}/>\n`;
}

function stop(offset: number, colour: string, opacity: number): string {
  return `<stop offset="${offset}" stop-color="${colour}" stop-opacity="${inMm(opacity)}"/>`;
}
