import { createRaster, type Raster } from '../../raster/raster.js';
import type { Courses } from '../see-mortar.js';
import { seeMortar } from '../see-mortar.js';

/** A photo whose light is to be that of another. */
export interface LitPhoto {
  /** In linear light. */
  readonly raster: Raster;
  /** Where its courses lie, or null. */
  readonly courses: Courses | null;
}

// A photo's spread of colour is stretched or shrunk by this much at most.
const mostStretch = 2;

/**
 * Give a photo the light and colour of another: the same mean and spread, channel by channel, of
 * bricks and of mortar, each for itself.
 *
 * @param photo - To be changed.
 * @param model - To be like.
 * @returns A raster of its own.
 * @see Reinhard, Ashikhmin, Gooch and Shirley 2001, Color transfer between images
 */
export function matchLight(photo: LitPhoto, model: LitPhoto): Raster {
  const { raster } = photo;
  const share = mortarShare(photo);
  const modelShare = mortarShare(model);
  const out = createRaster(raster.width, raster.height);
  for (let channel = 0; channel < 3; channel++) {
    const from = raster.planes[channel]!;
    const like = model.raster.planes[channel]!;
    const brick = curve(momentsOf(from, share, false), momentsOf(like, modelShare, false));
    const mortar = curve(momentsOf(from, share, true), momentsOf(like, modelShare, true));
    const to = out.planes[channel]!;
    for (let i = 0; i < to.length; i++) {
      const root = from[i]! > 0 ? Math.sqrt(from[i]!) : 0;
      const part = share === null ? 0 : Math.min(1, Math.max(0, share[i]!));
      const value =
        (1 - part) * (brick.offset + brick.gain * root) +
        part * (mortar.offset + mortar.gain * root);
      to[i] = value > 0 ? value * value : 0;
    }
  }
  return out;
}

function mortarShare({ raster, courses }: LitPhoto): Float32Array | null {
  return courses === null ? null : seeMortar(raster, courses).likeness;
}

interface Moments {
  readonly mean: number;
  readonly spread: number;
}

function momentsOf(plane: Float32Array, share: Float32Array | null, joint: boolean): Moments {
  let [sum, squares, count] = [0, 0, 1e-9];
  for (let i = 0; i < plane.length; i++) {
    const mortar = share === null ? joint : share[i]! > 0.5;
    if (mortar !== joint && share !== null) continue;
    const light = Math.max(0, plane[i]!);
    sum += Math.sqrt(light);
    squares += light;
    count++;
  }
  const mean = sum / count;
  return { mean, spread: Math.sqrt(Math.max(1e-6, squares / count - mean * mean)) };
}

function curve(from: Moments, to: Moments): { readonly gain: number; readonly offset: number } {
  const gain = Math.min(mostStretch, Math.max(1 / mostStretch, to.spread / from.spread));
  return { gain, offset: to.mean - gain * from.mean };
}
