import { createHash } from 'node:crypto';
import { deserialize, serialize } from 'node:v8';
import { isLaid, layCopies } from '../../fill/lay-copies.js';
import type { Raster } from '../../raster/raster.js';
import type { MadeSurface } from '../surface/made-surface.js';

const sumBytes = 32;

/**
 * Put a surface into bytes, of which none may change unseen.
 *
 * @param surface - It.
 * @returns A file's bytes, in order.
 */
export function packSurface(surface: MadeSurface): readonly Uint8Array[] {
  const { photo, made, ...others } = surface;
  const { path, width, height, sha256, bytes, format, step, dpi, orientation, exif } = photo;
  const { raster, light, plan, origin } = made;
  const packed: PackedSurface = {
    ...others,
    // Its picture was looked at, and is not needed any more.
    photo: {
      path,
      width,
      height,
      sha256,
      bytes,
      format,
      step,
      dpi,
      orientation,
      exif,
      warnings: [],
    },
    made: { light, plan, origin, copy: plain(isLaid(raster) ? raster.copy : raster) },
    laid: isLaid(raster),
  };
  return withSum(serialize(packed));
}

/**
 * Put a sum before bytes that are kept, so that none may change unseen.
 *
 * @param body - Them.
 * @returns A file's bytes, in order.
 */
export function withSum(body: Uint8Array): readonly Uint8Array[] {
  return [sumOf(body), body];
}

/**
 * Take bytes that were kept without their sum.
 *
 * @param bytes - Of a file that is whole.
 * @returns What follows it.
 */
export function withoutSum(bytes: Buffer): Buffer {
  return bytes.subarray(sumBytes);
}

function plain({ width, height, planes }: Raster): Raster {
  return { width, height, planes: [...planes] };
}

function sumOf(body: Uint8Array): Uint8Array {
  return createHash('sha256').update(body).digest();
}

interface PackedSurface extends Omit<MadeSurface, 'made' | 'photo'> {
  readonly photo: Omit<MadeSurface['photo'], 'raster'>;
  readonly made: Omit<MadeSurface['made'], 'raster'> & { readonly copy: Raster };
  readonly laid: boolean;
}

/**
 * Tell whether what was kept can be used.
 *
 * @param bytes - Of its file.
 * @returns Whether none of them changed.
 */
export function isWhole(bytes: Buffer): boolean {
  const body = withoutSum(bytes);
  return body.length > 0 && bytes.subarray(0, sumBytes).equals(sumOf(body));
}

/**
 * Take a surface out of bytes again.
 *
 * @param bytes - As {@link packSurface} made them, on the same version of everything.
 * @returns The surface, or null where a byte of it is another.
 */
export function unpackSurface(bytes: Buffer): MadeSurface | null {
  if (!isWhole(bytes)) return null;
  const body = withoutSum(bytes);
  const { made, laid, photo, ...others } = deserialize(body) as PackedSurface;
  const { copy, ...tile } = made;
  const raster = laid ? layCopies(copy, tile.plan) : copy;
  return { ...others, photo: { ...photo, raster }, made: { ...tile, raster } };
}
