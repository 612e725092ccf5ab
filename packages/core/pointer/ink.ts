import { formatLength, type FoundJoints, type Point, type PointedPhoto } from '@gaugerod/core/pure';
import { draw, element } from './element.js';
import { type Grid, toPlane } from './grid.js';
import { type Line, listMarks, type State } from './state.js';
import { toScreen, type View } from './view.js';
import type { Weighed } from './weigh.js';

/** What is drawn over a photo. */
export interface Ink {
  /**
   * Draw what was marked and found.
   *
   * @param state - What was said.
   * @param weighed - What that measures.
   * @param grid - What to lay over the photo, or null.
   */
  readonly draw: (state: State, weighed: Weighed, grid: Grid | null) => void;
  /**
   * Put all of it where the photo is shown.
   *
   * @param view - As shown.
   */
  readonly place: (view: View) => void;
  /**
   * Show what was found, or hide it.
   *
   * @param shown - Whether to.
   */
  readonly showFound: (shown: boolean) => void;
}

/** A text beside a line. */
interface Word {
  readonly at: Point;
  readonly says: string;
  // Of how many courses it is one: told where there is room.
  readonly of?: { readonly length: number; readonly count: number };
}

/** Under so many pixels of the screen to a course, joints would hide what they lie on. */
const dense = 14;
/** Pixels of the screen that a course's number takes. */
const roomOfNumber = 13;

/**
 * Make what draws over a photo.
 *
 * @param told - Of the photo.
 * @returns What draws.
 */
export function createInk(told: PointedPhoto): Ink {
  const ground = element('ground', SVGGElement);
  const written = element('words', SVGGElement);
  const path = (name: string): SVGElement => {
    const made = draw('path', { class: name, 'vector-effect': 'non-scaling-stroke' });
    ground.append(made);
    return made;
  };
  const found = [path('found under'), path('found')];
  const laid = [path('grid under'), path('grid')];
  const lines = [path('line under'), path('line')];
  const set = (paths: readonly SVGElement[], d: string): void => {
    for (const each of paths) each.setAttribute('d', d);
  };
  const { look } = told;
  set(found, look.ok ? drawJoints(look.value.found, told) : '');
  let words: readonly Word[] = [];
  let view: View = { scale: 1, left: 0, top: 0 };
  const placeWords = (): void => {
    written.replaceChildren(
      ...words.flatMap(({ at, says, of }) => {
        const { x, y } = toScreen(view, at);
        if (of === undefined) {
          return [draw('text', { x: x.toFixed(1), y: (y - 10).toFixed(1) }, says)];
        }
        if ((of.length * view.scale) / of.count < roomOfNumber) return [];
        const place = { x: (x - 6).toFixed(1), y: (y + 4).toFixed(1), class: 'number' };
        return [draw('text', place, says)];
      }),
    );
  };
  return {
    draw: (state, weighed, grid) => {
      set(laid, (grid?.lines ?? []).map(inPath).join(''));
      set(lines, drawMarked(state));
      words = listWords(state, weighed);
      placeWords();
    },
    place: (shown) => {
      view = shown;
      const { scale, left, top } = view;
      ground.classList.toggle('dense', look.ok && scale * look.value.course < dense);
      ground.setAttribute('transform', `matrix(${scale} 0 0 ${scale} ${left} ${top})`);
      placeWords();
    },
    showFound: (shown) => {
      for (const each of found) each.toggleAttribute('hidden', !shown);
    },
  };
}

const inPath = (places: readonly Point[]): string =>
  `M${places.map(({ x, y }) => `${x.toFixed(2)} ${y.toFixed(2)}`).join('L')}`;

function drawMarked(state: State): string {
  const { way, corners, lines, known } = state;
  if (way === 'found') return '';
  const marked = way === 'count' ? lines.slice(0, 1) : lines;
  const spans = way !== 'corners' || known === 'line' ? marked.map(({ span }) => inPath(span)) : [];
  return [...(way === 'corners' ? [`${inPath(corners)}Z`] : []), ...spans].join('');
}

function listWords(state: State, weighed: Weighed): Word[] {
  if (state.way === 'count') {
    const [line] = state.lines;
    return line === undefined ? [] : numberCourses(line, Number(state.courses));
  }
  if (!weighed.ok || !listMarks(state).some(({ of }) => of === 'line')) return [];
  return (weighed.value.spans ?? []).flatMap(({ length }, i) => {
    const line = state.lines[i];
    return line === undefined ? [] : [{ at: middle(line.span), says: formatLength(length) }];
  });
}

function numberCourses({ span }: Line, count: number): Word[] {
  if (!(Number.isInteger(count) && count >= 1 && count <= 200)) return [];
  const [from, to] = span;
  const of = { length: Math.hypot(to.x - from.x, to.y - from.y), count };
  return Array.from({ length: count }, (_, i) => {
    const share = (i + 0.5) / count;
    const at = { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) };
    return { at, says: String(i + 1), of };
  });
}

const middle = ([from, to]: readonly [Point, Point]): Point => ({
  x: (from.x + to.x) / 2,
  y: (from.y + to.y) / 2,
});

function drawJoints(joints: FoundJoints, { photo }: PointedPhoto): string {
  const { axis, beds, perpends } = joints;
  const plane = toPlane(joints, photo);
  const place = (along: number, across: number): Point =>
    axis === 'y' ? { x: across, y: along } : { x: along, y: across };
  return [
    ...beds.map(({ at }) => plane.across(axis, at)),
    ...perpends.map(({ at, from, to }) => plane.line(place(from, at), place(to, at))),
  ]
    .filter(({ length }) => length > 0)
    .map(inPath)
    .join('');
}
