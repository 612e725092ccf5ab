import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const cli = here('../../../packages/cli/bin/gaugerod.js');

// ISO 216, in mm, and in dots at 600 dpi, rounded; how much faster than the peer is wanted.
const pages = [
  { name: 'A3', size: '297x420mm', columns: 7016, rows: 9921, wanted: 10, rounds: 5 },
  { name: 'A0', size: '841x1189mm', columns: 19_866, rows: 28_087, wanted: 30, rounds: 3 },
];

// Says what a process took as it ends: milliseconds of processor time, and its peak in KiB.
const teller = `data:text/javascript,${encodeURIComponent(
  'process.on("exit",()=>{const{userCPUTime:u,systemCPUTime:s,maxRSS:m}=process.resourceUsage();process.stderr.write(`\\n#took ${(u+s)/1e3} ${m}\\n`)})',
)}`;

export interface Taken {
  readonly wall: number;
  readonly processor: number;
  readonly peak: number;
}

export function take(argv: readonly string[]): Taken {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ['--import', teller, ...argv], {
    encoding: 'utf8',
  });
  const wall = performance.now() - start;
  const told = /#took ([\d.]+) (\d+)/.exec(stderr);
  if (status !== 0 || told === null) throw new Error(`${argv.join(' ')} failed: ${stderr}`);
  return { wall, processor: Number(told[1]), peak: Number(told[2]) / 1024 };
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1] ?? NaN;

function run(...words: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, [cli, ...words, '--no-config'], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
  return stdout;
}

// A tile of brickwork that is measured and repeats, as mend and measure --save leave it: the first wall
// whose mended tile shows no seam.
async function prepareTile(folder: string): Promise<string> {
  mkdirSync(folder, { recursive: true });
  const [photo, tile] = [join(folder, 'wall-to-repeat.png'), join(folder, 'tile.png')];
  if (existsSync(join(folder, 'tile.surface.json'))) {
    run('measure', tile, '--course', 'uk-metric', '--save');
    return tile;
  }
  for (let seed = 6100; ; seed++) {
    const wall = drawWall({ bond: 'flemish', coursePx: 50, width: 1500, height: 1100, seed });
    writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
    run('mend', photo, '--course', 'uk-metric', '-o', tile);
    if (!run('inspect', tile).startsWith('repeats without a seam both ways')) continue;
    run('measure', tile, '--course', 'uk-metric', '--save');
    console.log(`a wall of seed ${seed}`);
    return tile;
  }
}

/**
 * Brickwork from a saved surface, laid over A3 and A0 at 600 dpi, as a whole process in turn with
 * sharp's decode, resize, tile and PNG of the same page: wall clock, processor time, peak memory and
 * size of the file, and how many times as long the peer takes.
 */
export async function benchFillSpeed(): Promise<void> {
  const folder = join(process.cwd(), 'out', 'bench');
  const tile = await prepareTile(folder);
  const [ours, peer] = [join(folder, 'fill-ours.png'), join(folder, 'fill-peer.png')];
  for (const { name, size, columns, rows, wanted, rounds } of pages) {
    const fill = [
      cli,
      'fill',
      tile,
      '--scale',
      'OO',
      '--size',
      size,
      '-o',
      ours,
      '--quiet',
      '--no-config',
    ];
    // 1.5 mm a pixel (a course of 75 mm is 50 px) at 1:76.2 and 600 dpi: 0.465 dots a pixel.
    const plain = [here('peer-sharp.js'), tile, peer, '0.465001', `${columns}`, `${rows}`];
    const taken = { ours: [] as Taken[], peer: [] as Taken[] };
    for (let round = -1; round < rounds; round++) {
      const [a, b] = [take(fill), take(plain)];
      if (round < 0) continue;
      taken.ours.push(a);
      taken.peer.push(b);
    }
    for (const [who, file] of [
      ['ours', ours],
      ['peer', peer],
    ] as const) {
      const all = taken[who];
      const [wall, processor] = [
        median(all.map((t) => t.wall)),
        median(all.map((t) => t.processor)),
      ];
      const peak = Math.max(...all.map((t) => t.peak));
      console.log(
        `${name} ${who}: ${wall.toFixed(0)} ms, processor ${processor.toFixed(0)} ms, peak ${peak.toFixed(0)} MiB, ${(statSync(file).size / 1e6).toFixed(1)} MB`,
      );
    }
    const ratio = (key: 'wall' | 'processor'): string =>
      (median(taken.peer.map((t) => t[key])) / median(taken.ours.map((t) => t[key]))).toFixed(1);
    console.log(
      `${name}: ${ratio('wall')} times as fast by the clock (${wanted} wanted), ${ratio('processor')} by processor time`,
    );
  }
}
