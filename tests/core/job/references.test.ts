import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import {
  fillPhoto,
  findBrick,
  findScale,
  findSection,
  type MeasuredPhoto,
  measurePhoto,
  type MeasurePhotoOptions,
  type MeasureRefusal,
  type NamedReference,
  type Outcome,
  type OwnReference,
  parsePrintSize,
  realMm,
  scalePhoto,
  type Span,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { beforeEach, expect, test } from 'vitest';
import { pngFile } from '../../support/picture-files.js';
import { tempFolder } from '../../support/temp-folder.js';

let wall = '';
beforeEach(() => {
  wall = join(tempFolder(), 'wall.png');
  writeFileSync(wall, pngFile({ width: 600, height: 400 }));
});

type Options = MeasurePhotoOptions & NamedReference;

const measure = (options: Options): Promise<Outcome<MeasuredPhoto, MeasureRefusal>> =>
  measurePhoto(wall, options);

async function measured(options: Options): Promise<readonly [MeasuredPhoto, readonly string[]]> {
  const outcome = await measure(options);
  if (!outcome.ok) throw new Error(outcome.message);
  return [outcome.value, outcome.warnings.map(({ code }) => code)];
}

// 400 px across the middle of 600 x 400.
const across: Span = [
  { x: 100, y: 200 },
  { x: 500, y: 200 },
];

// 35 mm film is 36 mm wide, and the photo's shape is the film's, 3:2: 600 px see 36 / f of the
// distance. 50 mm at 10 m: 7.2 m, 12 mm a pixel.
const from10m = { distance: { length: realMm(10_000) }, focal: realMm(50) };

test('a rolled section is as deep as its standard says, give or take how it is rolled', async () => {
  // 203.2 mm (EN 10365, as a UK beam table quotes it), within +4 and -2 mm from 180 to 400 mm (from
  // memory of EN 10034): 3 / sqrt(3) of 203.2 is 0.852 %.
  const section = findSection('UB 203x133x25');
  const [{ method, mmPerPx, reference, budget }] = await measured({ section, spans: [across] });
  expect(method).toBe('section');
  expect(mmPerPx.x).toBeCloseTo(203.2 / 400, 6);
  expect(reference).toMatchObject({ name: 'UB 203x133x25', sizeMm: 203.2 });
  expect(reference.source).toMatch(/EN 10365.*EN 10034/);
  const part = budget.find(({ source }) => source === 'reference');
  expect(part?.percent).toBeCloseTo(0.852, 3);
});

test('more spans over one section make it no truer', async () => {
  const section = findSection('UB 203x133x25');
  const second: Span = [
    { x: 100, y: 260 },
    { x: 500, y: 260 },
  ];
  const [{ budget, spans }] = await measured({ section, spans: [across, second] });
  expect(budget.find(({ source }) => source === 'reference')?.percent).toBeCloseTo(0.852, 3);
  expect(spans?.length).toBe(2);
});

test('a brick is measured along its face, without mortar', async () => {
  // 215 mm (BS EN 771-1 work size, as several UK brick guides quote it).
  const [{ method, mmPerPx }] = await measured({ brick: findBrick('uk-metric'), spans: [across] });
  expect([method, mmPerPx.x]).toEqual(['span', 215 / 400]);
});

test('a length that states how far it may be off is no longer exact', async () => {
  const percent = async (tolerance?: number): Promise<number> => {
    const stated = tolerance === undefined ? {} : { tolerance: realMm(tolerance) };
    const lengths = [{ length: realMm(2000), ...stated }];
    return (await measured({ spans: [across], lengths }))[0].reference.uncertaintyPercent;
  };
  expect(await percent()).toBe(0);
  // 20 mm either way in 2 m: 1 % / sqrt(3) (JCGM 100:2008, 4.3.7).
  expect(await percent(20)).toBeCloseTo(0.577, 3);
});

test('a distance gives an estimate, and says so', async () => {
  const [{ method, mmPerPx, uncertaintyPercent }, codes] = await measured(from10m);
  expect(method).toBe('distance');
  expect(mmPerPx.x).toBeCloseTo(12, 3);
  expect(uncertaintyPercent).toBeGreaterThanOrEqual(5);
  expect(codes).toEqual(['estimate']);
});

test('a photo that does not name its lens gives none', async () => {
  const { distance } = from10m;
  expect(await measure({ distance })).toMatchObject({ ok: false, code: 'no-focal-length' });
});

test('a distance beside a span only checks it', async () => {
  const span = (mm: number): Options => ({
    ...from10m,
    spans: [across],
    lengths: [{ length: realMm(mm) }],
  });
  // 400 px of 12 mm.
  const [near, quiet] = await measured(span(4900));
  expect([near.method, near.mmPerPx.x, quiet]).toEqual(['span', 12.25, []]);
  const [far, codes] = await measured(span(6000));
  expect([far.method, far.mmPerPx.x, codes]).toEqual(['span', 15, ['estimate-disagrees']]);
  // One of the two is wrong, and nobody can say which.
  expect(near.confidence).toBeGreaterThan(0.9);
  expect(far.confidence).toBeLessThan(0.5);
});

test('an estimate takes the place of nothing better that was kept', async () => {
  await measure({ spans: [across], lengths: [{ length: realMm(4800) }], save: true });
  const [kept, codes] = await measured({ ...from10m, save: true });
  expect([kept.method, codes]).toEqual(['span', ['estimate']]);
});

test('a span of a few pixels is refused, and whatever is measured can be kept', async () => {
  // Ends marked to a pixel each: sqrt(2) of 2 px are 71 % (k = 1), of 8 px 18 %.
  const over = (px: number): Options => ({
    spans: [
      [
        { x: 300, y: 200 },
        { x: 300 + px, y: 200 },
      ],
    ],
    lengths: [{ length: realMm(1000), tolerance: realMm(900) }],
    save: true,
  });
  expect(await measure(over(2))).toMatchObject({ ok: false, code: 'span-too-short' });
  // 900 mm either way in 1 m: 52 % (k = 1), and more than 100 % expanded.
  const [wide] = await measured(over(8));
  expect(wide.uncertaintyPercent).toBeGreaterThan(104);
  expect(await measurePhoto(wall)).toHaveProperty(
    'value.uncertaintyPercent',
    wide.uncertaintyPercent,
  );
});

test('nothing is made by spans that contradict each other, though they may be measured and kept', async () => {
  // The same 400 px are said to be 1 m and, 60 px lower, 2 m.
  const lower: Span = [
    { x: 100, y: 260 },
    { x: 500, y: 260 },
  ];
  const spans = [across, lower];
  const lengths = [{ length: realMm(1000) }, { length: realMm(2000) }];
  const [{ confidence }, codes] = await measured({ spans, lengths, save: true });
  expect([confidence < 0.05, codes]).toEqual([true, ['spans-disagree']]);
  const output = join(dirname(wall), 'out.png');
  const scale = findScale('OO');
  const asked = { output, scale, size: parsePrintSize('20x20mm') };
  for (const outcome of [
    await fillPhoto(wall, { ...asked, spans, lengths }),
    await fillPhoto(wall, asked),
    await scalePhoto(wall, { scale, spans, lengths }),
  ]) {
    expect(outcome).toMatchObject({ ok: false, code: 'scale-doubtful' });
  }
  expect(existsSync(output)).toBe(false);
});

test('corners that all but touch are refused', async () => {
  const corners = [
    { x: 300, y: 200 },
    { x: 316, y: 200 },
    { x: 316, y: 216 },
    { x: 300, y: 216 },
  ];
  const size = { width: realMm(1000), height: realMm(1000) };
  const outcome = await measurePhoto(wall, { corners, rectangleSize: size, save: true });
  expect(outcome).toMatchObject({ ok: false, code: 'corners-too-close' });
});

test('how courses lie is told of courses alone', async () => {
  const section = findSection('IPE 200');
  const lengths = [{ length: realMm(1000) }];
  const spans = [across];
  for (const given of [
    { spans, lengths },
    { spans, section },
    { spans, brick: findBrick('uk-metric') },
    from10m,
  ]) {
    await expect(measurePhoto(wall, { ...given, axis: 'x' })).rejects.toThrow(
      /^expected no axis of courses beside .* for axis, got "x"$/,
    );
    for (const straighten of ['level', 'none'] as const) {
      await expect(measurePhoto(wall, { ...given, straighten })).rejects.toThrow(
        `for straighten, got "${straighten}"`,
      );
    }
    expect(await measurePhoto(wall, { ...given, straighten: 'full' })).toMatchObject({ ok: true });
  }
});

test('a span off the middle is surer through a longer lens', async () => {
  // A wall turned by 5 degrees is nearer at one side: 200 px from the middle, seen through 1.2 times
  // the photo's 600 px (43 mm), by tan 5 x 200 / 720 = 2.4 %, along the wall twice that; / sqrt(3)
  // is 2.8 %. Through 240 mm it is a sixth of it.
  const beside: Span = [
    { x: 450, y: 200 },
    { x: 550, y: 200 },
  ];
  const percent = async (focal: number): Promise<number> => {
    const lengths = [{ length: realMm(1000) }];
    const [{ budget }] = await measured({ spans: [beside], lengths, focal: realMm(focal) });
    return budget.find(({ source }) => source === 'perspective')?.percent ?? NaN;
  };
  expect(Math.abs((await percent(43.2)) - 2.8)).toBeLessThan(0.1);
  expect(Math.abs((await percent(259.2)) - 0.52)).toBeLessThan(0.1);
});

test('one reference at a time, and each with what it needs', async () => {
  const section = findSection('IPE 200');
  const lengths = [{ length: realMm(1000) }];
  const { focal } = from10m;
  const wrong: readonly (readonly [MeasurePhotoOptions, RegExp])[] = [
    [{ section }, /the two points that the section lies between for spans/],
    [{ brick: findBrick('uk-metric') }, /the two points that the brick ends at for spans/],
    [{ section, spans: [across], lengths }, /no section beside a span of known length/],
    [
      { spans: [across, across], lengths },
      /as many lengths as spans, which are 2, for lengths, got 1/,
    ],
    [{ spans: [across], lengths: [...lengths, ...lengths] }, /which are 1, for lengths, got 2/],
    [{ focal }, /a reference that it goes with \(a course, a distance\) for focal, got 50/],
    [{ ...from10m, focal: realMm(2) }, /a focal length from 5 to 2000 mm for focal, got 2/],
  ];
  for (const [options, message] of wrong) {
    await expect(measurePhoto(wall, options)).rejects.toThrow(message);
  }
});

test("what a photo's courses could be is asked of one's own references as well", async () => {
  // DIN 4172 DF is 250 x 62.5 mm with joints, four courses long; so is this, and it comes first.
  const own: OwnReference = {
    ...{ id: 'chimney-brick', name: 'chimney brick', kind: 'brick', source: 'by tape' },
    ...{ course: realMm(50), tolerance: realMm(0.5), length: realMm(192), lengthTolerance: null },
    ...{ width: realMm(92), joint: realMm(8) },
  };
  const { raster } = drawWall({ format: 'de-df', coursePx: 25, seed: 6 });
  writeFileSync(wall, await encodePhoto(raster, { format: 'png' }));
  const page = join(dirname(wall), 'wall.html');
  const offered = await measurePhoto(wall, { references: [own], page });
  if (!offered.ok || offered.value.method !== 'formats') throw new Error('nothing offered');
  const [first, second] = offered.value.formats.map(({ id }) => id);
  expect([first, second]).toEqual(['chimney-brick', 'de-df']);
  expect(readFileSync(page, 'utf8')).toMatch(/"likely":\[\{"id":"chimney-brick"/);
  const refused = await measurePhoto(wall, { references: [own], save: true });
  if (refused.ok) throw new Error('measured by nothing');
  expect(refused.hint).toContain('--course chimney-brick');
});
