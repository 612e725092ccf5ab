import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import { isPacked } from '../../write/pack-drawing.js';
import { inBytes } from './in-bytes.js';
import type { OpenedDrawing } from '../open/open-drawing.js';

/** A drawing that was written, or would be. */
export interface WrittenDrawing {
  /** Where; absent where it only would be. */
  readonly output?: string | undefined;
  /** Its bytes. */
  readonly size: number;
}

/**
 * Tell that a drawing was compressed and the new one is not.
 *
 * @param path - Of the one that was.
 * @param opened - As it was read.
 * @param written - The new one.
 * @returns A warning, or none.
 */
export function warnOfUnpacked(
  path: string,
  opened: Pick<OpenedDrawing, 'bytes' | 'stored'>,
  written: WrittenDrawing,
): readonly Warning[] {
  const { bytes, stored } = opened;
  const { output, size } = written;
  if (stored === bytes || isPacked(output ?? path)) return [];
  const larger = size > stored ? `, and larger: ${inBytes(size)} against ${inBytes(stored)}` : '';
  const message = `${showPath(path)} is compressed (.svgz), and what is written is a plain drawing${larger}`;
  return [{ code: 'unpacked', message }];
}

/**
 * Tell that a drawing was compressed and is larger for it, as a very small one is.
 *
 * @param path - Of the one that was, and is otherwise the same.
 * @param opened - As it was read.
 * @param written - The new one.
 * @returns A warning, or none.
 * @see RFC 1952, 2.3: 18 bytes and what is compressed
 */
export function warnOfPacked(
  path: string,
  opened: Pick<OpenedDrawing, 'stored'>,
  written: WrittenDrawing,
): readonly Warning[] {
  const { stored } = opened;
  const { output, size } = written;
  if (size <= stored || !isPacked(output ?? path)) return [];
  const message = `${showPath(path)} takes ${inBytes(stored)}, and compressed (.svgz) ${inBytes(size)}`;
  return [{ code: 'not-smaller', message }];
}
