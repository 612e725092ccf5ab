import { srgbToLinear } from '../../colour/srgb.js';
import type { Box } from '../../page/page.js';
import { createRaster, type Raster } from '../../raster/raster.js';
import {
  codeCells,
  markCentres,
  markHole,
  markSide,
  patchBox,
  stripSize,
  toCode,
} from './strip-layout.js';
import { type SentColour, stripPatches, stripVersion } from './strip-patches.js';

/** Dots of the strip's picture to a millimetre: every edge in it falls between two of them. */
export const stripDotsPerMm = 10;

const black: SentColour = [0, 0, 0];
const white: SentColour = [255, 255, 255];

/**
 * Draw the test strip: patches of known colours on white, a mark in each corner, and a code that tells which
 * strip it is and which side is up.
 *
 * @returns The picture, 10 dots to the millimetre.
 */
export function drawStrip(): Raster {
  const { width, height } = stripSize;
  const raster = createRaster(width * stripDotsPerMm, height * stripDotsPerMm);
  fillBox(raster, { x: 0, y: 0, width, height }, white);
  for (const { x, y } of markCentres) {
    for (const [side, colour] of [
      [markSide, black],
      [markHole, white],
    ] as const) {
      fillBox(raster, { x: x - side / 2, y: y - side / 2, width: side, height: side }, colour);
    }
  }
  toCode(stripVersion).forEach((isBlack, i) => {
    const box = codeCells[i];
    if (isBlack && box) fillBox(raster, box, black);
  });
  stripPatches.forEach((colour, i) => {
    fillBox(raster, patchBox(i), colour);
  });
  return raster;
}

function fillBox({ width: stride, planes }: Raster, box: Box, colour: SentColour): void {
  const dots = (mm: number): number => Math.round(mm * stripDotsPerMm);
  const [left, right] = [dots(box.x), dots(box.x + box.width)];
  planes.forEach((plane, channel) => {
    const light = srgbToLinear(colour[channel] ?? 0);
    for (let y = dots(box.y); y < dots(box.y + box.height); y++) {
      plane.fill(light, y * stride + left, y * stride + right);
    }
  });
}
