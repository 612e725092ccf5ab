import { inches } from '../units/inches.js';
import { angles } from './angles.js';
import { type BeamRow, britishBeams, europeanBeams, taperBeams } from './beams.js';
import { channels } from './channels.js';
import type { SectionEntry, SectionSizes } from './section-entry.js';
import { tees } from './tees.js';

const british = 'EN 10365 and SCI P363, as a UK beam table and two section libraries quote them';
const european = 'EN 10365 and EN 10034, as two section tables quote them';
const joists = 'SCI Blue Book, as a UK joist table quotes it';
const american = 'from memory of the AISC Manual, Table 1-1';
const old = 'from memory of the BCSA Historical Structural Steelwork Handbook';

// 1 lb/ft in kg/m: 0.45359237 / 0.3048 exactly.
const poundPerFoot = 0.45359237 / 0.3048;

function section(name: string, sizes: SectionSizes, source: string): SectionEntry {
  const [depth, width, web, flange, root, kgPerM] = sizes;
  return { shape: 'i', name, depth, width, web, flange, root, kgPerM, flanges: 'parallel', source };
}

function taper(name: string, sizes: SectionSizes, source: string): SectionEntry {
  return { ...section(name, sizes, source), flanges: 'taper' };
}

function inInches([depth, width, web, flange, , pounds]: SectionSizes): SectionSizes {
  const kgPerM = Number((pounds * poundPerFoot).toFixed(1));
  return [inches(depth), inches(width), inches(web), inches(flange), null, kgPerM];
}

const remembered = 'from memory of EN 10365';

function beam([name, ...sizes]: BeamRow): SectionEntry {
  return section(name, sizes, remembered);
}

/** Every rolled section, a row each: depth, width, web, flange, root radius in mm, kg/m. */
export const sections: readonly SectionEntry[] = [
  section('UB 127x76x13', [127, 76, 4, 7.6, 7.6, 13.0], british),
  section('UB 203x102x23', [203.2, 101.8, 5.4, 9.3, 7.6, 23.1], british),
  section('UB 203x133x25', [203.2, 133.2, 5.7, 7.8, 7.6, 25.1], british),
  section('UB 254x146x31', [251.4, 146.1, 6, 8.6, 7.6, 31.1], british),
  section('UB 305x165x40', [303.4, 165, 6, 10.2, 8.9, 40.3], british),
  section('UB 356x171x45', [351.4, 171.1, 7, 9.7, 10.2, 45.0], british),
  section('UB 406x178x60', [406.4, 177.9, 7.9, 12.8, 10.2, 60.1], british),
  section('UB 457x191x67', [453.4, 189.9, 8.5, 12.7, 10.2, 67.1], british),
  section('UB 533x210x92', [533.1, 209.3, 10.1, 15.6, 12.7, 92.1], british),
  section('UB 610x229x101', [602.6, 227.6, 10.5, 14.8, 12.7, 101.2], british),
  section('UB 914x305x201', [903, 303.3, 15.1, 20.2, 19.1, 200.9], british),
  section('UB 914x419x388', [921, 420.5, 21.4, 36.6, 24.1, 388.0], british),
  section('IPE 100', [100, 55, 4.1, 5.7, 7, 8.1], european),
  section('IPE 200', [200, 100, 5.6, 8.5, 12, 22.4], european),
  section('IPE 300', [300, 150, 7.1, 10.7, 15, 42.2], european),
  section('IPE 600', [600, 220, 12, 19, 24, 122], european),
  section('HE 200 A', [190, 200, 6.5, 10, 18, 42.3], european),
  section('HE 300 A', [290, 300, 8.5, 14, 27, 88.3], european),
  section('HE 200 B', [200, 200, 9, 15, 18, 61.3], european),
  section('HE 300 B', [300, 300, 11, 19, 27, 117], european),
  section('HE 600 B', [600, 300, 15.5, 30, 27, 212], european),

  taper('RSJ 254x203x82', [254, 203.2, 10.2, 19.9, 19.6, 82], joists),
  taper('RSJ 254x114x37', [254, 114.3, 7.6, 12.8, 12.4, 37.2], joists),
  taper('RSJ 203x152x52', [203.2, 152.4, 8.9, 16.5, 15.5, 52.3], joists),
  taper('RSJ 152x127x37', [152.4, 127, 10.4, 13.2, 13.5, 37.3], joists),
  taper('RSJ 127x76x16', [127, 76.2, 5.6, 9.6, 9.4, 16.5], joists),
  taper('RSJ 102x102x23', [101.6, 101.6, 9.5, 10.3, 11.1, 23], joists),

  // Inches and pounds to the foot.
  section('W8x31', inInches([8, 8, 0.285, 0.435, null, 31]), american),
  section('W12x26', inInches([12.2, 6.49, 0.23, 0.38, null, 26]), american),
  section('W18x35', inInches([17.7, 6, 0.3, 0.425, null, 35]), american),
  section('W24x76', inInches([23.9, 8.99, 0.44, 0.68, null, 76]), american),
  section('W36x150', inInches([35.9, 12, 0.625, 0.94, null, 150]), american),
  taper('S12x31.8', inInches([12, 5, 0.35, 0.544, null, 31.8]), american),
  taper('BSB 12x5x32', inInches([12, 5, 0.35, 0.55, null, 32]), old),
  taper('BSB 24x7.5x100', inInches([24, 7.5, 0.6, 1.07, null, 100]), old),

  ...britishBeams.map(beam),
  ...europeanBeams.map(beam),
  ...taperBeams.map(([name, ...sizes]) => taper(name, sizes, remembered)),
  ...channels,
  ...angles,
  ...tees,
];
