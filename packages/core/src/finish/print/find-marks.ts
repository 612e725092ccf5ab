import type { Raster } from '../../raster/raster.js';
import { darkMask } from './dark-mask.js';

/** A mark as it shows in a picture. */
export interface FoundMark {
  /** Its middle, px. */
  readonly x: number;
  /** Its middle, px. */
  readonly y: number;
  /** Pixels of its black. */
  readonly area: number;
}

/** A patch of like pixels that touch one another. */
interface Blob {
  area: number;
  sumX: number;
  sumY: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

// Black around white, 100 to 16 mm² of it, seen from aside, blurred, and printed with too much ink.
const leastHole = 0.04;
const mostHole = 0.5;
const leastSide = 10;
const most = 14;

/**
 * Find black squares with a white one in their middle.
 *
 * @param picture - In linear light.
 * @returns The largest that may be marks, largest first, 14 at most.
 */
export function findMarks(picture: Raster): readonly FoundMark[] {
  const { width, height } = picture;
  const mask = darkMask(picture);
  const labels = new Int32Array(width * height);
  const blobs = labelBlobs(mask, labels, width);
  const marks: FoundMark[] = [];
  blobs.forEach((hole, label) => {
    const first = findFirst(labels, hole, label, width);
    if (mask[first] === 1 || hole.left === 0 || hole.top === 0) return;
    // What lies left of a hole's first pixel is black, and belongs to what surrounds it, if anything does.
    const ring = blobs[labels[first - 1]!];
    if (ring === undefined || !isAround(ring, hole)) return;
    const area = ring.area + hole.area;
    marks.push({
      x: (ring.sumX + hole.sumX) / area + 0.5,
      y: (ring.sumY + hole.sumY) / area + 0.5,
      area: ring.area,
    });
  });
  return marks.sort((one, other) => other.area - one.area).slice(0, most);
}

function isAround(ring: Blob, hole: Blob): boolean {
  const [width, height] = [ring.right - ring.left + 1, ring.bottom - ring.top + 1];
  const share = hole.area / ring.area;
  if (Math.min(width, height) < leastSide || share < leastHole || share > mostHole) return false;
  if (Math.max(width, height) > 3 * Math.min(width, height)) return false;
  // A square that stands on its corner covers half of the box around it.
  if (ring.area + hole.area < 0.4 * width * height) return false;
  const isInside =
    hole.left > ring.left &&
    hole.right < ring.right &&
    hole.top > ring.top &&
    hole.bottom < ring.bottom;
  const off = Math.hypot(
    hole.sumX / hole.area - ring.sumX / ring.area,
    hole.sumY / hole.area - ring.sumY / ring.area,
  );
  return isInside && off < 0.12 * Math.max(width, height);
}

function findFirst(
  labels: Int32Array,
  { left, right, top }: Blob,
  label: number,
  width: number,
): number {
  for (let x = left; x <= right; x++) if (labels[top * width + x] === label) return top * width + x;
  throw new Error('a blob without its first row');
}

// Two passes: runs that touch in two rows are one blob.
function labelBlobs(mask: Uint8Array, labels: Int32Array, width: number): readonly Blob[] {
  const parents: number[] = [];
  const rootOf = (label: number): number => {
    let root = label;
    while (parents[root] !== root) root = parents[root]!;
    while (parents[label] !== root) [label, parents[label]] = [parents[label]!, root];
    return root;
  };
  for (let i = 0; i < mask.length; i++) {
    const before = i % width > 0 && mask[i - 1] === mask[i] ? labels[i - 1]! : -1;
    const above = i >= width && mask[i - width] === mask[i] ? labels[i - width]! : -1;
    if (before < 0 && above < 0) labels[i] = parents.push(parents.length) - 1;
    else if (before < 0 || above < 0) labels[i] = Math.max(before, above);
    else {
      const [one, other] = [rootOf(before), rootOf(above)];
      labels[i] = Math.min(one, other);
      parents[Math.max(one, other)] = labels[i]!;
    }
  }
  return measureBlobs(
    labels,
    parents.map((_, label) => rootOf(label)),
    width,
  );
}

function measureBlobs(
  labels: Int32Array,
  roots: readonly number[],
  width: number,
): readonly Blob[] {
  const numbers = new Map<number, number>();
  const blobs: Blob[] = [];
  for (let i = 0; i < labels.length; i++) {
    const root = roots[labels[i]!]!;
    const [x, y] = [i % width, Math.floor(i / width)];
    let number = numbers.get(root);
    if (number === undefined) {
      number = blobs.push({ area: 0, sumX: 0, sumY: 0, left: x, right: x, top: y, bottom: y }) - 1;
      numbers.set(root, number);
    }
    labels[i] = number;
    const blob = blobs[number]!;
    blob.area++;
    blob.sumX += x;
    blob.sumY += y;
    blob.left = Math.min(blob.left, x);
    blob.right = Math.max(blob.right, x);
    blob.bottom = y;
  }
  return blobs;
}
