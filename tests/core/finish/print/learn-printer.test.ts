import {
  changeColours,
  drawStrip,
  learnPrinter,
  measureStrip,
  parsePrinter,
  type PrinterProfile,
  toPrinterJson,
} from '@gaugerod/core';
import {
  decodePhoto,
  drawCamera,
  type DrawnCamera,
  drawPrinter,
  drawWorkColours,
  encodePhoto,
  judgePrint,
  nearestPrint,
  printColour,
  type PrintTaking,
  type Rgb,
  steepen,
  takePrint,
} from '@gaugerod/fixtures';
import { beforeAll, describe, expect, test } from 'vitest';

const strip = drawStrip();

async function learn(seed: number, taking: Omit<PrintTaking, 'seed'>): Promise<PrinterProfile> {
  const print = takePrint(strip, drawPrinter(seed), { width: 1000, ...taking, seed });
  const read = measureStrip(await decodePhoto(await encodePhoto(print)));
  if (!read.ok) throw new Error(read.message);
  return learnPrinter(read.value);
}

function sentFor({ table }: PrinterProfile, colour: Rgb): Rgb {
  const sent = Float32Array.from(colour);
  changeColours(table, sent);
  const [r = 0, g = 0, b = 0] = Array.from(sent, (level) => Math.round(255 * level) / 255);
  return [r, g, b];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe.each([
  [301, 'scanner'],
  [302, 'camera'],
  [303, 'camera'],
] as const)('printer %i, its strip taken with a %s', (seed, by) => {
  const printer = drawPrinter(seed);
  let profile: PrinterProfile;

  beforeAll(async () => {
    profile = await learn(seed, { by });
  });

  test('colours of walls and steel that it can print come out within a CIEDE2000 of 2', () => {
    // Drawn anew, none of them on the strip.
    const colours = drawWorkColours(seed).filter((colour) => nearestPrint(printer, colour) < 0.5);
    expect(colours.length).toBeGreaterThan(30);
    const before = mean(colours.map((colour) => judgePrint(printer, colour, colour)));
    const after = mean(
      colours.map((colour) => judgePrint(printer, colour, sentFor(profile, colour))),
    );
    expect(before).toBeGreaterThan(4);
    expect(after).toBeLessThanOrEqual(1);
    expect(profile.offBefore).toBeGreaterThan(profile.offAfter);
  });

  test('what is lighter prints no darker, from black to white, and white is bare paper', () => {
    expect(sentFor(profile, [1, 1, 1])).toEqual([1, 1, 1]);
    for (const hue of [
      [1, 1, 1],
      [1, 0.75, 0.6],
      [0.85, 0.95, 1],
    ] as const) {
      const lights = Array.from({ length: 52 }, (_, i) => {
        const [r, g, b] = hue.map((level) => (level * i) / 51) as [number, number, number];
        const [red, green, blue] = printColour(printer, sentFor(profile, [r, g, b]));
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
      });
      for (const [i, light] of lights.entries()) {
        // A level of a byte makes less than that.
        expect(light).toBeGreaterThan((lights[i - 1] ?? 0) - 0.004);
      }
    }
  });
});

test('a profile comes back from its file as it was, to a hundredth of a level', async () => {
  const profile = await learn(304, { by: 'scanner' });
  const text = toPrinterJson(profile);
  const back = parsePrinter(text);
  expect(back.strip).toBe(1);
  expect(back.table.size).toBe(profile.table.size);
  back.table.values.forEach((level, i) => {
    expect(Math.abs(level - profile.table.values[i]!)).toBeLessThan(0.0051 / 255);
  });
  expect(toPrinterJson(back)).toBe(text);
});

// Mean CIEDE2000 of colours that the printer can print.
function offWith(seed: number, profile: PrinterProfile): number {
  const printer = drawPrinter(seed);
  const colours = drawWorkColours(seed).filter((colour) => nearestPrint(printer, colour) < 0.5);
  return mean(colours.map((colour) => judgePrint(printer, colour, sentFor(profile, colour))));
}

test.each<readonly [string, number, DrawnCamera]>([
  ['adds contrast', 305, { curve: steepen(0.1) }],
  ['adds much contrast', 306, drawCamera('wave', 306)],
  ['brightens the middle and spares what is bright', 308, drawCamera('film', 308)],
])('a camera that %s is told from the printer by light that falls off', async (_, seed, camera) => {
  const profile = await learn(seed, { by: 'camera', camera });
  expect(offWith(seed, profile)).toBeLessThanOrEqual(2);
});
