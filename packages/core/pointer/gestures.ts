import type { Point } from '@gaugerod/core/pure';

/** What comes of hands on the photo. */
export interface Gestures {
  /**
   * Draw the photo along.
   *
   * @param by - So far, in pixels of the screen.
   */
  readonly drag: (by: Point) => void;
  /**
   * Come nearer.
   *
   * @param by - More than 1; less to go back.
   * @param at - The place in the frame that stays where it is.
   */
  readonly nearer: (by: number, at: Point) => void;
}

/** How much a notch of a wheel brings nearer. */
const wheelStep = 500;

/**
 * Listen to mouse, pen, fingers and wheel on the photo.
 *
 * @param frame - What it is shown in.
 * @param gestures - What comes of them.
 */
export function listenToGestures(frame: HTMLElement, gestures: Gestures): void {
  const held = new Map<number, Point>();
  const inFrame = ({ x, y }: Point): Point => {
    const { left, top } = frame.getBoundingClientRect();
    return { x: x - left, y: y - top };
  };
  frame.addEventListener('pointerdown', (event) => {
    if (event.button !== 0 || (event.target as Element).closest('button') !== null) return;
    frame.setPointerCapture(event.pointerId);
    held.set(event.pointerId, { x: event.clientX, y: event.clientY });
    frame.classList.add('held');
  });
  frame.addEventListener('pointermove', (event) => {
    const last = held.get(event.pointerId);
    if (last === undefined) return;
    const now = { x: event.clientX, y: event.clientY };
    const other = [...held].find(([pointer]) => pointer !== event.pointerId)?.[1];
    held.set(event.pointerId, now);
    // Two fingers: half of what one of them does is done by both.
    const share = other === undefined ? 1 : 0.5;
    gestures.drag({ x: share * (now.x - last.x), y: share * (now.y - last.y) });
    if (other === undefined) return;
    const apart = (p: Point): number => Math.max(1, Math.hypot(p.x - other.x, p.y - other.y));
    const between = { x: (now.x + other.x) / 2, y: (now.y + other.y) / 2 };
    gestures.nearer(apart(now) / apart(last), inFrame(between));
  });
  const end = (event: PointerEvent): void => {
    held.delete(event.pointerId);
    frame.classList.toggle('held', held.size > 0);
  };
  frame.addEventListener('pointerup', end);
  frame.addEventListener('pointercancel', end);
  frame.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
      const by = Math.exp((-event.deltaY * lines) / wheelStep);
      gestures.nearer(by, inFrame({ x: event.clientX, y: event.clientY }));
    },
    { passive: false },
  );
}
