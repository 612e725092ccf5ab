import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findCourse, measurePhotos } from '@gaugerod/core';
import { createRandom, drawWall, encodePhoto, type Random, seedOf } from '@gaugerod/fixtures';
import sharp, { type Sharp } from 'sharp';
import { drawings } from '../drawing-seeds.js';
import { mutate } from '../mutate.js';

/** How many pictures are measured. */
export interface MixedOptions {
  /** Pictures in all. */
  readonly files: number;
  /** How many of them differ; then they come again. */
  readonly different: number;
  /** Any integer: the same one makes the same pictures. */
  readonly seed: number;
  /** Told after each. */
  readonly onEach?: (done: number) => Promise<void>;
}

/** What came of them. */
export interface MixedReport {
  /** How many ended in which way: `measured`, or the code of what was in the way. */
  readonly ends: ReadonlyMap<string, number>;
  /** What should never be. */
  readonly bugs: readonly string[];
  /** The longest that one took, in milliseconds. */
  readonly slowest: number;
}

type Encode = (picture: Sharp) => Sharp;

const formats: readonly [Encode, ...Encode[]] = [
  (picture) => picture.jpeg({ quality: 85 }),
  (picture) => picture.jpeg({ progressive: true }),
  (picture) => picture.png(),
  (picture) => picture.png({ palette: true }),
  (picture) => picture.webp(),
  (picture) => picture.tiff({ compression: 'lzw' }),
  (picture) => picture.avif({ effort: 0 }),
  (picture) => picture.gif({ effort: 1 }),
];

type Walls = readonly [Buffer, ...Buffer[]];

async function drawWalls(): Promise<Walls> {
  const draw = async (bond: 'stretcher' | 'flemish' | 'english', coursePx: number) => {
    const { raster } = drawWall({ bond, coursePx, width: 200, height: 170, seed: coursePx });
    return encodePhoto(raster, { format: 'png' });
  };
  return [await draw('stretcher', 17), await draw('flemish', 12), await draw('english', 14)];
}

// Whole pictures of all sizes and formats; some of them changed, cut or no pictures at all.
async function makeFile(random: Random, walls: Walls): Promise<Buffer> {
  const size = {
    width: 96 + Math.floor(random.between(0, 96)),
    height: 80 + Math.floor(random.between(0, 80)),
  };
  const shown = sharp(random.pick(walls)).extract({ left: 0, top: 0, ...size });
  const bytes = await random.pick(formats)(shown).toBuffer();
  const kind = random.next();
  if (kind < 0.6) return bytes;
  if (kind < 0.75) return mutate(random, { seeds: [bytes], words: [] });
  if (kind < 0.85) return bytes.subarray(0, Math.floor(random.between(0, bytes.length)));
  return Buffer.from(
    random.pick(['', 'a wall, seen from the quay\n', ...drawings, '\0'.repeat(99)]),
  );
}

/**
 * Measure pictures of every kind, good and bad, small ones: what grows from one to the next shows by their number.
 *
 * @param options - How many.
 * @returns What came of them.
 */
export async function measureMixed(options: MixedOptions): Promise<MixedReport> {
  const { files, different, seed, onEach } = options;
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-many-'));
  const walls = await drawWalls();
  const made: string[] = [];
  for (let index = 0; index < Math.min(files, different); index++) {
    const path = join(folder, `${index}.jpg`);
    writeFileSync(path, await makeFile(createRandom(seedOf(seed, index)), walls));
    made.push(path);
  }
  const listed = made.length;
  let since = 0;
  function* paths(): Generator<string> {
    for (let index = 0; index < files; index++) {
      since = performance.now();
      yield made[index % listed]!;
    }
  }
  const ends = new Map<string, number>();
  const bugs: string[] = [];
  let [slowest, done] = [0, 0];
  try {
    const course = findCourse('uk-metric');
    for await (const { path, outcome, cause } of measurePhotos(paths(), { course })) {
      slowest = Math.max(slowest, performance.now() - since);
      const end = outcome.ok ? 'measured' : outcome.code;
      ends.set(end, (ends.get(end) ?? 0) + 1);
      if (end === 'bug') bugs.push(`${path}: ${cause?.stack ?? ''}`);
      await onEach?.(++done);
    }
    const beside = readdirSync(folder).length - listed;
    if (beside !== 0) bugs.push(`${beside} files more than there were`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { ends, bugs, slowest };
}
