import { sections } from '../../../packages/core/src/catalogue/sections.js';
import { findScale, findSection, toPrint } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';

// h, b, tw, tf, r in mm and published kg/m. UB: a UK beam table quoting EN 10365 and SCI P363, r from
// two section libraries; IPE and HE: two section tables quoting EN 10365 and EN 10034. The last two
// columns, depth in mm at 1:148 and 1:76.2, are worked from h.
const parallel = [
  ['UB 127x76x13', 127, 76, 4, 7.6, 7.6, 13.0, 0.858, 1.667],
  ['UB 203x102x23', 203.2, 101.8, 5.4, 9.3, 7.6, 23.1, 1.373, 2.667],
  ['UB 203x133x25', 203.2, 133.2, 5.7, 7.8, 7.6, 25.1, 1.373, 2.667],
  ['UB 254x146x31', 251.4, 146.1, 6, 8.6, 7.6, 31.1, 1.699, 3.299],
  ['UB 305x165x40', 303.4, 165, 6, 10.2, 8.9, 40.3, 2.05, 3.982],
  ['UB 356x171x45', 351.4, 171.1, 7, 9.7, 10.2, 45.0, 2.374, 4.612],
  ['UB 406x178x60', 406.4, 177.9, 7.9, 12.8, 10.2, 60.1, 2.746, 5.333],
  ['UB 457x191x67', 453.4, 189.9, 8.5, 12.7, 10.2, 67.1, 3.064, 5.95],
  ['UB 533x210x92', 533.1, 209.3, 10.1, 15.6, 12.7, 92.1, 3.602, 6.996],
  ['UB 610x229x101', 602.6, 227.6, 10.5, 14.8, 12.7, 101.2, 4.072, 7.908],
  ['UB 914x305x201', 903, 303.3, 15.1, 20.2, 19.1, 200.9, 6.101, 11.85],
  ['UB 914x419x388', 921, 420.5, 21.4, 36.6, 24.1, 388.0, 6.223, 12.087],
  ['IPE 100', 100, 55, 4.1, 5.7, 7, 8.1, 0.676, 1.312],
  ['IPE 200', 200, 100, 5.6, 8.5, 12, 22.4, 1.351, 2.625],
  ['IPE 300', 300, 150, 7.1, 10.7, 15, 42.2, 2.027, 3.937],
  ['IPE 600', 600, 220, 12, 19, 24, 122, 4.054, 7.874],
  ['HE 200 A', 190, 200, 6.5, 10, 18, 42.3, 1.284, 2.493],
  ['HE 300 A', 290, 300, 8.5, 14, 27, 88.3, 1.959, 3.806],
  ['HE 200 B', 200, 200, 9, 15, 18, 61.3, 1.351, 2.625],
  ['HE 300 B', 300, 300, 11, 19, 27, 117, 2.027, 3.937],
  ['HE 600 B', 600, 300, 15.5, 30, 27, 212, 4.054, 7.874],
] as const;

test.each(parallel)(
  '%s is %f x %f, web %f, flange %f, root %f, %f kg/m',
  (name, h, b, tw, tf, r, kgPerM) => {
    expect(findSection(name)).toMatchObject({
      name,
      size: h,
      width: b,
      web: tw,
      flange: tf,
      root: r,
      kgPerM,
      flanges: 'parallel',
    });
  },
);

test.each(parallel)('%s weighs what it should', (name, ...published) => {
  // Steel is 7850 kg/m3; two flanges, the web, and the fillets of four roots.
  const { size: h, width: b, web, flange, root } = findSection(name);
  const area = 2 * b * flange + (h - 2 * flange) * (web ?? NaN) + (4 - Math.PI) * (root ?? 0) ** 2;
  expect(Math.abs((7850e-6 * area) / published[5] - 1)).toBeLessThan(0.005);
});

// Where a name says mm and kg/m, as British ones do, and where it says the depth.
test.each(
  sections.filter(({ shape, name }) => shape === 'i' && /^(?:UB|UC|IPE|HE|IPN) /.test(name)),
)(
  '$name is of the depth and weight that its name says, and weighs what its sizes come to',
  ({ name, depth, width, web, flange, root, kgPerM, flanges }) => {
    const area = 2 * width * flange + (depth - 2 * flange) * (web ?? NaN);
    const fillets = (4 - Math.PI) * (root ?? 0) ** 2;
    const off = (7850e-6 * (area + fillets)) / kgPerM - 1;
    // Toes of tapering flanges are rounded by 0.6 of the root (DIN 1025-1), which no fillet gives back.
    expect(Math.abs(flanges === 'taper' ? off - 0.02 : off)).toBeLessThan(0.011);
    const [, british] = /x(\d+)$/.exec(name) ?? [];
    const [, nominal] = /^(?:IPE|IPN|HE) (\d+)(?: B)?$/.exec(name) ?? [];
    if (british !== undefined) expect(Math.abs(kgPerM - Number(british))).toBeLessThan(0.8);
    if (nominal !== undefined) expect(depth).toBe(Number(nominal));
  },
);

test.each(parallel)('%s in N and OO is as deep as worked by hand', (name, ...published) => {
  const { size } = findSection(name);
  expect(Math.abs(toPrint(size, findScale('N-UK').ratio) - published[6])).toBeLessThan(5.1e-4);
  expect(Math.abs(toPrint(size, findScale('OO').ratio) - published[7])).toBeLessThan(5.1e-4);
});

describe('joists with taper flanges', () => {
  test.each([
    // A UK joist table quoting the SCI Blue Book; each is round in inches: 10 x 8, 10 x 4 1/2 ...
    ['RSJ 254x203x82', 254, 203.2, 10.2, 19.9, 19.6, 10, 8],
    ['RSJ 254x114x37', 254, 114.3, 7.6, 12.8, 12.4, 10, 4.5],
    ['RSJ 203x152x52', 203.2, 152.4, 8.9, 16.5, 15.5, 8, 6],
    ['RSJ 152x127x37', 152.4, 127, 10.4, 13.2, 13.5, 6, 5],
    ['RSJ 127x76x16', 127, 76.2, 5.6, 9.6, 9.4, 5, 3],
    ['RSJ 102x102x23', 101.6, 101.6, 9.5, 10.3, 11.1, 4, 4],
  ])('%s', (name, h, b, web, flange, root, inchesDeep, inchesWide) => {
    const found = findSection(name);
    expect(found).toMatchObject({ size: h, width: b, web, flange, root, flanges: 'taper' });
    expect(found.size).toBeCloseTo(inchesDeep * 25.4, 9);
    expect(found.width).toBeCloseTo(inchesWide * 25.4, 9);
    expect(findSection(name.replace('RSJ ', ''))).toEqual(found);
  });
});

test.each([
  // What their tables give in pounds to the foot, 1.48816 kg/m each.
  ['RSJ 254x203x82', 55.1],
  ['RSJ 254x114x37', 25],
  ['RSJ 203x152x52', 35.1],
  ['RSJ 152x127x37', 25.1],
  ['RSJ 127x76x16', 11.1],
  ['RSJ 102x102x23', 15.5],
  ['W8x31', 31.07],
  ['W12x26', 26.03],
  ['W18x35', 35.05],
  ['W24x76', 76.22],
  ['W36x150', 150.7],
  ['S12x31.8', 31.68],
])('%s weighs %f lb/ft', (name, pounds) => {
  expect(Math.abs(findSection(name).kgPerM / 1.48816 / pounds - 1)).toBeLessThan(0.005);
});

test.each([
  // From memory of the AISC Manual, Table 1-1, in mm to one place.
  ['W8x31', 203.2, 203.2, 7.2, 11.0],
  ['W12x26', 309.9, 164.8, 5.8, 9.7],
  ['W18x35', 449.6, 152.4, 7.6, 10.8],
  ['W24x76', 607.1, 228.3, 11.2, 17.3],
  ['W36x150', 911.9, 304.8, 15.9, 23.9],
  ['S12x31.8', 304.8, 127.0, 8.9, 13.8],
])('%s', (name, h, b, web, flange) => {
  const found = findSection(name);
  const got = [found.size, found.width, found.web, found.flange];
  expect(got.map((mm) => Math.round((mm ?? NaN) * 10) / 10)).toEqual([h, b, web, flange]);
});

test.each([
  ['203x133x25', 'UB 203x133x25'],
  ['203×133×25', 'UB 203x133x25'],
  ['ub203x133x25', 'UB 203x133x25'],
  ['UB 203 x 133 x 25', 'UB 203x133x25'],
  ['ub-203x133x25', 'UB 203x133x25'],
  ['ipe300', 'IPE 300'],
  ['HEA 200', 'HE 200 A'],
  ['heb200', 'HE 200 B'],
  ['he200b', 'HE 200 B'],
  ['w8X31', 'W8x31'],
])('%s is %s', (text, name) => {
  expect(findSection(text).name).toBe(name);
});

test.each(['', 'UB', '203', 'constructor', '__proto__', 'UB 203x133x26', 'HE 200'])(
  '%j is no section',
  (text) => {
    expect(() => findSection(text, '--section')).toThrow(/^expected .* for --section, got "/);
  },
);

test('part of a name is answered with the whole', () => {
  expect(() => findSection('203x133')).toThrow('(UB 203x133x25, UB 203x133x30?)');
  expect(() => findSection('HE 200')).toThrow(/HE 200 A.*HE 200 B/);
});

describe('channels, angles and tees weigh what their tables publish', () => {
  // Steel is 7850 kg/m3 (EN 1991-1-1, A.4). Root radii r fill, toes of half that take away: 1 - pi / 4 of each square.
  const corner = (r: number): number => (1 - Math.PI / 4) * r ** 2;
  const weighed = sections.map((entry) => {
    const { shape, name, depth: h, width: b, web, flange: t, root, flanges } = entry;
    const [tw, r] = [web ?? 0, root ?? 0];
    const areas = {
      i: null,
      // A flange that tapers is given in the middle of its width, or, over 300 mm deep, of what stands out of the web.
      channel:
        flanges === 'parallel'
          ? 2 * b * t + (h - 2 * t) * tw + 2 * corner(r)
          : h * tw +
            2 * (b - tw) * (t - 0.08 * (h <= 300 ? tw / 2 : 0)) +
            2 * (corner(r) - corner(r / 2)),
      angle: t * (h + b - t) + corner(r) - 2 * corner(r / 2),
      // Both sides of the stem taper by 2 %, and are given half way up.
      tee:
        b * t + (h - t) * (tw - (0.04 * t) / 2) + 2 * (corner(r) - corner(r / 2) - corner(r / 4)),
    };
    return { name, area: areas[shape], kgPerM: entry.kgPerM };
  });

  test.each(weighed.filter(({ area }) => area !== null))('$name', ({ area, kgPerM }) => {
    expect(Math.abs((7850e-6 * (area ?? 0)) / kgPerM - 1)).toBeLessThan(0.011);
  });

  test('there are a hundred and more of them', () => {
    const kinds = ['channel', 'angle', 'tee'].map(
      (kind) => sections.filter(({ shape }) => shape === kind).length,
    );
    expect(Math.min(...kinds)).toBeGreaterThanOrEqual(10);
    expect(kinds.reduce((a, b) => a + b)).toBeGreaterThan(100);
  });
});

test.each([
  ['UPN 200', 'channel', 'UPN 200'],
  ['pfc200x75x23', 'channel', 'PFC 200x75x23'],
  ['L 100x100x10', 'angle', 'L 100x100x10'],
  ['150×90×10', 'angle', 'L 150x90x10'],
  ['T50', 'tee', 'T 50'],
])('%s is a known %s', (typed, shape, name) => {
  expect(findSection(typed)).toMatchObject({ shape, name });
});

test.each([
  // From memory of DIN 1026-1 (UPN), EN 10365 and SCI P363 (PFC), EN 10056-1 (L) and EN 10055 (T): depth, width, web or
  // stem, flange or leg, root radius in mm, kg/m.
  ['UPN 80', 80, 45, 6, 8, 8, 8.64],
  ['UPN 120', 120, 55, 7, 9, 9, 13.4],
  ['UPN 200', 200, 75, 8.5, 11.5, 11.5, 25.3],
  ['UPN 300', 300, 100, 10, 16, 16, 46.2],
  ['UPN 50', 50, 38, 5, 7, 7, 5.59],
  ['UPN 65', 65, 42, 5.5, 7.5, 7.5, 7.09],
  ['UPN 380', 380, 102, 13.5, 16, 16, 63.1],
  ['PFC 100x50x10', 100, 50, 5, 8.5, 9, 10.2],
  ['PFC 150x75x18', 150, 75, 5.5, 10, 12, 17.9],
  ['PFC 200x90x30', 200, 90, 7, 14, 12, 29.7],
  ['PFC 380x100x54', 380, 100, 9.5, 17.5, 15, 54],
  ['L 50x50x5', 50, 50, null, 5, 7, 3.77],
  ['L 60x60x6', 60, 60, null, 6, 8, 5.42],
  ['L 100x100x10', 100, 100, null, 10, 12, 15],
  ['L 150x90x10', 150, 90, null, 10, 12, 18.2],
  ['L 100x100x15', 100, 100, null, 15, 12, 21.9],
  ['L 120x120x8', 120, 120, null, 8, 13, 14.7],
  ['L 120x120x15', 120, 120, null, 15, 13, 26.6],
  ['L 150x150x18', 150, 150, null, 18, 16, 40.1],
  ['T 50', 50, 50, 6, 6, 6, 4.44],
  ['T 80', 80, 80, 9, 9, 9, 10.7],
  ['T 100', 100, 100, 11, 11, 11, 16.4],
] as const)(
  '%s is %f x %f, web %o, flange %f, root %f, %f kg/m',
  (name, h, b, web, t, r, kgPerM) => {
    const { size, width, web: stem, flange, root, kgPerM: weight } = findSection(name);
    expect([size, width, stem ?? null, flange, root, weight]).toEqual([h, b, web, t, r, kgPerM]);
  },
);

test.each([
  // From memory of EN 10279 (channels), EN 10056-2 (angles), EN 10055 (tees) and EN 10034 (I-sections): half the band that
  // a depth, or a longer leg, may lie in, mm.
  ['UPN 65', 65, 1.5, 'EN 10279'],
  ['UPN 200', 200, 2, 'EN 10279'],
  ['PFC 380x100x54', 380, 3, 'EN 10279'],
  ['PFC 430x100x64', 430, 4, 'EN 10279'],
  ['L 50x50x5', 50, 1, 'EN 10056-2'],
  ['L 100x100x10', 100, 2, 'EN 10056-2'],
  ['L 150x90x10', 150, 3, 'EN 10056-2'],
  ['L 200x200x16', 200, 4, 'EN 10056-2'],
  ['L 250x250x28', 250, 5, 'EN 10056-2'],
  ['T 50', 50, 1, 'EN 10055'],
  ['T 100', 100, 1.5, 'EN 10055'],
  ['T 140', 140, 2, 'EN 10055'],
  ['IPE 300', 300, 3, 'EN 10034'],
] as const)('%s, %d mm deep, is rolled within %f mm by %s', (name, depth, half, standard) => {
  const { uncertainty, source } = findSection(name);
  // Evenly spread over the band.
  expect(uncertainty * Math.sqrt(3) * depth).toBeCloseTo(half, 9);
  expect(source).toContain(`from memory of ${standard}`);
});
