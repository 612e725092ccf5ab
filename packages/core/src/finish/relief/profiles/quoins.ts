import { outOfRange } from '../../../errors/out-of-range.js';
import { leastLine } from '../pens.js';
import { flatFace, rectangle } from './flat-face.js';
import { narrowestBar } from './panes.js';
import type { Profile } from './profile.js';

// A short block to a long one: common practice, no source.
const short = 2 / 3;

/** Corner stones, long and short in turn from the top, their outer side at the left. */
export const quoins: Profile = {
  id: 'quoins',
  name: 'row of quoins',
  needs: ['block'],
  takes: ['rise'],
  // Four courses of UK metric brickwork.
  usual: { block: 300, rise: 20 },
  shape: () => flatFace,
  figure: ({ sizes, length }) => {
    const { depth, block, rise } = sizes;
    const high = block ?? depth;
    if (high < narrowestBar) {
      const wanted = `${narrowestBar} mm of paper or more, so that its lines stay apart,`;
      throw outOfRange(wanted, 'block', `${Number(high.toPrecision(3))} mm of paper`);
    }
    // What is left over, where it would hold no lines, goes to the last.
    const count = Math.max(1, Math.floor(depth / high + 1e-9));
    const isMore = depth - count * high >= 3 * leastLine;
    const blocks = Array.from({ length: count + (isMore ? 1 : 0) }, (_, i) => {
      const y0 = i * high;
      const y1 = i + 1 === count + (isMore ? 1 : 0) ? depth : y0 + high;
      return { y0, y1, width: i % 2 === 0 ? length : short * length };
    });
    const right = blocks.flatMap(({ y0, y1, width }) => [width, y0, width, y1]);
    const outline = [Float64Array.from([0, 0, ...right, 0, depth])];
    const area = { loops: outline, rule: 'nonzero' as const };
    // Blocks are flush with one another: between them there is a joint and no shadow.
    const faces = blocks.map(({ y0, y1, width }) => ({
      ...{ loops: [rectangle(0, y0, width, y1 - y0)], rule: 'nonzero' as const },
      ...{ isSunk: false, rise: 0 },
    }));
    return {
      outline: area,
      faces: [{ ...area, isSunk: false, rise: rise ?? 0, only: 'shadow' }, ...faces],
      stands: [{ ...area, name: 'quoins', out: rise ?? 0, isWhole: true, isCutOut: false }],
    };
  },
};
