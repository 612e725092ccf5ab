import type { Point } from '@gaugerod/core/pure';
import { element, make } from './element.js';
import { isSameMark, listMarks, type Mark, nameMark, placeOf, type State } from './state.js';
import { toScreen, type View } from './view.js';

/** What moving marks may ask of the page. */
export interface Mover {
  /**
   * Tell what was said so far.
   *
   * @returns It.
   */
  readonly state: () => State;
  /**
   * Tell how the photo is shown.
   *
   * @returns It.
   */
  readonly view: () => View;
  /**
   * Put a mark elsewhere.
   *
   * @param mark - Which.
   * @param to - In pixels of the photo.
   */
  readonly move: (mark: Mark, to: Point) => void;
  /**
   * Bring a mark under the loupe.
   *
   * @param mark - Which.
   */
  readonly choose: (mark: Mark) => void;
  /**
   * Bring a mark into sight.
   *
   * @param mark - Which.
   */
  readonly reveal: (mark: Mark) => void;
  /**
   * Tell where a mark has come to lie.
   *
   * @param mark - Which.
   */
  readonly tell: (mark: Mark) => void;
}

/** How far an arrow key moves a mark, in pixels of the photo. */
const steps = { usual: 1, fine: 0.1, coarse: 10 };

const arrows: Readonly<Record<string, Point | undefined>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** The marks on the photo, as buttons that a keyboard reaches. */
export interface Marks {
  /** Show them as they are now. */
  readonly update: () => void;
}

/**
 * Make the marks on the photo.
 *
 * @param mover - What moving them may ask.
 * @returns What shows them.
 */
export function createMarks(mover: Mover): Marks {
  const layer = element('marks', HTMLDivElement);
  let shown: { readonly mark: Mark; readonly button: HTMLButtonElement }[] = [];
  const add = (mark: Mark): (typeof shown)[number] => {
    const button = make('button', { type: 'button', class: `mark ${mark.of}` });
    button.setAttribute('aria-describedby', 'how');
    button.setAttribute('aria-roledescription', 'mark on the photo');
    layer.append(button);
    button.addEventListener('focus', () => {
      mover.choose(mark);
      mover.reveal(mark);
    });
    button.addEventListener('keydown', (event) => {
      moveByKey(event, mark, mover);
    });
    dragByPointer(button, mark, mover);
    return { mark, button };
  };
  return {
    update: () => {
      const state = mover.state();
      const marks = listMarks(state);
      const same =
        marks.length === shown.length &&
        shown.every(({ mark }, i) => marks[i] !== undefined && isSameMark(mark, marks[i]));
      if (!same) {
        layer.replaceChildren();
        shown = marks.map(add);
      }
      for (const { mark, button } of shown) {
        const place = placeOf(state, mark);
        const { x, y } = toScreen(mover.view(), place);
        button.style.transform = `translate(${x}px, ${y}px)`;
        button.classList.toggle('chosen', isSameMark(mark, state.chosen));
        const name = `${nameMark(mark, state.lines.length)}, ${place.x} across, ${place.y} down`;
        if (button.getAttribute('aria-label') !== name) button.setAttribute('aria-label', name);
      }
    },
  };
}

function moveByKey(event: KeyboardEvent, mark: Mark, mover: Mover): void {
  const arrow = arrows[event.key];
  if (arrow === undefined || event.altKey || event.metaKey) return;
  event.preventDefault();
  const step = event.shiftKey ? steps.fine : event.ctrlKey ? steps.coarse : steps.usual;
  const { x, y } = placeOf(mover.state(), mark);
  mover.move(mark, { x: x + step * arrow.x, y: y + step * arrow.y });
  mover.reveal(mark);
  mover.tell(mark);
}

function dragByPointer(button: HTMLElement, mark: Mark, mover: Mover): void {
  dragging(button, {
    begin: () => {
      button.focus({ preventScroll: true });
      mover.choose(mark);
      return placeOf(mover.state(), mark);
    },
    // Held where it was taken: a finger need not hide it.
    move: (place, by, { shiftKey }) => {
      const step = (shiftKey ? steps.fine : 1) / mover.view().scale;
      const to = { x: place.x + step * by.x, y: place.y + step * by.y };
      mover.move(mark, to);
      return to;
    },
    end: () => {
      mover.tell(mark);
    },
  });
}

/** What is dragged, and how. */
export interface Dragged {
  /**
   * Begin.
   *
   * @returns Where it is, in pixels of the photo.
   */
  readonly begin: () => Point;
  /**
   * Go on.
   *
   * @param place - Where it was.
   * @param by - How far the pointer went, in pixels of the screen.
   * @param event - Of the pointer.
   * @returns Where it is now.
   */
  readonly move: (place: Point, by: Point, event: PointerEvent) => Point;
  /** Let go. */
  readonly end: () => void;
}

/**
 * Let something be dragged by mouse, pen or finger.
 *
 * @param target - What is taken hold of.
 * @param dragged - What comes of it.
 */
export function dragging(target: HTMLElement, dragged: Dragged): void {
  let held: { readonly pointer: number; last: Point; place: Point } | null = null;
  target.addEventListener('pointerdown', (event) => {
    if (held !== null || event.button !== 0) return;
    event.preventDefault();
    event.stopPropagation();
    target.setPointerCapture(event.pointerId);
    const last = { x: event.clientX, y: event.clientY };
    held = { pointer: event.pointerId, last, place: dragged.begin() };
  });
  target.addEventListener('pointermove', (event) => {
    if (held?.pointer !== event.pointerId) return;
    const by = { x: event.clientX - held.last.x, y: event.clientY - held.last.y };
    held.last = { x: event.clientX, y: event.clientY };
    held.place = dragged.move(held.place, by, event);
  });
  const end = (event: PointerEvent): void => {
    if (held?.pointer !== event.pointerId) return;
    held = null;
    dragged.end();
  };
  target.addEventListener('pointerup', end);
  target.addEventListener('pointercancel', end);
}
