import { createRaster, cropRaster, inspectSeams, type Raster } from '@gaugerod/core';
import { drawWall, sampleWalls, type WallTruth } from '@gaugerod/fixtures';

/** A wall cut from bed joint to bed joint, which repeats, and the wall it was cut from. */
interface Cut {
  readonly raster: Raster;
  readonly truth: WallTruth;
  readonly top: number;
  readonly height: number;
  /** 0 up to 1, the same for the same wall. */
  readonly lot: number;
}

const damages: Readonly<Record<string, (cut: Cut) => Raster>> = {
  'random cut': ({ raster, truth, top, height, lot }) => {
    const course = truth.coursePx;
    const rest = Math.round((0.2 + 0.6 * lot) * course);
    return rows(raster, Math.max(0, top - Math.round(lot * course)), height - rest);
  },
  'light gradient': ({ raster, top, height, lot }) => {
    const out = rows(raster, top, height);
    for (const plane of out.planes) {
      for (let i = 0; i < plane.length; i++)
        plane[i]! *= 1 + (0.2 + 0.2 * lot) * (i / plane.length);
    }
    return out;
  },
  'half a course': ({ raster, truth, top, height }) =>
    rows(raster, top, height - Math.round(truth.coursePx / 2)),
  'misfit of 2 to 4 px': ({ raster, top, height, lot }) =>
    rows(raster, top, height - 2 - Math.round(2 * lot)),
};

/**
 * Print how well seams are told from none: the share of pairs, one wall that repeats and one that
 * does not, of which the second scores higher.
 *
 * @param seed - Of the walls.
 * @param count - How many.
 */
export function judgeInspection(seed: number, count: number): void {
  const cuts = sampleWalls(seed, 3 * count)
    .filter(({ params }) => (params.coursePx ?? 0) >= 20)
    .slice(0, count)
    .map(({ params }, index) =>
      cutAtJoints(
        drawWall({ ...params, falloff: 0, vignette: 0, shadow: 0, soot: 0, lime: 0 }),
        (index * 0.618) % 1,
      ),
    )
    .filter((cut) => cut !== null);
  const good = cuts.flatMap(({ raster, top, height }) => scores(rows(raster, top, height)));
  const passed = good.filter((score) => score <= 1).length / good.length;
  console.log(`walls that repeat: ${good.length}, told so ${(100 * passed).toFixed(1)} %`);
  const all: number[] = [];
  for (const [name, damage] of Object.entries(damages)) {
    const bad = cuts.flatMap((cut) => scores(damage(cut)));
    all.push(...bad);
    const caught = bad.filter((score) => score > 1).length / bad.length;
    console.log(`${name}: AUC ${area(good, bad)}, told so ${(100 * caught).toFixed(1)} %`);
  }
  console.log(`all of these: AUC ${area(good, all)}`);
  const mirrored = cuts.filter((cut) => warned(mirror(rows(cut.raster, cut.top, cut.height))));
  const wronged = cuts.filter((cut) => warned(rows(cut.raster, cut.top, cut.height)));
  console.log(
    `mirrored, warned of: ${mirrored.length} of ${cuts.length}; warned of wrongly: ${wronged.length}`,
  );
}

function cutAtJoints(
  { raster, truth }: { readonly raster: Raster; readonly truth: WallTruth },
  lot: number,
): Cut | null {
  const joints = truth.bedJoints;
  const courses = Math.round(truth.repeat.y / truth.coursePx);
  const repeats = Math.floor((joints.length - 1) / courses);
  if (repeats < 1) return null;
  const top = Math.round(joints[0]!);
  const bottom = Math.round(joints[repeats * courses]!);
  return { raster, truth, top, height: Math.min(raster.height, bottom) - top, lot };
}

function rows(raster: Raster, top: number, height: number): Raster {
  return cropRaster(raster, { x: 0, y: top, width: raster.width, height });
}

// Both ways: a wall on its side is one whose perpends run through.
function scores(raster: Raster): number[] {
  return [inspectSeams(raster).y.seamScore, inspectSeams(turned(raster)).x.seamScore];
}

function turned({ width, height, planes }: Raster): Raster {
  const out = createRaster(height, width);
  for (let channel = 0; channel < 3; channel++) {
    const from = planes[channel]!;
    const to = out.planes[channel]!;
    for (let at = 0; at < from.length; at++) {
      const x = at % width;
      to[x * height + (at - x) / width] = from[at]!;
    }
  }
  return out;
}

function mirror({ width, height, planes }: Raster): Raster {
  const out = createRaster(width, 2 * height);
  for (let channel = 0; channel < 3; channel++) {
    const from = planes[channel]!;
    const to = out.planes[channel]!;
    for (let y = 0; y < height; y++) {
      const row = from.subarray(y * width, (y + 1) * width);
      to.set(row, y * width);
      to.set(row, (2 * height - 1 - y) * width);
    }
  }
  return out;
}

function warned(raster: Raster): boolean {
  return inspectSeams(raster).warnings.some(
    ({ code, message }) => code === 'mirrored' && message.includes('above'),
  );
}

function area(good: readonly number[], bad: readonly number[]): string {
  let won = 0;
  for (const one of good) {
    for (const other of bad) won += other > one ? 1 : other === one ? 0.5 : 0;
  }
  return (won / (good.length * bad.length)).toFixed(4);
}
