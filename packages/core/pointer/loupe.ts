import type { Point, Size } from '@gaugerod/core/pure';
import { element } from './element.js';
import { dragging, type Mover } from './marks.js';
import { isSameMark, listMarks, type Mark, placeOf, type State } from './state.js';
import { toScreen, type View } from './view.js';

/** What shows the photo about the chosen mark, many times as large. */
export interface Loupe {
  /** Show it as it is now. */
  readonly update: () => void;
}

const corners = ['above left', 'above right', 'below left'] as const;
type Corner = (typeof corners)[number];

/** Pixels of the screen to one of the photo. */
const usual = 10;
const range = { least: 3, most: 30 };

/**
 * Make what shows a small piece of the photo large.
 *
 * @param photo - The picture, and its true size.
 * @param photo.image - Its element in the page; its own pixels may be fewer.
 * @param photo.size - How many columns and rows the photo has, which may be more.
 * @param photo.frameSize - Tells how large the frame is that it lies in.
 * @param mover - What moving a mark by it may ask.
 * @returns To be told of every change.
 */
export function createLoupe(
  photo: {
    readonly image: HTMLImageElement;
    readonly size: Size<number>;
    readonly frameSize: () => Size<number>;
  },
  mover: Mover,
): Loupe {
  const { frameSize } = photo;
  const canvas = element('loupe', HTMLCanvasElement);
  const where = element('where', HTMLParagraphElement);
  const paint = canvas.getContext('2d');
  let times = usual;
  let corner: Corner = 'above left';
  const chooseCorner = (now: Corner, state: State, view: View): Corner => {
    const near = canvas.clientWidth + 44;
    const { width, height } = frameSize();
    const marks = listMarks(state).map((mark) => {
      const { x, y } = toScreen(view, placeOf(state, mark));
      return { x, y, weight: isSameMark(mark, state.chosen) ? 10 : 1 };
    });
    const hides = (of: Corner): number =>
      marks
        .filter(({ x, y }) => {
          const across = of.endsWith('left') ? x : width - x;
          const down = of.startsWith('above') ? y : height - y;
          return across < near && down < near && across > -22 && down > -22;
        })
        .reduce((sum, { weight }) => sum + weight, 0);
    // It stays where it is as long as it hides nothing.
    return hides(now) === 0 ? now : [...corners].sort((a, b) => hides(a) - hides(b))[0]!;
  };
  let picture: CanvasImageSource = photo.image;
  // Decoded once for all: a large photo would be decoded anew with every move.
  const decoded = photo.image.decode().then(() => createImageBitmap(photo.image));
  decoded.then(
    (bitmap) => {
      picture = bitmap;
      update();
    },
    () => undefined,
  );
  const update = (): void => {
    const state = mover.state();
    const isThere = listMarks(state).length > 0;
    canvas.hidden = !isThere;
    where.hidden = !isThere;
    if (!isThere || paint === null) return;
    const place = placeOf(state, state.chosen);
    corner = chooseCorner(corner, state, mover.view());
    for (const shown of [canvas, where]) shown.className = corner;
    where.textContent = `${place.x.toFixed(2)}, ${place.y.toFixed(2)}`;
    const step = photo.image.naturalWidth / photo.size.width;
    const others = neighbours(state, state.chosen);
    show(paint, { picture, step, times, place, others });
  };
  dragging(canvas, {
    begin: () => placeOf(mover.state(), mover.state().chosen),
    // The picture is drawn along under the cross, so the mark goes the other way.
    move: (place, by) => {
      const to = { x: place.x - by.x / times, y: place.y - by.y / times };
      mover.move(mover.state().chosen, to);
      return to;
    },
    end: () => {
      mover.tell(mover.state().chosen);
    },
  });
  canvas.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      event.stopPropagation();
      const wished = times * Math.exp(-event.deltaY / 400);
      times = Math.min(range.most, Math.max(range.least, wished));
      update();
    },
    { passive: false },
  );
  return { update };
}

// What a mark is joined to by a line.
function neighbours(state: State, mark: Mark): Point[] {
  const at = (end: number): Point => placeOf(state, { ...mark, end });
  return mark.of === 'line' ? [at(1 - mark.end)] : [at((mark.end + 1) % 4), at((mark.end + 3) % 4)];
}

interface Shown {
  readonly picture: CanvasImageSource;
  // Pixels of the picture to one of the photo.
  readonly step: number;
  readonly times: number;
  readonly place: Point;
  readonly others: readonly Point[];
}

function show(paint: CanvasRenderingContext2D, shown: Shown): void {
  const { canvas } = paint;
  const { picture, step, times, place, others } = shown;
  const dense = window.devicePixelRatio;
  const side = canvas.clientWidth;
  const dots = Math.round(side * dense);
  if (canvas.width !== dots) [canvas.width, canvas.height] = [dots, dots];
  const style = getComputedStyle(canvas);
  const ink = (name: string): string => style.getPropertyValue(name);
  paint.setTransform(dense, 0, 0, dense, 0, 0);
  paint.fillStyle = ink('--board');
  paint.fillRect(0, 0, side, side);
  const half = side / 2;
  const across = side / times;
  paint.imageSmoothingEnabled = false;
  paint.drawImage(
    picture,
    (place.x - across / 2) * step,
    (place.y - across / 2) * step,
    across * step,
    across * step,
    0,
    0,
    side,
    side,
  );
  const line = (from: Point, to: Point): void => {
    for (const [width, colour] of [
      [4, '--under'],
      [2, '--mark'],
    ] as const) {
      paint.beginPath();
      paint.moveTo(from.x, from.y);
      paint.lineTo(to.x, to.y);
      paint.lineWidth = width;
      paint.strokeStyle = ink(colour);
      paint.stroke();
    }
  };
  for (const other of others) {
    const [x, y] = [other.x - place.x, other.y - place.y];
    const far = Math.hypot(x, y) || 1;
    const at = (r: number): Point => ({ x: half + (r * x) / far, y: half + (r * y) / far });
    line(at(9), at(Math.min(side, far * times)));
  }
  // Open in the middle, where one wants to see.
  for (const [dx, dy] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    line({ x: half + 4 * dx, y: half + 4 * dy }, { x: half + 22 * dx, y: half + 22 * dy });
  }
  line({ x: half - 0.5, y: half }, { x: half + 0.5, y: half });
}
