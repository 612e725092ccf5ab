import { BadDrawing } from '../../../../packages/core/dist/drawing/bad-drawing.js';
import { followPath } from '../../../../packages/core/dist/drawing/outline/follow-path.js';
import { LoopMaker } from '../../../../packages/core/dist/drawing/outline/loop-maker.js';
import { PathPen } from '../../../../packages/core/dist/drawing/outline/path-pen.js';
import { pathWords } from '../drawing-seeds.js';
import { allFinite, promise, type Reader } from '../reader.js';

const seeds = [
  'M2 28V8l12-6 12 6v20zM5 10h3v3h-3z',
  'm0 0a1 1 0 0110 10q1 1 2 2t3 3c1 2 3 4 5 6s1 1 2 2H3Z',
  'M.5.5-5e-1-.5L1,2 3,4A5 4 30 1 0 7,8S1 2 3 4T5,6z m1 1',
];

/** The `d` of a path. */
export const pathData: Reader = {
  name: 'path-data',
  tried: 800,
  refusals: [BadDrawing],
  words: pathWords,
  seeds: () => seeds.map((seed) => Buffer.from(seed)),
  read: (bytes) => {
    const text = bytes.toString();
    const pen = new PathPen();
    followPath(text, pen);
    const maker = new LoopMaker([1, 0, 0, 1, 0, 0], 0.05);
    followPath(text, maker);
    allFinite([maker.loops, maker.lines], 'a loop');
    promise(
      maker.loops.every((loop) => loop.length % 2 === 0),
      'points of two numbers',
    );
  },
};
