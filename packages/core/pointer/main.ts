import { type Point, type PointedPhoto, sidecarPath } from '@gaugerod/core/pure';
import { element, make } from './element.js';
import { listenToGestures } from './gestures.js';
import { type Grid, toGrid } from './grid.js';
import { createInk } from './ink.js';
import { createLoupe } from './loupe.js';
import { createMarks, type Mover } from './marks.js';
import { createPanel, toSurfaceFile } from './panel.js';
import {
  listMarks,
  moveMark,
  nameMark,
  notesOf,
  placeOf,
  startState,
  type State,
} from './state.js';
import { keepInSight, toScreen, type View, viewAbout, viewNearer, viewWhole } from './view.js';
import { weigh, type Weighed } from './weigh.js';
import { scaleInWords, unsureInWords } from './words.js';

const told = JSON.parse(element('told', HTMLScriptElement).text) as PointedPhoto;
const image = element('photo', HTMLImageElement);
const frame = element('view', HTMLDivElement);
const { photo } = told;

let state = startState(told);
let view: View = { scale: 1, left: 0, top: 0 };
let untouched = true;
let weighed: Weighed = weigh(state, told);

const size = (): { width: number; height: number } => ({
  width: frame.clientWidth,
  height: frame.clientHeight,
});

function change(what: Partial<State>): void {
  state = { ...state, ...what };
  weighed = weigh(state, told);
  show();
}

const said = element('said', HTMLParagraphElement);
let saying: ReturnType<typeof setTimeout> | undefined;

// What a hand does quickly is told once it rests.
function say(text: string): void {
  clearTimeout(saying);
  saying = setTimeout(() => (said.textContent = text), 350);
}

const mover: Mover = {
  state: () => state,
  view: () => view,
  move: (mark, to) => {
    change(moveMark(state, mark, to, photo));
  },
  choose: (mark) => {
    change({ chosen: mark });
  },
  reveal: (mark) => {
    const place = placeOf(state, mark);
    const { x, y } = toScreen(view, place);
    const { width, height } = size();
    const isSeen = x >= 0 && y >= 0 && x <= width && y <= height;
    if (!isSeen) look(viewAbout(place, view.scale, size()));
  },
  tell: (mark) => {
    const { x, y } = placeOf(state, mark);
    const scale = weighed.ok
      ? `; ${scaleInWords(weighed.value)} a pixel, give or take ${unsureInWords(weighed.value)}`
      : '';
    say(`${nameMark(mark, state.lines.length)} at ${x}, ${y}${scale}`);
  },
};

element('name', HTMLHeadingElement).textContent = photo.file;
image.alt = `${photo.file}, to be measured`;
image.style.width = `${photo.width}px`;
image.style.height = `${photo.height}px`;
const { shown } = told;
const copied =
  shown.width === photo.width ? 'all of it' : `made smaller, ${shown.width} × ${shown.height} px,`;
element('about', HTMLParagraphElement).textContent =
  `${photo.width} × ${photo.height} px; ${copied} in this page, without the camera’s notes`;

const ink = createInk(told);
const panel = createPanel(told, { state: () => state, change, say, show });
const marks = createMarks(mover);
const loupe = createLoupe({ image, size: photo, frameSize: size }, mover);
const grid = element('grid', HTMLInputElement);
const joints = element('joints', HTMLInputElement);
const jointsTick = element('joints-tick', HTMLLabelElement);

function show(): void {
  const laid = toLaid();
  ink.draw(state, weighed, grid.checked ? laid : null);
  ink.showFound(joints.checked);
  jointsTick.hidden = !told.look.ok;
  panel.update(weighed, laid);
  element('readout', HTMLParagraphElement).textContent = weighed.ok
    ? `${scaleInWords(weighed.value)} a pixel ± ${unsureInWords(weighed.value)}`
    : '';
  placeMarks();
}

function toLaid(): Grid | null {
  if (!weighed.ok) return null;
  return toGrid(weighed.value, photo, firstPlace());
}

function firstPlace(): Point {
  const [first] = listMarks(state);
  return first === undefined ? { x: 0, y: 0 } : placeOf(state, first);
}

function placeMarks(): void {
  marks.update();
  loupe.update();
}

function look(asked: View, byHand = true): void {
  if (byHand) untouched = false;
  view = keepInSight(asked, size(), photo);
  const { scale, left, top } = view;
  image.style.transform = `translate(${left}px, ${top}px) scale(${scale})`;
  // Past this one wants to see pixels.
  image.classList.toggle('pixels', scale * (photo.width / shown.width) >= 4);
  ink.place(view);
  placeMarks();
}

const whole = (): View => viewWhole(size(), photo);

function nearer(by: number, at: Point): void {
  look(viewNearer(view, by, at, whole().scale));
}

const middle = (): Point => ({ x: frame.clientWidth / 2, y: frame.clientHeight / 2 });

listenToGestures(frame, {
  drag: ({ x, y }) => {
    look({ ...view, left: view.left + x, top: view.top + y });
  },
  nearer,
});
element('larger', HTMLButtonElement).addEventListener('click', () => {
  nearer(1.6, middle());
});
element('smaller', HTMLButtonElement).addEventListener('click', () => {
  nearer(1 / 1.6, middle());
});
element('whole', HTMLButtonElement).addEventListener('click', () => {
  look(whole());
  untouched = true;
});
element('close', HTMLButtonElement).addEventListener('click', () => {
  const near = listMarks(state).length > 0 ? placeOf(state, state.chosen) : null;
  look(near === null ? viewNearer(view, 1 / view.scale, middle(), 1) : viewAbout(near, 1, size()));
});
element('save', HTMLButtonElement).addEventListener('click', () => {
  if (!weighed.ok) return;
  const text = toSurfaceFile(weighed.value, told, notesOf(state));
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  make('a', { href: address, download: sidecarPath(photo.file) }).click();
  say('saved');
});

new ResizeObserver(() => {
  look(untouched ? whole() : view, false);
}).observe(frame);
look(whole(), false);
show();
