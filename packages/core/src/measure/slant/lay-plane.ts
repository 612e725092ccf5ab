import type { Homography } from '../../numeric/homography.js';
import { multiplyHomographies } from '../../numeric/multiply-homographies.js';
import type { Size } from '../../units/parse-size.js';

/** How a level wall lies before the camera, in units of half the photo's diagonal from its middle. */
export interface Stand {
  /** Slope of the bed joint through the middle: down for each step to the right. */
  readonly slope: number;
  /** The wall's horizon is where `1 + across u + down v` is 0; both 0 where the camera stands square. */
  readonly across: number;
  /** The same, down. */
  readonly down: number;
  /** Focal length. */
  readonly focal: number;
  /** Where the camera looked straight ahead; both 0 unless the photo was cut since. */
  readonly ahead: Ahead;
}

/** A place in the photo, in units of half its diagonal from its middle. */
interface Ahead {
  /** To the right. */
  readonly u: number;
  /** Down. */
  readonly v: number;
}

type Vector = readonly [number, number, number];

const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (a: Vector): Vector => {
  const size = Math.hypot(...a);
  return [a[0] / size, a[1] / size, a[2] / size];
};

/** The wall's own axes as the camera sees them: along the beds, square to them, and off the wall. */
export interface WallAxes {
  /** Along the bed joints, to the right. */
  readonly bed: Vector;
  /** In the wall, square to them, down. */
  readonly fall: Vector;
  /** Off the wall. */
  readonly normal: Vector;
}

/**
 * Find a wall's axes in space from how it lies in the picture.
 *
 * @param stand - How it lies.
 * @returns Three unit vectors, square to one another.
 * @see R. Hartley and A. Zisserman, Multiple View Geometry in Computer Vision, 8.6: a plane's
 *   horizon gives its normal, a line's vanishing point its direction
 */
export function toWallAxes(stand: Stand): WallAxes {
  const { slope, across, down, focal, ahead } = stand;
  const normal = unit([focal * across, focal * down, 1 + across * ahead.u + down * ahead.v]);
  const last = -(across + down * slope);
  const bed = unit([(1 - ahead.u * last) / focal, (slope - ahead.v * last) / focal, last]);
  return { bed, fall: cross(normal, bed), normal };
}

/**
 * Find the homography that makes a wall level and square. It leaves the photo's middle where it is
 * and, over a small spot there, its area.
 *
 * @param stand - How the wall lies.
 * @param size - The photo, in pixels.
 * @returns From photo to level picture, lens aside.
 */
export function layPlane(stand: Stand, size: Size<number>): Homography {
  const { bed, fall, normal } = toWallAxes(stand);
  const { focal, ahead } = stand;
  const [x, y, r] = [size.width / 2, size.height / 2, Math.hypot(size.width, size.height) / 2];
  const seen = ([a, b, c]: Vector): Vector => [
    a / focal,
    b / focal,
    c - (a * ahead.u + b * ahead.v) / focal,
  ];
  const toWall: Homography = [...seen(bed), ...seen(fall), ...seen(normal)];
  const last = toWall[8];
  const middle = { x: toWall[2] / last, y: toWall[5] / last };
  const area =
    ((toWall[0] - middle.x * toWall[6]) * (toWall[4] - middle.y * toWall[7]) -
      (toWall[1] - middle.x * toWall[7]) * (toWall[3] - middle.y * toWall[6])) /
    (last * last);
  const scale = 1 / Math.sqrt(area);
  const out: Homography = [
    r * scale,
    0,
    x - r * scale * middle.x,
    0,
    r * scale,
    y - r * scale * middle.y,
    0,
    0,
    1,
  ];
  const full = multiplyHomographies(
    out,
    multiplyHomographies(toWall, [1 / r, 0, -x / r, 0, 1 / r, -y / r, 0, 0, 1]),
  );
  const at = full[6] * x + full[7] * y + full[8];
  return [
    full[0] / at,
    full[1] / at,
    full[2] / at,
    full[3] / at,
    full[4] / at,
    full[5] / at,
    full[6] / at,
    full[7] / at,
    full[8] / at,
  ];
}
