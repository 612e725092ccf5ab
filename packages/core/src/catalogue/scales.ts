import { perFoot } from './per-foot.js';
import type { ScaleEntry, ScaleRegion } from './scale-entry.js';

type Facts = Partial<Pick<ScaleEntry, 'gaugeMm' | 'inRegion' | 'region'>>;

const tables = 'public scale tables quoting NMRA S-1.2';
const ukTables = 'public scale tables of British scales';

function morop(name: string, short: readonly string[], ratio: number, gaugeMm: number): ScaleEntry {
  return {
    name,
    short,
    inRegion: [],
    region: 'EU',
    ratio,
    definition: `1:${ratio}`,
    gaugeMm,
    source: 'NEM 010 (MOROP, 2011)',
  };
}

function scale(
  region: ScaleRegion | null,
  names: readonly [string, ...string[]],
  [definition, ratio]: readonly [string, number],
  [source, facts = {}]: readonly [string, Facts?],
): ScaleEntry {
  const [name, ...short] = names;
  return { name, short, inRegion: [], region, ratio, definition, gaugeMm: null, source, ...facts };
}

/**
 * Every scale, a row each. A name that two rows share (N, O, TT, 1, 2, 3, G, OOO) is refused until a
 * region or a ratio settles it. NEM writes the digit nought where NMRA and the United Kingdom write
 * the letter, so either is read for O, OO and OOO; H0 and HO differ in ratio and stay apart.
 */
export const scales: readonly ScaleEntry[] = [
  morop('Z', ['Z'], 220, 6.5),
  morop('N-EU', ['N', 'OOO'], 160, 9),
  morop('TT-EU', ['TT'], 120, 12),
  { ...morop('H0', ['H0'], 87, 16.5), inRegion: ['HO'] },
  morop('S', ['S'], 64, 22.5),
  morop('0-EU', ['O'], 45, 32),
  morop('I', ['I', '1'], 32, 45),
  morop('II', ['II', '2'], 22.5, 64),
  morop('III', ['III', '3'], 16, 89),
  morop('V', ['V'], 11, 127),
  morop('VII', ['VII'], 8, 184),
  morop('X', ['X'], 5.5, 260),

  scale('US', ['Z-US', 'Z'], ['1:220', 220], [tables]),
  scale('US', ['N-US', 'N'], ['1:160', 160], [tables]),
  scale('US', ['TT-US', 'TT'], ['0.1 in = 1 ft', 120], [`${tables}; gauge 0.471 in`]),
  scale('US', ['HO', 'HO'], ['3.5 mm = 1 ft', perFoot(3.5)], [tables, { inRegion: ['H0'] }]),
  scale('US', ['S-US', 'S'], ['3/16 in = 1 ft', 64], [tables]),
  scale('US', ['O-US', 'O'], ['1/4 in = 1 ft', 48], [tables]),
  scale('US', ['O17', 'O17', 'Q', '17/64'], ['17/64 in = 1 ft', (12 * 64) / 17], [tables]),
  scale('US', ['1-US', '1'], ['3/8 in = 1 ft', 32], [tables]),
  scale('US', ['Fn3', 'Fn3'], ['15 mm = 1 ft', perFoot(15)], [tables]),

  scale('UK', ['N-UK', 'N', 'OOO'], ['as sold 1:148, nominally 2 1/16 mm = 1 ft', 148], [ukTables]),
  scale(
    'UK',
    ['N-UK-nominal'],
    ['2 1/16 mm = 1 ft', perFoot(33 / 16)],
    ["a narrow-gauge society's page; as sold it is 1:148, 0.15 % smaller"],
  ),
  scale(
    'UK',
    ['2mm', '2mm', '2mm finescale', 'OOO'],
    ['2 mm = 1 ft', perFoot(2)],
    [ukTables, { gaugeMm: 9.42 }],
  ),
  scale('UK', ['3mm', '3mm', 'TT', 'TT3', 'TM', 'S3'], ['3 mm = 1 ft', perFoot(3)], [ukTables]),
  scale('UK', ['TT-UK-120', 'TT'], ['1:120', 120], [ukTables, { gaugeMm: 12 }]),
  scale('UK', ['OO', 'OO', '4mm', 'OO9'], ['4 mm = 1 ft', perFoot(4)], [ukTables]),
  scale('UK', ['EM', 'EM'], ['4 mm = 1 ft', perFoot(4)], [ukTables]),
  scale('UK', ['P4', 'P4'], ['4 mm = 1 ft', perFoot(4)], [ukTables, { gaugeMm: 18.83 }]),
  scale('UK', ['S4', 'S4'], ['4 mm = 1 ft', perFoot(4)], [ukTables, { gaugeMm: 18.83 }]),
  scale('UK', ['S-UK', 'S'], ['3/16 in = 1 ft', 64], [ukTables]),
  scale('UK', ['O-UK', 'O', '7mm'], ['7 mm = 1 ft', perFoot(7)], [ukTables]),
  scale('UK', ['1-UK-10mm', '1', '10mm'], ['10 mm = 1 ft', perFoot(10)], [ukTables]),
  scale('UK', ['1-UK-32', '1'], ['3/8 in = 1 ft', 32], [ukTables]),
  scale('UK', ['2-UK', '2'], ['7/16 in = 1 ft', (12 * 16) / 7], ["a garden-railway club's page"]),
  scale('UK', ['3-UK-24', '3'], ['1/2 in = 1 ft', 24], ["a garden-railway club's page"]),
  scale(
    'UK',
    ['3-UK-13.5mm', '3'],
    ['13.5 mm = 1 ft', perFoot(13.5)],
    ['from memory of British Gauge 3 practice'],
  ),
  scale('UK', ['SM32', 'SM32', '16mm'], ['16 mm = 1 ft', perFoot(16)], [ukTables, {}]),
  scale('UK', ['SM45', 'SM45'], ['16 mm = 1 ft', perFoot(16)], [ukTables]),

  scale('FR', ['O-FR', 'O'], ['1:43.5', 43.5], ['public scale tables of French O']),
  scale('JP', ['N-JP', 'N'], ['0.08 in = 1 ft', 12 / 0.08], [ukTables]),
  scale(
    'JP',
    ['HO-JP-80'],
    ['1:80', 80],
    ['from memory of Japanese practice', { inRegion: ['HO', 'H0'] }],
  ),
  scale(
    'JP',
    ['HO-JP-87'],
    ['1:87', 87],
    ['from memory of Japanese practice', { inRegion: ['HO', 'H0'] }],
  ),

  ...[22.5, perFoot(15), 24, 29, 32].map((ratio) => {
    const name = `G-${Number(ratio.toFixed(2))}`;
    const source = 'common practice, no source: several scales share one 45 mm track';
    return scale(null, [name, 'G'], [`1:${Number(ratio.toFixed(2))}`, ratio], [source]);
  }),
];
