import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { drawWall } from '@gaugerod/fixtures';
import { cheapestCut } from '../../../packages/core/dist/numeric/cheapest-cut.js';
import {
  joinOverlap,
  type JoinMethod,
} from '../../../packages/core/dist/seam/mend/join-overlap.js';
import { type Overlap, takeOverlap } from '../../../packages/core/dist/seam/mend/overlap.js';
import { printTimings, toTiming } from './alternate.js';
import { costOf, tellContrast, tellStep } from './compare-joins.js';
import { type PeerAnswer, type PeerProcess, startPeer } from './peer-python.js';

const rounds = 9;
const warmUps = 3;
const overlap = 256;
const margin = 16;
const height = 2048;
// How much lighter the tile's beginning is made, in roots of light: what blending is to take out.
const lighter = 0.04;

/**
 * Our seam kernels against general libraries on the same work, call by call in turn: the cheapest cut
 * through an overlap of 256 x 2048, the step along it spread in the gradient domain, and a cross-fade
 * whose contrast is kept. Times are of the kernels alone; what comes out is compared as well.
 *
 * @param words - A seed.
 */
export async function benchSeamPeers(words: readonly string[]): Promise<void> {
  const [seed = '7'] = words;
  const windows = drawWindows(Number(seed));
  const costs = differ(windows);
  const border = cheapestCut(costs, overlap).map((x) => x + margin);
  const folder = mkdtempSync(join(tmpdir(), 'seam-peers-'));
  try {
    store(join(folder, 'ending.f32'), windows.ending);
    store(join(folder, 'beginning.f32'), windows.beginning);
    store(join(folder, 'costs.f32'), [costs]);
    store(join(folder, 'border.i32'), [border]);
    const peer = await startPeer([folder, ...[windows.width, height, margin].map(String)]);
    if (typeof peer === 'string') {
      console.log(`skipped: ${peer}`);
      return;
    }
    const of = Object.entries(peer.versions).map(([name, version]) => `${name} ${version}`);
    console.log(
      `node ${process.versions.node}; ${of.join(', ')}; medians of ${rounds}, seed ${seed}`,
    );
    await raceCuts(peer, costs);
    await raceJoins(peer, { folder, windows, border });
    peer.end();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

// Two windows on one wall, a whole number of repeats apart, one a little lighter.
function drawWindows(seed: number): Overlap {
  const wall = drawWall({ bond: 'flemish', coursePx: 24, width: 1300, height, seed });
  const { x: repeat } = wall.truth.repeat;
  const period = Math.round(Math.floor(800 / repeat) * repeat);
  const windows = takeOverlap(wall.raster, { axis: 'x', start: 100, period, overlap, margin });
  for (const plane of windows.beginning) {
    for (let i = 0; i < plane.length; i++) plane[i] = Math.min(1, plane[i]! + lighter);
  }
  return windows;
}

// Squared, colours summed, where the windows overlap.
function differ({ width, ending, beginning }: Overlap): Float32Array {
  const costs = new Float32Array(overlap * height);
  for (const [channel, one] of ending.entries()) {
    const other = beginning[channel]!;
    for (let y = 0, at = 0; y < height; y++) {
      for (let x = 0, from = y * width + margin; x < overlap; x++, at++, from++) {
        costs[at] = costs[at]! + (one[from]! - other[from]!) ** 2;
      }
    }
  }
  return costs;
}

function store(path: string, parts: readonly (Float32Array | Int32Array)[]): void {
  const bytes = parts.map(({ buffer, byteOffset, byteLength }) =>
    Buffer.from(buffer, byteOffset, byteLength),
  );
  writeFileSync(path, Buffer.concat(bytes));
}

function load(path: string, { width }: Overlap): readonly Float32Array[] {
  const { buffer, byteOffset } = Uint8Array.from(readFileSync(path));
  const size = width * height;
  return [0, 1, 2].map(
    (channel) => new Float32Array(buffer, byteOffset + 4 * size * channel, size),
  );
}

async function raceCuts(peer: PeerProcess, costs: Float32Array): Promise<void> {
  const ours = { name: 'cheapestCut', run: () => cheapestCut(costs, overlap) };
  const cost = costOf(cheapestCut(costs, overlap), costs).toFixed(4);
  const down = await race(peer, ours, {
    name: 'scikit-image MCP, steps down alone',
    kernel: 'cut',
  });
  console.log(`  the cut costs ${cost}, theirs ${(down.cost ?? NaN).toFixed(4)}`);
  const any = await race(peer, ours, { name: 'scikit-image route_through_array', kernel: 'route' });
  console.log(
    `  the cut costs ${cost}, theirs, which may turn back, ${(any.cost ?? NaN).toFixed(4)}`,
  );
}

async function raceJoins(
  peer: PeerProcess,
  { folder, windows, border }: { folder: string; windows: Overlap; border: Int32Array },
): Promise<void> {
  const made = (method: JoinMethod): readonly Float32Array[] =>
    joinOverlap(windows, { method, border, closed: false });
  await race(
    peer,
    { name: 'joinOverlap, gradient', run: () => made('gradient') },
    { name: 'OpenCV seamlessClone, 8 bits', kernel: 'clone' },
  );
  const clone = load(join(folder, 'clone.f32'), windows);
  console.log(`  cut alone: ${tellStep(made('cut'), border, windows)}`);
  console.log(`  ours:      ${tellStep(made('gradient'), border, windows)}`);
  console.log(`  theirs:    ${tellStep(clone, border, windows)}`);
  await race(
    peer,
    { name: 'joinOverlap, blend', run: () => made('blend') },
    { name: 'numpy fade, scikit-image match_histograms', kernel: 'fade' },
  );
  console.log(`  ours:      ${tellContrast(made('blend'), windows)}`);
  console.log(`  theirs:    ${tellContrast(load(join(folder, 'fade.f32'), windows), windows)}`);
}

// Ours and theirs in turn, by the clock of each process and by its processor time.
async function race(
  peer: PeerProcess,
  ours: { readonly name: string; readonly run: () => unknown },
  theirs: { readonly name: string; readonly kernel: string },
): Promise<PeerAnswer> {
  const samples = { clock: [[], []] as number[][], processor: [[], []] as number[][] };
  let answer: PeerAnswer | undefined;
  for (let round = -warmUps; round < rounds; round++) {
    const spent = process.cpuUsage();
    const start = performance.now();
    ours.run();
    const ms = performance.now() - start;
    const { user, system } = process.cpuUsage(spent);
    answer = await peer.run(theirs.kernel);
    if (round < 0) continue;
    samples.clock[0]!.push(ms);
    samples.processor[0]!.push((user + system) / 1000);
    samples.clock[1]!.push(answer.ms);
    samples.processor[1]!.push(answer.cpu);
  }
  for (const [by, [mine = [], peers = []]] of Object.entries(samples)) {
    printTimings([
      toTiming(`${ours.name}, by ${by}`, mine),
      toTiming(`${theirs.name}, by ${by}`, peers),
    ]);
  }
  if (answer === undefined) throw new Error('no rounds');
  return answer;
}
