import { dpi, findSection } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { drawStrip, mm, oneTo, type ReadStrip } from '../../support/relief-strip.js';

function rowsOf({ data, width, height }: ReadStrip): Buffer[] {
  return Array.from({ length: height }, (_, y) =>
    data.subarray(3 * y * width, 3 * (y + 1) * width),
  );
}

describe('a weathered girder', () => {
  const girder = {
    ...{ section: findSection('IPE 600'), length: mm(4000), scale: oneTo(76.2), copies: 2 },
    ...{ colour: '#808080', dpi: dpi(300) },
  } as const;

  test('is lit after it is sooted: its lines are in step with what lies under them', async () => {
    // W3C Compositing and Blending 1, 10.1.3: of what is darker than one half overlay of white leaves twice as
    // much, so that a light line on soot is as many times as light as on clean paint. Neither is dark on the whole.
    const lines = { ...girder, colour: '#7c7c7c', copies: 1 };
    const clean = await drawStrip(lines);
    const sooted = await drawStrip({ ...lines, weather: { soot: 0.6 } });
    const flat = await drawStrip({ ...lines, strength: 0 });
    const ground = await drawStrip({ ...lines, strength: 0, weather: { soot: 0.6 } });
    // The light line along the top is of the highest row of all.
    const row = ({ data, width }: ReadStrip, y: number): number[] =>
      Array.from({ length: width }, (_, x) => data[3 * (y * width + x)] ?? NaN);
    const share = (lit: ReadStrip, under: ReadStrip): number[] =>
      row(lit, 1).map((level, x) => level / (row(under, 1)[x] ?? NaN));
    const [paint, soot] = [share(clean, flat), share(sooted, ground)];
    expect(Math.max(...row(ground, 1))).toBeLessThan(0.9 * 0x7c);
    for (const [x, times] of soot.entries()) {
      expect(Math.abs(times - (paint[x] ?? NaN))).toBeLessThan(0.06);
    }
  });

  test('has a past of its own, piece by piece, and the same one every time', async () => {
    const weather = { preset: 'derelict', seed: 4 } as const;
    const strip = await drawStrip({ ...girder, weather });
    const rows = rowsOf(strip);
    const high = (strip.height - 12) / 2;
    const [first, second] = [rows.slice(0, high), rows.slice(-high)];
    expect(Buffer.concat(first).equals(Buffer.concat(second))).toBe(false);
    const again = await drawStrip({ ...girder, weather });
    expect(again.data.equals(strip.data)).toBe(true);
    const { made } = strip;
    // Masonry alone has salts and mended places, and most girders stand on no ground.
    expect(made.weather).toMatchObject({ soot: 0.45, rust: 0.7, salts: 0, patches: 0, damp: 0 });
  });

  test('of no strength is a clean one, to the byte', async () => {
    const clean = await drawStrip(girder);
    const none = await drawStrip({ ...girder, weather: { soot: 0, rust: 0 } });
    expect(none.data.equals(clean.data)).toBe(true);
    expect(none.made.weather).toMatchObject({ soot: 0, rust: 0, seed: 1 });
  });

  test('is damp where it is said to stand, and nowhere else', async () => {
    await expect(drawStrip({ ...girder, weather: { damp: 0.5 } })).rejects.toThrow(
      /expected a foot beside it, for most pieces stand nowhere for damp, got 0.5/,
    );
    const { made } = await drawStrip({ ...girder, weather: { damp: 0.5, foot: 8 } });
    expect(made.weather).toMatchObject({ damp: 0.5 });
    await expect(drawStrip({ ...girder, weather: { seed: 3 } })).rejects.toThrow(
      /expected a preset or a strength of weather beside it for seed/,
    );
  });
});

describe('weathered joinery', () => {
  const door = {
    ...{ profile: 'door' as const, length: mm(900), depth: mm(2000), panes: { x: 1, y: 2 } },
    ...{ scale: oneTo(76.2), colour: '#909090', dpi: dpi(300), strength: 0 },
  } as const;

  test('grows moss on the edges of its panels, and none in the middle of them', async () => {
    const { data, width, height } = await drawStrip({ ...door, weather: { moss: 1 } });
    // How many of a row's dots are no longer grey.
    const green = Array.from({ length: height }, (_, y) => {
      const row = Array.from({ length: width }, (__, x) => 3 * (y * width + x));
      return row.filter((at) => data[at] !== data[at + 2]).length / width;
    });
    const share = (from: number, to: number): number => {
      const rows = green.slice(Math.round(from * height), Math.round(to * height));
      return rows.reduce((sum, one) => sum + one, 0) / rows.length;
    };
    // Stiles and rails of 100 mm, of 2000: the middle rail is from 950 to 1050; moss reaches 70 mm over an edge and
    // 230 mm under it.
    expect(share(0.475, 0.575)).toBeGreaterThan(0.5);
    expect(share(0.27, 0.42)).toBe(0);
  });

  test('lies as it lies when paper round it is shown: neither its paint nor its weather moves', async () => {
    // 2.54 mm are 30 dots at 300 dpi.
    const weather = { preset: 'derelict', ledges: [] } as const;
    const alone = await drawStrip({ ...door, weather });
    const shown = await drawStrip({ ...door, weather, around: 2.54 });
    expect([shown.width, shown.height]).toEqual([alone.width + 60, alone.height + 60]);
    const rows = rowsOf(shown).slice(30, -30);
    // Its foot drips on what is below it, and stands on nothing where it ends the page: no further than moss reaches up.
    const free = Math.floor((alone.height * (2000 - 100)) / 2000);
    const inner = rows.map((row) => row.subarray(90, -90)).slice(0, free);
    expect(Buffer.concat(inner).equals(Buffer.concat(rowsOf(alone).slice(0, free)))).toBe(true);
  });
});
