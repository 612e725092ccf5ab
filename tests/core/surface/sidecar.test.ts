import { readFileSync } from 'node:fs';
import { type Measurement, px, realMm, type Sidecar } from '@gaugerod/core';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BadField } from '../../../packages/core/src/surface/fields.js';
import { NewerSidecar, parseSidecar } from '../../../packages/core/src/surface/parse-sidecar.js';
import { sidecarPath } from '../../../packages/core/src/surface/sidecar-path.js';
import { toSidecarJson } from '../../../packages/core/src/surface/to-sidecar-json.js';

// The worked chain: four courses of 75 mm (gauge 300 mm, UK metric work) over 250 px are 62.5 px a
// course and 1.2 mm a pixel.
const measurement: Measurement = {
  method: 'courses',
  reference: {
    id: 'uk-metric',
    name: 'UK metric brick',
    size: realMm(75),
    uncertainty: 0.005,
    source: 'BS EN 771-1 work size with 10 mm joints',
  },
  mmPerPx: { x: 1.2, y: 1.2 },
  uncertaintyPercent: 0.4,
  budget: [
    { source: 'fit', percent: 0.12 },
    { source: 'reference', percent: 0.16 },
  ],
  confidence: 0.97,
  rectification: { matrix: [1, 0.01, -3, -0.01, 1, 2, 1e-6, -2e-6, 1], lens: 0.01 },
  lattice: {
    axis: 'y',
    course: px(62.5),
    courseOffset: 11.25,
    brick: px(187.5),
    repeat: { x: px(187.5), y: px(125) },
    bond: 'stretcher',
  },
};

const whole: Sidecar = {
  photo: { file: 'wall.jpg', sha256: '0f'.repeat(32), width: 1500, height: 1000 },
  measurement,
  licence: 'CC0',
  credit: 'Tansy Wharf dye works',
};

const validate = new Ajv2020({
  allowUnionTypes: true,
  strict: true,
  strictRequired: false,
}).compile(
  JSON.parse(
    readFileSync(
      new URL('../../../packages/core/schema/surface.schema.json', import.meta.url),
      'utf8',
    ),
  ) as object,
);

// The whole file with one value changed, found by its path.
function changed(path: string, value: unknown): unknown {
  const json: unknown = JSON.parse(toSidecarJson(whole));
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  let at = json as Record<string, unknown>;
  for (const key of keys) at = at[key] as Record<string, unknown>;
  if (value === undefined) Reflect.deleteProperty(at, last);
  else at[last] = value;
  return json;
}

const parse = (json: unknown): Sidecar => parseSidecar(JSON.stringify(json));

test('a surface comes back as it was kept', () => {
  expect(parseSidecar(toSidecarJson(whole))).toEqual(whole);
});

test('a surface without joints, rectification and notes comes back as it was kept', () => {
  const bare = {
    ...whole,
    measurement: { ...measurement, rectification: null, lattice: null },
    licence: null,
    credit: null,
  };
  expect(parseSidecar(toSidecarJson(bare))).toEqual(bare);
});

test('a photo that is a tile as it is comes back as one; it is level', () => {
  const level = { ...measurement, rectification: null };
  const finished = { ...whole, measurement: level, finished: true };
  expect(parseSidecar(toSidecarJson(finished))).toEqual(finished);
  expect(validate(JSON.parse(toSidecarJson(finished)))).toBe(true);
  expect(parseSidecar(toSidecarJson({ ...finished, finished: false }))).toEqual({
    ...whole,
    measurement: level,
  });
  expect(() => parse(changed('finished', true))).toThrow('finished is true of a photo');
});

test('a photo that shows no courses comes back as one; it is level', () => {
  const bare = { ...measurement, rectification: null, lattice: null };
  const plain = { ...whole, measurement: bare, plain: true };
  expect(parseSidecar(toSidecarJson(plain))).toEqual(plain);
  expect(validate(JSON.parse(toSidecarJson(plain)))).toBe(true);
  expect(() =>
    toSidecarJson({ ...plain, measurement: { ...bare, lattice: measurement.lattice } }),
  ).toThrow('plain is');
  expect(() => parse(changed('plain', true))).toThrow('plain is true of a photo');
});

test('what is laid dry comes back as that, whoever named it', () => {
  const reference = { ...measurement.reference, id: 'shed-slate', laidDry: true };
  const dry = { ...whole, measurement: { ...measurement, reference } };
  expect(parseSidecar(toSidecarJson(dry))).toEqual(dry);
  expect(validate(JSON.parse(toSidecarJson(dry)))).toBe(true);
  expect(parse(changed('reference.laidDry', false))).toEqual(whole);
  expect(() => parse(changed('reference.laidDry', 'yes'))).toThrow('laidDry');
});

test('the file has the keys that the manual promises', () => {
  expect(JSON.parse(toSidecarJson(whole))).toMatchObject({
    schema: 'gaugerod.surface/1',
    photo: { file: 'wall.jpg', sha256: '0f'.repeat(32), width: 1500, height: 1000 },
    mmPerPx: { x: 1.2, y: 1.2 },
    uncertaintyPercent: 0.4,
    uncertaintyBudget: { fit: 0.12, reference: 0.16 },
    confidence: 0.97,
    method: 'courses',
    reference: { id: 'uk-metric', sizeMm: 75 },
    rectification: { matrix: [1, 0.01, -3, -0.01, 1, 2, 1e-6, -2e-6, 1], lens: 0.01 },
    tile: { x: 187.5, y: 125 },
    licence: 'CC0',
    credit: 'Tansy Wharf dye works',
  });
});

test('what is written fits the published schema', () => {
  expect(validate(JSON.parse(toSidecarJson(whole)))).toBe(true);
});

const refused: readonly (readonly [path: string, value: unknown])[] = [
  ['schema', undefined],
  ['schema', 'gaugerod.surface/0'],
  ['photo', undefined],
  ['photo.file', ''],
  ['photo.sha256', 'abc'],
  ['photo.width', 1.5],
  ['photo.height', -1],
  ['mmPerPx', undefined],
  ['mmPerPx.x', -1.2],
  ['mmPerPx.x', 0],
  ['mmPerPx.y', '1.2'],
  ['mmPerPx.y', null],
  ['mmPerPx.y', 1e308],
  ['mmPerPx.y', 1e-300],
  ['uncertaintyPercent', -3],
  ['confidence', 5],
  ['method', 'guess'],
  ['method', undefined],
  ['reference', []],
  ['reference.sizeMm', true],
  ['reference.sizeUncertaintyPercent', 101],
  ['rectification.matrix', [1, 0, 0, 0, 1, 0, 0, 0]],
  ['lattice.coursePeriodPx', 0],
  ['lattice.brickPeriodPx', -187.5],
  ['tile.x', 'wide'],
  ['tile.y', 0.001],
  ['finished', 'yes'],
  ['finished', 1],
  ['plain', 'yes'],
  ['licence', 7],
  ['credit', 'x'.repeat(10_001)],
];

test.each(refused)('%s of %j is refused by name, by the schema too', (path, value) => {
  const json = changed(path, value);
  expect(() => parse(json)).toThrow(BadField);
  expect(() => parse(json)).toThrow(path);
  expect(validate(json)).toBe(false);
});

test('a matrix without a way back is refused', () => {
  expect(() => parse(changed('rectification.matrix', Array(9).fill(0)))).toThrow(
    'rectification.matrix has no way back',
  );
});

test.each([
  // The photo is 1500 x 1000: x' = x / (1 - x / 1000) has its horizon at x = 1000.
  [[1, 0, 0, 0, 1, 0, -1e-3, 0, 1], 'has the horizon in the photo'],
  [[1, 0, 100, 0, 1, 0, 0, 0, 1], "does not keep the photo's middle in its place"],
  [[-1, 0, 1500, 0, 1, 0, 0, 0, 1], 'turns the photo over'],
  // About (750, 500), 100 times as long across and a hundredth as high: its area stays.
  [
    [100, 0, -74250, 0, 0.01, 495, 0, 0, 1],
    'stretches the photo more than 20 times as much one way as the other',
  ],
  [[1.1, 0, -75, 0, 1.1, -50, 0, 0, 1], "does not keep the size of the photo's middle"],
])('a rectification %j of no photo is refused: it %s', (matrix, fault) => {
  const json = changed('rectification.matrix', matrix);
  expect(() => parse(json)).toThrow(new BadField(`rectification ${fault}`));
});

test('a course higher than its photo is refused, both keys named', () => {
  const kept = { ...whole, photo: { ...whole.photo, height: 62 } };
  const level = { ...kept, measurement: { ...measurement, rectification: null } };
  expect(() => toSidecarJson(level)).toThrow(
    'lattice.coursePeriodPx is 62.5, more than the 62 of photo.height',
  );
});

test.each(['courses', 'count'] as const)(
  'a scale that its own %s contradict is refused, all keys named',
  (method) => {
    // 62.5 px of 1.2 mm are 75 mm, and 62.5 px of 2.4 mm are 150.
    const kept = { ...measurement, method, mmPerPx: { x: 2.4, y: 2.4 } };
    expect(() => toSidecarJson({ ...whole, measurement: kept })).toThrow(
      'lattice.coursePeriodPx x mmPerPx.y is 150.0 mm, but reference.sizeMm is 75',
    );
    expect(() =>
      toSidecarJson({ ...whole, measurement: { ...kept, mmPerPx: { x: 1.2, y: 1.24 } } }),
    ).not.toThrow();
  },
);

test('a key that is not known is passed over', () => {
  expect(parse(changed('note', 'x'))).toEqual(whole);
  expect(validate(changed('note', 'x'))).toBe(true);
});

test('a newer version is refused, and named', () => {
  expect(() => parse(changed('schema', 'gaugerod.surface/2'))).toThrow(NewerSidecar);
  expect(() => parse(changed('schema', 'gaugerod.surface/2'))).toThrow(
    'it is of version 2, and version 1 is read',
  );
});

test('a value that only a prototype holds is no value', () => {
  const text = toSidecarJson(whole).replace('"mmPerPx"', '"__proto__"');
  expect(() => parseSidecar(text)).toThrow('mmPerPx is missing');
  expect(Object.hasOwn(Object.prototype, 'x')).toBe(false);
});

test.each([
  ['nothing', ''],
  ['a comma at the end', toSidecarJson(whole).replace(/\n\}/, ',\n}')],
  ['a comment', `// wall\n${toSidecarJson(whole)}`],
  ['two objects', toSidecarJson(whole).repeat(2)],
  ['NaN', toSidecarJson(whole).replace('0.97', 'NaN')],
  ['half of it', toSidecarJson(whole).slice(0, 200)],
  ['a list', '[]'],
  ['null', 'null'],
  ['50,000 brackets', '['.repeat(50_000)],
  ['a number that runs over', toSidecarJson(whole).replace('0.97', '1e999')],
])('%s is no surface', (_, text) => {
  expect(() => parseSidecar(text)).toThrow(BadField);
});

test('what would not be read back is not written', () => {
  const broken = { ...whole, measurement: { ...measurement, confidence: Number.NaN } };
  expect(() => toSidecarJson(broken)).toThrow('confidence');
});

test('no text makes it fail in another way', () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
      expect(() => parseSidecar(text)).toThrow(BadField);
    }),
  );
});

test.each([
  ['wall.jpg', 'wall.surface.json'],
  ['walls.old/wall', 'walls.old/wall.surface.json'],
  ['a/b.c/wall.side.JPEG', 'a/b.c/wall.side.surface.json'],
  ['.hidden', '.hidden.surface.json'],
])('the surface file of %s is %s', (photo, sidecar) => {
  expect(sidecarPath(photo)).toBe(sidecar);
});
