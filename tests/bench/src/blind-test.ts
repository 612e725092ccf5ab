import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { cropRaster, type Raster } from '@gaugerod/core';
import { encodePhoto, sampleWalls, seedRanges } from '@gaugerod/fixtures';
import { type MendedWall, mendWall } from './mend-wall.js';

const crops = 40;
const side = 320;

/**
 * Write crops of walls, half of them across a mended seam, for somebody to judge by eye; which are
 * which stands in a file apart.
 *
 * @param words - The folder to write to; and the seed to count from, unless told one of the unseen.
 */
export async function writeBlindTest(words: readonly string[]): Promise<void> {
  const [folder = join('out', 'blind'), seed = seedRanges.unseen + 90_000] = words;
  mkdirSync(folder, { recursive: true });
  const answers: Record<string, string> = {};
  let state = Number(seed) | 1;
  const lot = (): number => {
    // Marsaglia (2003), Xorshift RNGs, 32 bits.
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  for (let i = 0; i < 3; i++) lot();
  const kinds = Array.from({ length: crops }, (_, i) => ({ seam: i < crops / 2, lot: lot() }));
  kinds.sort((one, other) => one.lot - other.lot);
  let written = 0;
  for (const sample of sampleWalls(Number(seed), 3 * crops)) {
    const kind = kinds[written];
    if (kind === undefined) break;
    const { raster, truth } = await sample.draw();
    const wall = mendWall(raster, truth);
    if (wall?.tile.joins.x == null) continue;
    const crop = kind.seam ? acrossSeam(wall, lot) : insideWall(wall, lot);
    if (crop === null) continue;
    const name = `${String(++written).padStart(2, '0')}.png`;
    writeFileSync(join(folder, name), await encodePhoto(crop, { format: 'png' }));
    answers[name] = kind.seam ? 'seam' : 'none';
  }
  writeFileSync(join(folder, 'answers.json'), `${JSON.stringify(answers, null, 2)}\n`);
  console.log(`${written} crops in ${folder}; what they are stands in answers.json beside them`);
}

// The join about the middle of the crop, both ways.
function acrossSeam({ tile, even }: MendedWall, lot: () => number): Raster | null {
  const { raster } = tile;
  if (Math.min(raster.width, raster.height, even.width, even.height) < side + 40) return null;
  const left = Math.round(-side / 2 + 80 * (lot() - 0.5));
  const top = Math.round(-side / 2 + 80 * (lot() - 0.5));
  const planes = raster.planes.map((plane) => {
    const out = new Float32Array(side * side);
    for (let y = 0, at = 0; y < side; y++) {
      const row = ((top + y + raster.height) % raster.height) * raster.width;
      for (let x = 0; x < side; x++)
        out[at++] = plane[row + ((left + x + raster.width) % raster.width)]!;
    }
    return out;
  });
  const [red, green, blue] = planes;
  if (red === undefined || green === undefined || blue === undefined) return null;
  return { width: side, height: side, planes: [red, green, blue] };
}

function insideWall({ even }: MendedWall, lot: () => number): Raster | null {
  const { width, height } = even;
  if (Math.min(width, height) < side + 40) return null;
  const x = Math.floor(lot() * (width - side));
  const y = Math.floor(lot() * (height - side));
  return cropRaster(even, { x, y, width: side, height: side });
}
