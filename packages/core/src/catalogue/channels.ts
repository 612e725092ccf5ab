import type { SectionEntry, SectionSizes } from './section-entry.js';

// UPN flanges thicken towards the web, and are given at the middle of their width.
const tapered =
  'from memory of EN 10365; its flanges taper by 8 %, by 5 % where it is over 300 mm deep';
const parallel = 'from memory of EN 10365';

function channel(
  name: string,
  flanges: SectionEntry['flanges'],
  [depth, width, web, flange, root, kgPerM]: SectionSizes,
): SectionEntry {
  const source = flanges === 'taper' ? tapered : parallel;
  return { shape: 'channel', name, depth, width, web, flange, root, kgPerM, flanges, source };
}

/** Channels, a row each: depth, width, web, flange, root radius in mm, kg/m. */
export const channels: readonly SectionEntry[] = [
  channel('UPN 50', 'taper', [50, 38, 5, 7, 7, 5.59]),
  channel('UPN 65', 'taper', [65, 42, 5.5, 7.5, 7.5, 7.09]),
  channel('UPN 80', 'taper', [80, 45, 6, 8, 8, 8.64]),
  channel('UPN 100', 'taper', [100, 50, 6, 8.5, 8.5, 10.6]),
  channel('UPN 120', 'taper', [120, 55, 7, 9, 9, 13.4]),
  channel('UPN 140', 'taper', [140, 60, 7, 10, 10, 16]),
  channel('UPN 160', 'taper', [160, 65, 7.5, 10.5, 10.5, 18.8]),
  channel('UPN 180', 'taper', [180, 70, 8, 11, 11, 22]),
  channel('UPN 200', 'taper', [200, 75, 8.5, 11.5, 11.5, 25.3]),
  channel('UPN 220', 'taper', [220, 80, 9, 12.5, 12.5, 29.4]),
  channel('UPN 240', 'taper', [240, 85, 9.5, 13, 13, 33.2]),
  channel('UPN 260', 'taper', [260, 90, 10, 14, 14, 37.9]),
  channel('UPN 280', 'taper', [280, 95, 10, 15, 15, 41.8]),
  channel('UPN 300', 'taper', [300, 100, 10, 16, 16, 46.2]),
  channel('UPN 320', 'taper', [320, 100, 14, 17.5, 17.5, 59.5]),
  channel('UPN 350', 'taper', [350, 100, 14, 16, 16, 60.6]),
  channel('UPN 380', 'taper', [380, 102, 13.5, 16, 16, 63.1]),
  channel('UPN 400', 'taper', [400, 110, 14, 18, 18, 71.8]),

  channel('UPE 80', 'parallel', [80, 50, 4, 7, 10, 7.9]),
  channel('UPE 100', 'parallel', [100, 55, 4.5, 7.5, 10, 9.82]),
  channel('UPE 120', 'parallel', [120, 60, 5, 8, 12, 12.1]),
  channel('UPE 140', 'parallel', [140, 65, 5, 9, 12, 14.5]),
  channel('UPE 160', 'parallel', [160, 70, 5.5, 9.5, 12, 17]),
  channel('UPE 180', 'parallel', [180, 75, 5.5, 10.5, 12, 19.7]),
  channel('UPE 200', 'parallel', [200, 80, 6, 11, 13, 22.8]),
  channel('UPE 220', 'parallel', [220, 85, 6.5, 12, 13, 26.6]),
  channel('UPE 240', 'parallel', [240, 90, 7, 12.5, 15, 30.2]),
  channel('UPE 270', 'parallel', [270, 95, 7.5, 13.5, 15, 35.2]),
  channel('UPE 300', 'parallel', [300, 100, 9.5, 15, 15, 44.4]),
  channel('UPE 330', 'parallel', [330, 105, 11, 16, 18, 53.2]),
  channel('UPE 360', 'parallel', [360, 110, 12, 17, 18, 61.2]),
  channel('UPE 400', 'parallel', [400, 115, 13.5, 18, 18, 72.2]),

  channel('PFC 100x50x10', 'parallel', [100, 50, 5, 8.5, 9, 10.2]),
  channel('PFC 125x65x15', 'parallel', [125, 65, 5.5, 9.5, 12, 14.8]),
  channel('PFC 150x75x18', 'parallel', [150, 75, 5.5, 10, 12, 17.9]),
  channel('PFC 150x90x24', 'parallel', [150, 90, 6.5, 12, 12, 23.9]),
  channel('PFC 180x75x20', 'parallel', [180, 75, 6, 10.5, 12, 20.3]),
  channel('PFC 180x90x26', 'parallel', [180, 90, 6.5, 12.5, 12, 26.1]),
  channel('PFC 200x75x23', 'parallel', [200, 75, 6, 12.5, 12, 23.4]),
  channel('PFC 200x90x30', 'parallel', [200, 90, 7, 14, 12, 29.7]),
  channel('PFC 230x75x26', 'parallel', [230, 75, 6.5, 12.5, 12, 25.7]),
  channel('PFC 230x90x32', 'parallel', [230, 90, 7.5, 14, 12, 32.2]),
  channel('PFC 260x75x28', 'parallel', [260, 75, 7, 12, 12, 27.6]),
  channel('PFC 260x90x35', 'parallel', [260, 90, 8, 14, 12, 34.8]),
  channel('PFC 300x90x41', 'parallel', [300, 90, 9, 15.5, 12, 41.4]),
  channel('PFC 300x100x46', 'parallel', [300, 100, 9, 16.5, 15, 45.5]),
  channel('PFC 380x100x54', 'parallel', [380, 100, 9.5, 17.5, 15, 54]),
  channel('PFC 430x100x64', 'parallel', [430, 100, 11, 19, 15, 64.4]),
];
