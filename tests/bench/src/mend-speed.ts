import { evenLight, mendTile, toPrintResolution } from '@gaugerod/core';
import { decodePhoto, drawWall, encodePhoto } from '@gaugerod/fixtures';

const runs = 5;

/**
 * Time mending: a photo of 24 million pixels at print size, and a tile of 2048 x 2048. Processor time tells
 * more on a machine that has other work; it holds what the compiler and the collector take besides.
 */
export async function benchMendSpeed(): Promise<void> {
  const photo = drawWall({ bond: 'flemish', coursePx: 60, width: 6000, height: 4000, seed: 5 });
  const file = await encodePhoto(photo.raster, { format: 'jpeg' });
  const { truth } = photo;
  // 1:148, 25.4 mm to the inch, 600 dots to that.
  const factor = {
    x: ((truth.mmPerPx.x / 148) * 600) / 25.4,
    y: ((truth.mmPerPx.y / 148) * 600) / 25.4,
  };
  const times = { decoding: [] as Span[], scaling: [] as Span[], mending: [] as Span[] };
  for (let run = 0; run < runs; run++) {
    const start = now();
    const raster = await decodePhoto(file);
    const decoded = now();
    const print = toPrintResolution(raster, { factor });
    const scaled = now();
    const joints = {
      axis: 'y',
      course: truth.coursePx * factor.y,
      offset: truth.courseOffset * factor.y,
    } as const;
    const unit = { x: truth.brickPx * factor.x, y: joints.course };
    const { raster: even } = evenLight(print, { along: { x: true, y: true }, unit, joints });
    const repeat = { x: truth.repeat.x * factor.x, y: truth.repeat.y * factor.y };
    mendTile(even, { repeat, joints: { ...joints, brick: unit.x } });
    times.decoding.push(since(start, decoded));
    times.scaling.push(since(decoded, scaled));
    times.mending.push(since(scaled, now()));
    if (run === 0) console.log(`24 MP at 1:148, 600 dpi: ${print.width} x ${print.height} dots`);
  }
  for (const [name, values] of Object.entries(times)) console.log(`  ${name}: ${inWords(values)}`);

  const wall = drawWall({ bond: 'flemish', coursePx: 24, width: 2168, height: 2108, seed: 6 });
  const { coursePx, courseOffset, brickPx, repeat } = wall.truth;
  const joints = { axis: 'y', course: coursePx, offset: courseOffset, brick: brickPx } as const;
  const tiles: Span[] = [];
  let size = '';
  for (let run = 0; run < runs; run++) {
    const start = now();
    const made = mendTile(wall.raster, { repeat, joints });
    tiles.push(since(start, now()));
    if (made.ok) size = `${made.value.raster.width} x ${made.value.raster.height}`;
  }
  console.log(`a tile of ${size}: ${inWords(tiles)}`);
}

interface Span {
  readonly wall: number;
  readonly processor: number;
}

function now(): Span {
  const { user, system } = process.cpuUsage();
  return { wall: performance.now(), processor: (user + system) / 1000 };
}

function since(from: Span, to: Span): Span {
  return { wall: to.wall - from.wall, processor: to.processor - from.processor };
}

function inWords(spans: readonly Span[]): string {
  const [wall, processor] = [spans.map((span) => span.wall), spans.map((span) => span.processor)];
  return `${median(wall)} ms, of the processor ${median(processor)} (${Math.min(...processor).toFixed(0)} at least)`;
}

function median(values: readonly number[]): string {
  return (values.toSorted((a, b) => a - b)[values.length >> 1] ?? NaN).toFixed(0);
}
