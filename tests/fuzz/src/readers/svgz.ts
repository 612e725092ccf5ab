import { gzipSync } from 'node:zlib';
import { unpackDrawing } from '../../../../packages/core/dist/read/unpack-drawing.js';
import { drawings } from '../drawing-seeds.js';
import { inBytes, promise, type Reader } from '../reader.js';

/** A compressed drawing. */
export const svgz: Reader = {
  name: 'svgz',
  tried: 200,
  words: inBytes([
    '\x1f\x8b',
    '\x1f\x8b\x08\0',
    '\x1f\x8b\x08\x1f',
    '\0\0\0\0',
    '\xff\xff\xff\xff',
    '\x03\0',
  ]),
  seeds: () => [...drawings, 'x'.repeat(100_000)].map((text) => gzipSync(text)),
  read: async (bytes) => {
    const out = await unpackDrawing('front.svgz', bytes);
    promise(out.length <= Math.max(bytes.length, 150e6), 'no more than is allowed');
  },
};
