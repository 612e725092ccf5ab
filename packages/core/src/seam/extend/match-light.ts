import { createRaster, type Raster } from '../../raster/raster.js';
import { type Courses, findMortarLine, likenessAlong } from '../mend/see-mortar.js';

/** A photo whose light others are to have. */
export interface LitPhoto {
  /** In linear light. */
  readonly raster: Raster;
  /** Where its courses lie, or null. */
  readonly courses: Courses | null;
}

// A photo's spread of colour is stretched or shrunk by this much at most.
const mostStretch = 2;
// Mortar, or bricks, that so little of a photo is like says nothing of their light.
const leastPart = 0.01;

/**
 * Give a photo the light and colour of another: the same mean and spread, channel by channel; then of
 * bricks and of mortar, each for itself. What is mortar the model says for both, or a joint's shadow
 * in the one would be made like mortar in the other.
 *
 * @param photo - To be changed, in linear light.
 * @param model - To be like.
 * @returns A raster of its own.
 * @see Reinhard, Ashikhmin, Gooch and Shirley 2001, Color transfer between images
 */
export function matchLight(photo: Raster, model: LitPhoto): Raster {
  const near = matchParts({ raster: photo, share: null }, { raster: model.raster, share: null });
  const line = model.courses && findMortarLine(model.raster, model.courses);
  if (line === null) return near;
  const from = { raster: near, share: likenessAlong(near, line) };
  const like = { raster: model.raster, share: likenessAlong(model.raster, line) };
  return showsBoth(from.share) && showsBoth(like.share) ? matchParts(from, like) : near;
}

interface Parts {
  readonly raster: Raster;
  /** How like mortar each pixel is, or null where all are taken for one. */
  readonly share: Float32Array | null;
}

function showsBoth(share: Float32Array): boolean {
  const mortar = share.reduce((sum, part) => sum + (part > 0.5 ? 1 : 0), 0) / share.length;
  return mortar >= leastPart && mortar <= 1 - leastPart;
}

function matchParts({ raster, share }: Parts, model: Parts): Raster {
  const out = createRaster(raster.width, raster.height);
  for (let channel = 0; channel < 3; channel++) {
    const from = raster.planes[channel]!;
    const like = model.raster.planes[channel]!;
    const brick = curve(momentsOf(from, share, false), momentsOf(like, model.share, false));
    const mortar = curve(momentsOf(from, share, true), momentsOf(like, model.share, true));
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
