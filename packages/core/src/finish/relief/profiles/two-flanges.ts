import type { ProfileEdge, ProfileShape, SectionSizes } from './profile.js';

/**
 * Say what is seen of a section with a flange along its top and one along its foot.
 *
 * @param sizes - In mm of paper.
 * @param overhang - How far the flanges stand out over the web.
 * @returns Its edges and faces.
 */
export function twoFlanges(sizes: SectionSizes, overhang: number): ProfileShape {
  const { depth, flange: thickness, root } = sizes;
  const flange = thickness ?? 0;
  const web = { y0: flange, y1: depth - flange };
  const radius = Math.min(root ?? 0, (web.y1 - web.y0) / 2);
  const edges: ProfileEdge[] = [
    { name: 'top of the top flange', at: 0, faces: 'up', side: 'below', room: flange, overhang: 0 },
    {
      name: 'underside of the top flange',
      at: web.y0,
      faces: 'down',
      side: 'below',
      room: null,
      overhang,
    },
    {
      name: 'top of the bottom flange',
      at: web.y1,
      faces: 'up',
      side: 'above',
      room: null,
      overhang,
    },
    {
      name: 'underside of the bottom flange',
      at: depth,
      faces: 'down',
      side: 'above',
      room: flange,
      overhang: 0,
    },
  ];
  return {
    edges,
    recesses: [web],
    fillets:
      radius === 0
        ? []
        : [
            { at: web.y0, to: web.y0 + radius, faces: 'down' },
            { at: web.y1, to: web.y1 - radius, faces: 'up' },
          ],
    web,
    plain: web,
    stands: [
      { name: 'flanges', y0: 0, y1: web.y0, level: 1, out: overhang },
      { name: 'flanges', y0: web.y1, y1: depth, level: 1, out: overhang },
    ],
    rivetRows: () => [],
  };
}
