import { encodeSrgb, encodeSrgbRun, srgbToLinear } from '../../colour/srgb.js';
import { type Box, paleGrey, type PlacedPicture } from '../../page/page.js';
import { resampleLines } from '../../raster/resample-raster.js';
import { toLightLines } from '../../raster/stored-picture.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import type { PageBytes } from './draw-line.js';
import type { PageLayer } from './lay-drawing.js';
import type { PagePicture } from './page-picture.js';
import { openStretches, type Stretch, type Stretches } from './picture-stretches.js';

// Rows of the page that are made at a time.
const band = 128;

/**
 * Ready a part that is a picture to be laid on a page that is one, some rows at a time. Made for the page's
 * resolution it is copied dot by dot, laid on the nearest whole one; else it is resampled in linear light, and
 * each dot shows what lies there, whatever pixel the piece begins in.
 *
 * @param placed - What of the picture the page shows, and how that lies.
 * @param picture - The part.
 * @param perMm - Dots to a mm of the page.
 * @returns What draws it.
 */
export function layPicture(
  placed: PlacedPicture,
  picture: PagePicture,
  perMm: PerAxis<number>,
): PageLayer {
  const dots = dotsOf(placed.box, perMm);
  const shown = placed.blank ? picture.shape : picture.bytes;
  const lie = lieOf(placed, picture, { perMm, dots });
  const take = shown && openStretches(shown, picture.pixels, placed);
  return async (page, top) => {
    const end = Math.min(top + page.height, dots.y + dots.height);
    for (let from = Math.max(top, dots.y); from < end; from += band) {
      const count = Math.min(band, end - from);
      const rows = take && (await makeRows(take, placed, { lie, first: from - dots.y, count }));
      copyRows(page, { ...dots, y: from - top, height: count }, rows);
    }
    if (end === dots.y + dots.height) take?.close();
  };
}

// On the nearest whole ones.
function dotsOf({ x, y, width, height }: Box, perMm: PerAxis<number>): Box {
  return {
    x: Math.round(x * perMm.x),
    y: Math.round(y * perMm.y),
    width: Math.max(1, Math.round(width * perMm.x)),
    height: Math.max(1, Math.round(height * perMm.y)),
  };
}

function copyRows(page: PageBytes, dots: Box, rows: Uint8Array | null): void {
  const stride = 3 * dots.width;
  for (let i = 0; i < dots.height; i++) {
    const at = 3 * ((dots.y + i) * page.width + dots.x);
    if (rows === null) page.bytes.fill(paleGrey, at, at + stride);
    else page.bytes.set(rows.subarray(i * stride, (i + 1) * stride), at);
  }
}

// Along one axis of the picture: where the dots that show it begin, in its pixels, and how many there are.
interface Span {
  readonly from: number;
  readonly perDot: number;
  readonly count: number;
}

interface Laying {
  readonly perMm: PerAxis<number>;
  readonly dots: Box;
}

// In the picture's own axes: its left is on top of the page where it lies on its side.
function lieOf(
  { box, piece, turned, mirrored }: PlacedPicture,
  { pixels, size, at }: PagePicture,
  { perMm, dots }: Laying,
): PerAxis<Span> {
  const pxPerMm = { x: pixels.width / size.width, y: pixels.height / size.height };
  // By how much of a mm the dots begin, or, seen from there, end inside the piece.
  const left = dots.x / perMm.x - box.x;
  const right = box.x + box.width - (dots.x + dots.width) / perMm.x;
  const top = dots.y / perMm.y - box.y;
  const foot = box.y + box.height - (dots.y + dots.height) / perMm.y;
  const [first, last] = turned ? [top, foot] : [left, right];
  const upper = turned ? right : top;
  const [across, down] = turned ? [perMm.y, perMm.x] : [perMm.x, perMm.y];
  const from = {
    x: (piece.x + (mirrored ? last : first) - at.x) * pxPerMm.x,
    y: (piece.y + upper - at.y) * pxPerMm.y,
  };
  const counts = turned ? [dots.height, dots.width] : [dots.width, dots.height];
  const [columns = 1, rows = 1] = counts;
  return {
    x: spanOf({ from: from.x, perDot: pxPerMm.x / across, count: columns }, pixels.width),
    y: spanOf({ from: from.y, perDot: pxPerMm.y / down, count: rows }, pixels.height),
  };
}

// Where a pixel is a dot, all over the piece, pixels lie on dots. What rounding leaves bare is made of the edge.
function spanOf({ from, perDot, count }: Span, length: number): Span {
  const isCopied = Math.abs(perDot - 1) * count < 0.5 && count <= length;
  if (isCopied) {
    return { from: Math.min(length - count, Math.max(0, Math.round(from))), perDot: 1, count };
  }
  const bare = 0.49 * perDot;
  const last = length + bare - count * perDot;
  if (last < -bare) return { from: 0, perDot: length / count, count };
  return { from: Math.min(last, Math.max(-bare, from)), perDot, count };
}

interface Wanted {
  readonly lie: PerAxis<Span>;
  /** Of the page's rows that show the picture. */
  readonly first: number;
  readonly count: number;
}

// As they lie on the page, RGBRGB…
async function makeRows(
  take: Stretches,
  { turned, mirrored }: PlacedPicture,
  { lie, first, count }: Wanted,
): Promise<Uint8Array> {
  const begin = turned && mirrored ? lie.x.count - first - count : first;
  const across = turned ? partOf(lie.x, begin, count) : lie.x;
  const down = turned ? lie.y : partOf(lie.y, begin, count);
  const made = await makeDots(take, across, down);
  if (!turned && !mirrored) return made;
  return turnDots(made, { width: across.count, height: down.count }, { turned, mirrored });
}

function partOf({ from, perDot }: Span, begin: number, count: number): Span {
  return { from: from + begin * perDot, perDot, count };
}

async function makeDots(take: Stretches, across: Span, down: Span): Promise<Uint8Array> {
  const isCopied = across.perDot === 1 && down.perDot === 1;
  const around = isCopied ? () => 0 : ({ perDot }: Span) => Math.ceil(3 * Math.max(1, perDot)) + 1;
  const [columns, rows] = [reach(across, around(across)), reach(down, around(down))];
  const stretch = await take({
    x: columns.from,
    y: rows.from,
    width: columns.length,
    height: rows.length,
  });
  const { x, y, width, height, samples } = stretch;
  const size = { width: across.count, height: down.count };
  if (isCopied) {
    return copyDots(stretch, { ...size, x: across.from - x, y: down.from - y });
  }
  const raster = resampleLines(toLightLines({ width, height, samples }), {
    ...size,
    window: {
      x: across.from - x,
      y: down.from - y,
      width: across.count * across.perDot,
      height: down.count * down.perDot,
    },
  });
  return encodeSrgbRun(raster.planes, 0, new Uint8Array(3 * size.width * size.height));
}

function reach(
  { from, perDot, count }: Span,
  around: number,
): { readonly from: number; readonly length: number } {
  const first = Math.floor(from + 1e-6) - around;
  return { from: first, length: Math.ceil(from + count * perDot - 1e-6) + around - first };
}

function copyDots({ width, channels, samples }: Stretch, box: Box): Uint8Array {
  const out = new Uint8Array(3 * box.width * box.height);
  for (let row = 0; row < box.height; row++) {
    const at = channels * ((box.y + row) * width + box.x);
    const dots = samples.subarray(at, at + channels * box.width);
    const to = out.subarray(3 * row * box.width, 3 * (row + 1) * box.width);
    if (channels === 3) to.set(dots);
    else flatten(dots, to);
  }
  return out;
}

// On white paper, in linear light.
function flatten(dots: Uint8Array, out: Uint8Array): void {
  for (let at = 0, to = 0; at < dots.length; at += 4, to += 3) {
    const alpha = dots[at + 3]!;
    if (alpha === 0) out.fill(255, to, to + 3);
    else if (alpha === 255) {
      out[to] = dots[at]!;
      out[to + 1] = dots[at + 1]!;
      out[to + 2] = dots[at + 2]!;
    } else {
      const white = 1 - alpha / 255;
      for (let i = 0; i < 3; i++) {
        out[to + i] = encodeSrgb(srgbToLinear(dots[at + i]!) * (1 - white) + white);
      }
    }
  }
}

// Right and left changed about, then the left edge on top.
function turnDots(
  made: Uint8Array,
  { width, height }: Size<number>,
  { turned, mirrored }: Pick<PlacedPicture, 'turned' | 'mirrored'>,
): Uint8Array {
  const out = new Uint8Array(made.length);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at += 3) {
      const across = mirrored ? width - 1 - x : x;
      const to = 3 * (turned ? across * height + height - 1 - y : y * width + across);
      out[to] = made[at]!;
      out[to + 1] = made[at + 1]!;
      out[to + 2] = made[at + 2]!;
    }
  }
  return out;
}
