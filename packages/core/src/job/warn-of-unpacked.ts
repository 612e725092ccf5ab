import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import { inBytes } from './in-bytes.js';
import type { OpenedDrawing } from './open-drawing.js';

/**
 * Tell that a drawing was compressed and the new one is not.
 *
 * @param path - Of the one that was.
 * @param opened - As it was read.
 * @param written - Bytes of the new one.
 * @returns A warning, or none.
 */
export function warnOfUnpacked(
  path: string,
  opened: Pick<OpenedDrawing, 'bytes' | 'stored'>,
  written: number,
): readonly Warning[] {
  const { bytes, stored } = opened;
  if (stored === bytes) return [];
  const larger =
    written > stored ? `, and larger: ${inBytes(written)} against ${inBytes(stored)}` : '';
  const message = `${showPath(path)} is compressed (.svgz), and what is written is a plain drawing${larger}`;
  return [{ code: 'unpacked', message }];
}
