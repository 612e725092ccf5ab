import { evenLight, type EvenOptions, meanLight, type Raster } from '@gaugerod/core';
import { drawTexture, drawWall } from '@gaugerod/fixtures';
import { describe, expect, test } from 'vitest';

const clean = { wear: 0, soot: 0, lime: 0, contrast: 0, exposure: 0.8 } as const;
const uneven = { falloff: 0.5, falloffAngle: 60, vignette: 0.3 } as const;
const cells = 8;

// Logarithms of how light one picture is against another, in 8 x 8 parts.
function fieldOf(a: Raster, b: Raster): number[] {
  const field: number[] = [];
  for (let part = 0; part < cells * cells; part++) {
    const [column, row] = [part % cells, Math.floor(part / cells)];
    let [ours, theirs] = [0, 0];
    for (let y = Math.floor((row * a.height) / cells); y < ((row + 1) * a.height) / cells; y++) {
      for (
        let x = Math.floor((column * a.width) / cells);
        x < ((column + 1) * a.width) / cells;
        x++
      ) {
        ours += a.planes[1][y * a.width + x] ?? 0;
        theirs += b.planes[1][y * a.width + x] ?? 0;
      }
    }
    field.push(Math.log(ours / theirs));
  }
  return field;
}

function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}

describe.each([11, 12, 13])('a wall of seed %i', (seed) => {
  const wall = { bond: 'english', coursePx: 20, width: 640, height: 480, seed, ...clean } as const;
  const lit = drawWall({ ...wall, ...uneven, vignette: 0.3 });
  const plain = drawWall({ ...wall, falloff: 0, vignette: 0 });
  const { brickPx, coursePx, courseOffset } = lit.truth;
  const options: EvenOptions = {
    along: { x: true, y: true },
    unit: { x: brickPx, y: coursePx },
    joints: { axis: 'y', course: coursePx, offset: courseOffset },
  };
  const evened = evenLight(lit.raster, options);

  // The same wall drawn in even light is the truth: what is left of the difference between the two,
  // once both were evened.
  test('loses nearly all of its fall-off and vignette', () => {
    const before = deviation(fieldOf(lit.raster, plain.raster));
    const after = deviation(fieldOf(evened.raster, evenLight(plain.raster, options).raster));
    // The design's goal: slow variation down ten times or more.
    expect(before / after).toBeGreaterThan(10);
  });

  test('is as light as before', () => {
    const [before, after] = [meanLight(lit.raster), meanLight(evened.raster)];
    for (const channel of [0, 1, 2] as const) {
      expect(Math.abs(after[channel] / before[channel] - 1)).toBeLessThan(0.001);
    }
  });

  test('tells how uneven it was, and where', () => {
    expect(evened.strengthPercent).toBeGreaterThan(40);
    expect(evened.lightest).toContain('right');
    expect(evened.darkest).toContain('left');
  });

  test('keeps the difference from brick to brick', () => {
    const spread = (raster: Raster): number => {
      // Rows along the middle of a course: differences of neighbouring bricks, in logarithms.
      const y = Math.round(courseOffset + 10.5 * coursePx);
      const lights: number[] = [];
      for (let x = brickPx / 4; x < raster.width - brickPx / 4; x += brickPx / 2) {
        lights.push(Math.log((raster.planes[1][y * raster.width + Math.floor(x)] ?? 0) + 1e-4));
      }
      return deviation(lights.slice(1).map((light, i) => light - (lights[i] ?? 0)));
    };
    expect(spread(evened.raster) / spread(lit.raster)).toBeGreaterThan(0.95);
    expect(spread(evened.raster) / spread(lit.raster)).toBeLessThan(1.05);
  });
});

test('light is left along an axis on which a picture meets itself', () => {
  const { raster } = drawTexture({
    texture: 'render',
    width: 300,
    height: 200,
    seed: 3,
    falloff: 0.6,
  });
  const options = { along: { x: false, y: false }, unit: { x: null, y: null }, joints: null };
  const { raster: same, strengthPercent, lightest } = evenLight(raster, options);
  expect(same).toBe(raster);
  expect(strengthPercent).toBe(0);
  expect(lightest).toBeNull();
});

test('one black course does not lighten the picture about it', () => {
  const { raster, truth } = drawWall({ coursePx: 20, width: 600, height: 400, seed: 9, ...clean });
  const stained = { ...raster, planes: [...raster.planes] };
  const [red, green, blue] = raster.planes.map((plane) => {
    const copy = plane.slice();
    copy.fill(0.001, 200 * 600, 220 * 600);
    return copy;
  });
  if (!red || !green || !blue) throw new Error('three planes');
  const options: EvenOptions = {
    along: { x: true, y: true },
    unit: { x: truth.brickPx, y: truth.coursePx },
    joints: { axis: 'y', course: truth.coursePx, offset: truth.courseOffset },
  };
  const alone = evenLight(raster, options).raster;
  const beside = evenLight({ ...stained, planes: [red, green, blue] }, options).raster;
  const top = (picture: Raster): Raster => ({
    width: 600,
    height: 180,
    planes: [
      picture.planes[0].subarray(0, 600 * 180),
      picture.planes[1].subarray(0, 600 * 180),
      picture.planes[2].subarray(0, 600 * 180),
    ],
  });
  expect(deviation(fieldOf(top(beside), top(alone)))).toBeLessThan(0.02);
});

test('a dark coping above a wall and a dark plinth below it do not make it lighter at both ends', () => {
  const wall = drawWall({ coursePx: 12, width: 600, height: 400, seed: 32, ...clean });
  const { width, planes } = wall.raster;
  const [red, green, blue] = planes;
  const ends = (plane: Float32Array): Float32Array =>
    plane.map((light, i) => (i < 30 * width || i >= 360 * width ? 0.35 * light : light));
  const dark: Raster = { ...wall.raster, planes: [ends(red), ends(green), ends(blue)] };
  const inside = (raster: Raster): Raster => ({
    width,
    height: 320,
    planes: [
      raster.planes[0].subarray(35 * width, 355 * width),
      raster.planes[1].subarray(35 * width, 355 * width),
      raster.planes[2].subarray(35 * width, 355 * width),
    ],
  });
  const evened = [wall.raster, dark].map((raster) => evenLight(raster, optionsOf(wall)));
  expect(evened[1]!.shadowed).toBe(0);
  // A tenth of their own step, which is ln(1 / 0.35) = 1.05.
  expect(deviation(fieldOf(inside(evened[1]!.raster), inside(evened[0]!.raster)))).toBeLessThan(
    0.1,
  );
});

const anything = { along: { x: true, y: true }, unit: { x: null, y: null }, joints: null } as const;

function optionsOf({ truth }: ReturnType<typeof drawWall>): EvenOptions {
  const { brickPx, coursePx, courseOffset } = truth;
  return {
    along: { x: true, y: true },
    unit: { x: brickPx, y: coursePx },
    joints: { axis: 'y', course: coursePx, offset: courseOffset },
  };
}

test('a hard shadow is told of, and its edge is left without a halo', () => {
  const wall = { bond: 'header', coursePx: 16, width: 700, height: 560, ...clean } as const;
  for (const seed of [1, 2, 3, 4, 5, 6]) {
    const [bright, shaded] = [0, 0.45].map((shadow) => drawWall({ ...wall, seed, shadow }));
    if (!bright || !shaded) throw new Error('two walls');
    const [plain, evened] = [bright, shaded].map((drawn) =>
      evenLight(drawn.raster, optionsOf(drawn)),
    );
    if (!plain || !evened) throw new Error('two pictures');
    expect(plain.shadowed).toBe(0);
    expect(evened.shadowed).toBeGreaterThan(0.08);
    // What the shadow did to the picture, it does still: a halo would be a part of it evened away.
    const before = fieldOf(shaded.raster, bright.raster);
    const after = fieldOf(evened.raster, plain.raster);
    expect(deviation(before.map((light, i) => light - (after[i] ?? 0)))).toBeLessThan(
      0.35 * deviation(before),
    );
  }
});

test('light that falls off down a wall is lightest at its top, whatever its left and right', () => {
  const down = drawWall({ coursePx: 16, width: 640, height: 480, seed: 27, ...clean, falloff: 0 });
  const lit = down.raster.planes.map((plane) =>
    plane.map((light, i) => light * Math.exp(-0.5 * (i / plane.length))),
  );
  const [red, green, blue] = lit;
  if (!red || !green || !blue) throw new Error('three planes');
  const raster: Raster = { ...down.raster, planes: [red, green, blue] };
  const options = { ...optionsOf(down), along: { x: false, y: true } };
  expect(evenLight(raster, options)).toMatchObject({ lightest: 'top', darkest: 'foot' });
});

test('light that falls off is no shadow', () => {
  for (const seed of [21, 22, 23, 24, 25, 26]) {
    const lit = drawWall({ coursePx: 16, width: 640, height: 480, seed, ...clean, falloff: 0.7 });
    expect(evenLight(lit.raster, optionsOf(lit)).shadowed).toBe(0);
  }
});

test('a wall of few blocks is left: they may happen to be dark on one side', () => {
  const few = drawWall({ coursePx: 150, width: 600, height: 340, seed: 5, ...uneven });
  expect(evenLight(few.raster, optionsOf(few)).raster).toBe(few.raster);
});

test('a dark plinth below a wall does not lighten the courses above it', () => {
  const wall = drawWall({ coursePx: 20, width: 600, height: 400, seed: 31, ...clean });
  const { width, height, planes } = wall.raster;
  const [red, green, blue] = planes;
  const plinth = (plane: Float32Array): Float32Array =>
    plane.map((light, i) => (i < 350 * width ? light : 0.3 * light));
  const dark: Raster = { width, height, planes: [plinth(red), plinth(green), plinth(blue)] };
  const above = (raster: Raster): Raster => ({
    width,
    height: 340,
    planes: [
      raster.planes[0].subarray(0, 340 * width),
      raster.planes[1].subarray(0, 340 * width),
      raster.planes[2].subarray(0, 340 * width),
    ],
  });
  const evened = [wall.raster, dark].map((raster) => evenLight(raster, optionsOf(wall)).raster);
  // A twentieth of the plinth's own step, which is ln(1 / 0.3) = 1.2.
  expect(deviation(fieldOf(above(evened[1]!), above(evened[0]!)))).toBeLessThan(0.06);
});

describe.each(['gravel', 'stucco', 'render', 'concrete'] as const)('%s', (texture) => {
  const drawn = { texture, width: 640, height: 560, mmPerPx: 2, ...clean } as const;
  const pairs = [41, 42, 43].map((seed) => {
    const even = drawTexture({ ...drawn, seed, vignette: 0 }).raster;
    const lit = drawTexture({ ...drawn, seed, ...uneven }).raster;
    return { even, lit, evened: evenLight(lit, anything).raster };
  });

  test('loses most of its fall-off', () => {
    const left = pairs.map(({ even, lit, evened }) => {
      const light = fieldOf(lit, even);
      return slope(light, fieldOf(evened, even));
    });
    // A slope of its own that it happens to have counts for or against: over three, little.
    expect(Math.abs(left.reduce((sum, share) => sum + share, 0) / left.length)).toBeLessThan(0.5);
  });

  test('keeps its patches', () => {
    // Patch against the patch beside it, an eighth of the picture on: what is slower is light's.
    const steps = (raster: Raster): number => {
      const field = fieldOf(raster, flat(raster));
      return deviation(
        field.slice(1).flatMap((light, i) => ((i + 1) % cells ? [light - field[i]!] : [])),
      );
    };
    for (const { even, evened } of pairs) {
      expect(steps(evened) / steps(even)).toBeGreaterThan(0.9);
      expect(steps(evened) / steps(even)).toBeLessThan(1.1);
    }
  });
});

test.each(['gravel', 'stucco'] as const)('%s in even light is left nearly as it is', (texture) => {
  const taken = [51, 52, 53, 54, 55].map((seed) => {
    const even = { texture, width: 640, height: 560, mmPerPx: 2, seed, ...clean, vignette: 0 };
    return evenLight(drawTexture(even).raster, anything).strengthPercent;
  });
  expect(taken.toSorted((one, other) => one - other)[2]).toBeLessThan(15);
});

// How much of one field, both about their means, is in another.
function slope(of: readonly number[], within: readonly number[]): number {
  const mean = of.reduce((sum, value) => sum + value, 0) / of.length;
  const about = of.map((value) => value - mean);
  const product = about.reduce((sum, value, i) => sum + value * within[i]!, 0);
  return product / about.reduce((sum, value) => sum + value * value, 0);
}

// As large a picture of one light.
function flat({ width, height }: Raster): Raster {
  const plane = new Float32Array(width * height).fill(0.5);
  return { width, height, planes: [plane, plane, plane] };
}
