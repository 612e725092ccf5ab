import { partBoards } from './boards.js';
import type { Profile, ProfileEdge } from './profile.js';

/** Boards that lap over one another: the foot of each casts a shadow on the next. */
export const weatherboard: Profile = {
  id: 'weatherboard',
  name: 'row of boards that lap',
  needs: ['board'],
  takes: ['rise'],
  // 150 mm boards that lap by 40, and their thickness at the foot: common practice, no source.
  usual: { board: 110, rise: 16 },
  shape: ({ depth, board, rise }) => {
    const boards = partBoards(depth, board ?? depth);
    const last = boards.length - 1;
    const edges = boards.map(({ y0, y1 }, i): ProfileEdge => ({
      ...{ name: `foot of board ${i + 1}`, at: y1, faces: 'down' },
      ...(i === last
        ? { side: 'above', room: (y1 - y0) / 3, overhang: 0 }
        : { side: 'below', room: null, overhang: rise ?? 0 }),
      partedBy: 'board',
    }));
    const top: ProfileEdge = {
      ...{ name: 'top of board 1', at: 0, faces: 'up', side: 'below' },
      ...{ room: (boards[0]?.y1 ?? depth) / 3, overhang: 0 },
    };
    return {
      edges: [top, ...edges],
      boards,
      ...{ recesses: [], fillets: [], web: null, plain: null, rivetRows: () => [] },
    };
  },
};
