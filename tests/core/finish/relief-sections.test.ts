import { dpi, findSection, type RowSource } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { drawStrip, mm, oneTo } from '../../support/relief-strip.js';

test.each([
  ['L 100x100x10', 'angle-lit'],
  ['T 100', 'tee-lit'],
  ['UPN 200', 'channel-lit'],
])('%s is seen for what it is', async (name, golden) => {
  const strip = await drawStrip({
    ...{ section: findSection(name), length: mm(600), scale: oneTo(20) },
    ...{ dpi: dpi(300), colour: '#7a543e' },
  });
  const { width, height, data } = strip;
  const rows: RowSource = {
    ...{ width, height, channels: 3, dpi: dpi(300) },
    *rows() {
      for (let y = 0; y < height; y++) yield data.subarray(3 * y * width, 3 * (y + 1) * width);
    },
  };
  await expect(rows).toMatchGolden(golden);
});

test('lines of an angle and a tee lie where their tables have them', async () => {
  const at = { length: mm(600), scale: oneTo(10), dpi: dpi(254), colour: '#606060', strength: 1 };
  // EN 10056-1: legs of 100 mm, 10 thick. 1:10: its level leg is the last 1 mm of 10, ten dots of 100.
  const angle = await drawStrip({ ...at, section: findSection('L 100x100x10') });
  expect(angle.made.profile).toBe('angle');
  expect(angle.height).toBe(100);
  expect(angle.made.lines.map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
    [0, 0.3],
    [8.8, 9],
    [9.7, 10],
  ]);
  // EN 10055: 100 deep, 11 thick: its flange is the first 1.1 mm.
  const tee = await drawStrip({ ...at, section: findSection('T 100') });
  expect(tee.made.lines.map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
    [0, 0.3],
    [1.1, 1.3],
    [9.7, 10],
  ]);
});

// UB 305x102x25, IPE 500 and UPE 200 are 305.1, 500 and 200 deep, their flanges 7, 16 and 11 thick (EN 10365).
test.each([
  ['i', 305.1, 7, 'UB 305x102x25'],
  ['i', 500, 16, 'IPE 500'],
  // Flanges are as thick as those of a beam, not of a column as deep (HE 550 A has 24).
  ['i', 540, (13.2 * 540) / 528.3, 'UB 533x210x82'],
  ['channel', 200, 11, 'UPE 200'],
] as const)(
  'an %s %f mm deep with nothing told of its flange takes that of the table',
  async (profile, depth, flange, name) => {
    const strip = await drawStrip({
      ...{ profile, depth: mm(depth), length: mm(900), scale: oneTo(30) },
      ...{ dpi: dpi(300), colour: '#7a543e' },
    });
    expect(strip.made.real.flange).toBeCloseTo(flange, 6);
    expect(strip.codes).toContain('flange-assumed');
    expect(strip.messages.join()).toContain(name);
  },
);

test('what is far deeper than any rolled section is to have its flange told', async () => {
  const deep = { profile: 'i', depth: mm(2000), length: mm(9000), scale: oneTo(30) } as const;
  await expect(drawStrip(deep)).rejects.toThrow('the thickness of the flange');
});
