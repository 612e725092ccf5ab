import { partBoards } from './boards.js';
import type { Profile, ProfileEdge } from './profile.js';

/** Boards edge to edge, one under the other, or side by side where they stand: fences, doors, floors, wagon sides. */
export const planks: Profile = {
  id: 'planks',
  name: 'row of planks',
  needs: ['board'],
  takes: [],
  // Common practice, no source.
  usual: { board: 150 },
  shape: ({ depth, board }) => {
    const boards = partBoards(depth, board ?? depth);
    const edges = boards.flatMap(({ y0, y1 }, i): ProfileEdge[] => {
      const edge = { room: (y1 - y0) / 3, overhang: 0 };
      // From board to board is a gap, which shows wherever the light comes from.
      const gap = { room: null, overhang: 0 };
      const which = boards.length === 1 ? 'the board' : `board ${i + 1}`;
      return [
        { ...(i === 0 ? edge : gap), name: `top of ${which}`, at: y0, faces: 'up', side: 'below' },
        {
          ...(i === boards.length - 1 ? edge : gap),
          ...{ name: `foot of ${which}`, at: y1, faces: 'down', side: 'above' },
          ...(boards.length > 1 && { partedBy: 'board' }),
        } as const,
      ];
    });
    return {
      edges,
      boards,
      ...{ recesses: [], fillets: [], web: null, plain: null, rivetRows: () => [] },
    };
  },
};
