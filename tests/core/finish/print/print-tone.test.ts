import { changeColours, type ColourTable, toPrintTable } from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';

function change(table: ColourTable | null, colour: readonly number[]): number[] {
  if (table === null) throw new Error('no table');
  const colours = Float32Array.from(colour);
  changeColours(table, colours);
  return [...colours];
}

// IEC 61966-2-1:1999.
function toLight(level: number): number {
  return level <= 0.04045 ? level / 12.92 : ((level + 0.055) / 1.055) ** 2.4;
}

function toLevel(light: number): number {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
}

const level = fc.double({ min: 0, max: 1, noNaN: true });

test('nothing asked for is nothing done', () => {
  expect(toPrintTable({})).toBeNull();
  expect(toPrintTable({ saturation: 1, dotGain: 0, inkLimit: 3 })).toBeNull();
});

test('a table whose corners lie on a plane gives the plane everywhere between them', () => {
  // Whatever tetrahedron a colour lies in, what is linear comes out exactly.
  const size = 5;
  const values = new Float32Array(3 * size ** 3);
  const plane = (r: number, g: number, b: number): number[] => [
    0.1 + 0.3 * r + 0.2 * g + 0.1 * b,
    0.8 - 0.2 * r + 0.1 * b,
    0.5 * g + 0.4 * b,
  ];
  for (let i = 0; i < size ** 3; i++) {
    const [r, g, b] = [Math.floor(i / 25), Math.floor(i / 5) % 5, i % 5].map((at) => at / 4);
    values.set(plane(r ?? 0, g ?? 0, b ?? 0), 3 * i);
  }
  fc.assert(
    fc.property(level, level, level, (r, g, b) => {
      const out = change({ size, values }, [r, g, b]);
      plane(r, g, b).forEach((value, i) => {
        expect(out[i]).toBeCloseTo(value, 5);
      });
    }),
  );
});

test.each([0.05, 0.12, 0.18, 0.24])(
  'grey of half the light comes out as that from a printer with a dot gain of %d',
  (gain) => {
    // Murray 1936: half the light is half covered; ISO 12647-1 tells the gain at a half. Of a smaller dot what is sent
    // must grow into half the paper: a + 4 gain a (1 - a) = 1/2, the usual parabola through that.
    const [sent = 0] = change(toPrintTable({ dotGain: gain }), [0.5, 0.5, 0.5].map(toLevel));
    const dot = 1 - toLight(sent);
    expect(dot + 4 * gain * dot * (1 - dot)).toBeCloseTo(0.5, 3);
  },
);

test('dot gain leaves black and white, and never turns an order of greys about', () => {
  const table = toPrintTable({ dotGain: 0.2 });
  for (const end of [0, 1]) expect(change(table, [end, end, end])[1]).toBeCloseTo(end, 6);
  const greys = Array.from(
    { length: 256 },
    (_, i) =>
      change(
        table,
        [i, i, i].map((x) => x / 255),
      )[0]!,
  );
  greys.forEach((grey, i) => {
    expect(grey).toBeGreaterThanOrEqual(greys[i - 1] ?? 0);
    expect(grey).toBeGreaterThanOrEqual(i / 255 - 1e-6);
  });
});

test('no colour takes more ink than the limit, and light ones stay as they are', () => {
  const table = toPrintTable({ inkLimit: 2.2 });
  fc.assert(
    fc.property(level, level, level, (r, g, b) => {
      const ink = 3 - r - g - b;
      const out = change(table, [r, g, b]);
      const laid = 3 - out[0]! - out[1]! - out[2]!;
      expect(laid).toBeLessThanOrEqual(2.2 + 1e-5);
      // Half a corner's spacing from where it begins to be held back.
      if (ink < 0.8 * 2.2 - 3 / 32) expect(laid).toBeCloseTo(ink, 5);
    }),
  );
});

test.each([0.5, 1.4, 2.2, 2.8, 2.99])(
  'black takes just the most ink, at a limit of %d',
  (limit) => {
    const [r = 0, g = 0, b = 0] = change(toPrintTable({ inkLimit: limit }), [0, 0, 0]);
    expect(3 - r - g - b).toBeCloseTo(limit, 4);
    const laid = Array.from({ length: 256 }, (_, i) => {
      const grey = change(toPrintTable({ inkLimit: limit }), [i / 255, i / 255, i / 255]);
      return 3 - grey.reduce((sum, value) => sum + value, 0);
    });
    laid.forEach((ink, i) => {
      expect(ink).toBeLessThanOrEqual(laid[i - 1] ?? limit + 1e-4);
    });
  },
);

test('a limit just under the most ink there is changes hardly anything', () => {
  fc.assert(
    fc.property(level, level, level, (r, g, b) => {
      const out = change(toPrintTable({ inkLimit: 2.999 }), [r, g, b]);
      [r, g, b].forEach((value, i) => {
        expect(Math.abs(out[i]! - value)).toBeLessThan(0.001);
      });
    }),
    { numRuns: 50 },
  );
});

test.each([0.12, 0.24])(
  'every grey, near black too, is right to half a level at a gain of %d',
  (gain) => {
    // As above: a + 4 gain a (1 - a) of the paper must be covered.
    const table = toPrintTable({ dotGain: gain });
    for (let i = 0; i <= 255; i++) {
      const [sent = 0] = change(table, [i / 255, i / 255, i / 255]);
      const dot = 1 - toLight(sent);
      const covered = dot + 4 * gain * dot * (1 - dot);
      expect(Math.abs(255 * toLevel(Math.max(0, 1 - covered)) - i)).toBeLessThan(0.5);
    }
  },
);

test('saturation leaves greys, and doubles or takes away the distance from them', () => {
  fc.assert(
    fc.property(level, fc.double({ min: 0, max: 2, noNaN: true }), (grey, saturation) => {
      const table = toPrintTable({ saturation, inkLimit: 2.999 });
      const out = change(table, [grey, grey, grey]);
      expect(Math.max(...out) - Math.min(...out)).toBeLessThan(1e-5);
    }),
    { numRuns: 20 },
  );
  // ITU-R BT.709: 0.2126, 0.7152, 0.0722; 0.5 0.4 0.4 has a luma of 0.42126.
  const double = change(toPrintTable({ saturation: 2 }), [0.5, 0.4, 0.4]);
  expect(double[0]).toBeCloseTo(2 * 0.5 - 0.42126, 4);
  expect(double[1]).toBeCloseTo(2 * 0.4 - 0.42126, 4);
  const none = change(toPrintTable({ saturation: 0 }), [0.5, 0.4, 0.4]);
  for (const value of none) expect(value).toBeCloseTo(0.42126, 4);
});
