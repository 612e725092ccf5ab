import { statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawLargeWall } from './draw-large-wall.js';
import { take, type Taken } from './fill-speed.js';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const rounds = 5;

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1] ?? NaN;

/**
 * The whole job, a 24-megapixel JPEG to an A4 fill at 600 dpi, as a whole process, in turn with a plain
 * sharp decode, resize, tile and PNG of the same page: wall clock, processor time, and how many times the
 * peer's each is. No longer than the peer is wanted.
 */
export async function benchWholeJob(): Promise<void> {
  const { folder, photo } = await drawLargeWall();
  const ours = join(folder, 'ours.png');
  const peer = join(folder, 'peer.png');
  const cli = here('../../../packages/cli/bin/gaugerod.js');
  const fill = ['--course', 'uk-metric', '--size', '210x297mm', '-o', ours, '--quiet'];
  const runs = [
    // 1.2 mm a pixel at 1:76.2 and 600 dpi: 0.372001 dots a pixel.
    {
      name: 'sharp decode + resize + tile + PNG, OO',
      argv: [here('peer-sharp.js'), photo, peer, '0.372001'],
    },
    {
      name: 'gaugerod fill, OO',
      argv: [cli, 'fill', photo, ...fill, '--scale', 'OO', '--no-config'],
    },
    {
      name: 'gaugerod fill, N-UK',
      argv: [cli, 'fill', photo, ...fill, '--scale', 'N-UK', '--no-config'],
    },
  ].map((run) => ({ ...run, taken: [] as Taken[] }));
  for (let round = -1; round < rounds; round++) {
    for (const { argv, taken } of runs) {
      const one = take(argv);
      if (round >= 0) taken.push(one);
    }
  }
  const told = (nth: number, key: 'wall' | 'processor'): string => {
    const of = (at: number): number => median((runs[at]?.taken ?? []).map((one) => one[key]));
    return `${of(nth).toFixed(0)} ms (x${(of(nth) / of(0)).toFixed(2)})`;
  };
  for (const [nth, { name }] of runs.entries()) {
    console.log(`${name.padEnd(40)} ${told(nth, 'wall')}, processor ${told(nth, 'processor')}`);
  }
  for (const [name, path] of [
    ['ours', ours],
    ['peer', peer],
  ] as const) {
    console.log(`${name}: ${(statSync(path).size / 1e6).toFixed(1)} MB`);
  }
}
