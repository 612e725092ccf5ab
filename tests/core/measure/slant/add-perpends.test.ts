import { expect, test } from 'vitest';
import { addPerpends } from '../../../../packages/core/src/measure/slant/add-perpends.js';

type Vector = readonly [number, number, number];

const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

// A photo cut so that the camera looked straight at a point right of its middle and above it, in
// units of half its diagonal: x to the right, y down, z ahead.
const focal = 1.4;
const ahead = { u: 0.3, v: -0.2 };

// The wall: along its beds and down it, both of length 1; three units off, with courses of 0.08.
const bed: Vector = [14 / 15, 2 / 15, 5 / 15];
const down: Vector = [-1 / 3, 2 / 3, 2 / 3];
const off = cross(bed, down);
const far = 3;
const course = 0.08;

// A point P of the wall has off . P = far, and is seen where its ray meets the photo: on the ray
// through (u, v), ((u - ahead.u) / focal, (v - ahead.v) / focal, 1), it lies down . P / course courses
// down. Both are linear in u and v, so courses are (a u + b v + c) / (1 + g u + h v).
// Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd ed., 6.1 and 8.1.
function toNumbers(): Float64Array {
  const linear = (axis: Vector): Vector => [
    axis[0] / focal,
    axis[1] / focal,
    axis[2] - (axis[0] * ahead.u + axis[1] * ahead.v) / focal,
  ];
  const [g, h, one] = linear(off);
  const [a, b, c] = linear(down);
  const times = far / course / one;
  return Float64Array.of(
    ...[a * times, b * times, c * times, g / one, h / one, 0, Math.log(focal), 0],
    ...[ahead.u, ahead.v, 0, 0],
  );
}

// All perpends point to one place, where the wall's own down meets the photo: the same, 8.6.
const perpends = [
  [-0.7, -0.4],
  [-0.1, 0.5],
  [0, 0],
  [0.4, -0.3],
  [0.7, 0.5],
].map(([u = 0, v = 0]) => {
  const meet = {
    u: ahead.u + (focal * down[0]) / down[2],
    v: ahead.v + (focal * down[1]) / down[2],
  };
  return { u, v, slope: (meet.u - u) / (meet.v - v), weight: 6 };
});

const size = 12;

function add(theta: Float64Array): { readonly normal: Float64Array; readonly right: Float64Array } {
  const system = { normal: new Float64Array(size * size), right: new Float64Array(size) };
  addPerpends(perpends, theta, system);
  return system;
}

test('perpends of a photo that was cut on one side lie where the camera saw them', () => {
  const { normal, right } = add(toNumbers());
  // Each pulls by its misfit, and there is none.
  for (const [p, pull] of right.entries()) {
    expect(Math.abs(pull)).toBeLessThanOrEqual(1e-9 * Math.max(1, normal[p * size + p]!));
  }
});

test.each([
  ['horizon across', 3, 0.002],
  ['horizon down', 4, 0.002],
  ['place straight ahead, across', 8, 0.004],
  ['place straight ahead, down', 9, 0.004],
])('perpends pull a wrong %s right', (_, p, wrong) => {
  const theta = toNumbers();
  theta[p]! += wrong;
  const { normal, right } = add(theta);
  // One step of least squares along that number alone; what is left is of second order.
  const step = right[p]! / normal[p * size + p]!;
  expect(Math.abs(step / wrong + 1)).toBeLessThan(0.05);
});
