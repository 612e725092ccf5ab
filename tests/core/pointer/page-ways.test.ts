import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import {
  findCourse,
  measurePhoto,
  type MeasurePhotoOptions,
  type OwnReference,
  parseRealLength,
  parseStatedLength,
  realMm,
  type Span,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import type { AxeResults } from 'axe-core';
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';
import { browserPath, openBrowser } from '../../support/open-browser.js';
import { openPointedPage, type PointedPage } from '../../support/pointed-page.js';
import { tempFolder } from '../../support/temp-folder.js';

// 3 mm a pixel; 640 px are 25.6 courses, so that a count over all of it is not one of those found.
const level = await encodePhoto(
  drawWall({ coursePx: 25, width: 700, height: 640, seed: 43 }).raster,
  { format: 'png' },
);
const onEnd = await sharp(level).rotate(90).png().toBuffer();

function put(bytes: Uint8Array, name = 'wall.png'): string {
  const path = join(tempFolder(), name);
  writeFileSync(path, bytes);
  return path;
}

// Two makes of JavaScript differ in the last digit of a tangent: ECMA-262 leaves it to them.
function toRead(text: string): unknown {
  return JSON.parse(text, (_, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(12)) : value,
  );
}

async function keptByLibrary(photo: string, options: MeasurePhotoOptions): Promise<unknown> {
  const measured = await measurePhoto(photo, { ...options, save: true });
  if (!measured.ok) throw new Error(measured.message);
  const file = photo.replace(/\.png$/, '.surface.json');
  const text = readFileSync(file, 'utf8');
  rmSync(file);
  return toRead(text);
}

const spanOf = async ({ ends }: PointedPage): Promise<Span> => {
  const [a = 0, b = 0, c = 0, d = 0] = await ends();
  return [
    { x: a, y: b },
    { x: c, y: d },
  ];
};

const course = findCourse('75mm');

describe.skipIf(browserPath === null)('a page that is pointed at', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser.close();
  });

  async function open(photo: string, options: MeasurePhotoOptions): Promise<PointedPage> {
    const page = join(photo, '..', 'page.html');
    await measurePhoto(photo, { ...options, page });
    return openPointedPage(browser, page);
  }

  test('begins with courses counted over all of the photo as the library measures them', async () => {
    const photo = put(level);
    const opened = await open(photo, { course, courses: 14 });
    const { tab, saved, mark, noise } = opened;
    // 640 px, 14 courses of 75 mm: 14 * 75 / 640.
    expect(await tab.textContent('#figure')).toBe('1.641 mm a pixel');
    expect(await tab.inputValue('#command')).toBe(
      'gaugerod measure wall.png --course 75mm --courses 14 --save',
    );
    expect(toRead((await saved()).text)).toEqual(
      await keptByLibrary(photo, { course, courses: 14 }),
    );
    // From the first touch on it is the line that counts.
    await mark(0).focus();
    await tab.keyboard.press('Control+ArrowDown');
    expect(await tab.inputValue('#command')).toContain('--span "350,10 350,640"');
    const spans = [await spanOf(opened)];
    expect(toRead((await saved()).text)).toEqual(
      await keptByLibrary(photo, { course, courses: 14, spans }),
    );
    expect(noise).toEqual([]);
    await tab.close();
  });

  test("says that counted courses could be of one's own format, as the library does", async () => {
    // DF is 250 x 62.5 mm with joints (DIN 4172), four courses long; so is a brick of 200 x 50 mm.
    const wall = drawWall({ format: 'de-df', coursePx: 25, width: 700, height: 650, seed: 6 });
    const photo = put(await encodePhoto(wall.raster, { format: 'png' }));
    const chimney: OwnReference = {
      ...{ id: 'chimney-brick', name: 'chimney brick', kind: 'brick', source: 'by tape' },
      ...{ course: realMm(50), tolerance: realMm(0.5), length: realMm(192), lengthTolerance: null },
      ...{ width: realMm(92), joint: realMm(8) },
    };
    const counted = { course: findCourse('uk-metric'), courses: 26, references: [chimney] };
    const { tab } = await open(photo, counted);
    const { warnings } = await measurePhoto(photo, counted).then((outcome) => {
      if (!outcome.ok) throw new Error(outcome.message);
      return outcome;
    });
    const [told = ''] = warnings.map(({ message }) => message);
    expect(told).toContain('likelier chimney-brick, de-df');
    expect(await tab.textContent('#warnings')).toContain(told);
    await tab.close();
  });

  test('counts at once where no courses were found, along a line that lies across them', async () => {
    const photo = put(await encodePhoto(noisePicture(300, 220, 5), { format: 'png' }));
    const { tab } = await open(photo, { axis: 'x' });
    await tab.check('input[value=count]', { force: true });
    await tab.fill('#choice', '75mm');
    // Half of 300 px, 8 courses of 75 mm.
    expect(await tab.textContent('#figure')).toBe('4 mm a pixel');
    expect(await tab.inputValue('#command')).toContain('--span "75,110 225,110" --axis x');
    await tab.close();
  });

  test('keeps that a photo shows no courses, as the library does, so that no part looks for them again', async () => {
    // Lit from one side, so that it is no tile.
    const render = noisePicture(300, 220, 5);
    for (const plane of render.planes) {
      for (const [i, grain] of plane.entries()) plane[i] = 0.1 * grain + 0.002 * (i % 300);
    }
    const photo = put(await encodePhoto(render, { format: 'png' }));
    const line: Span = [
      { x: 50, y: 110 },
      { x: 250, y: 110 },
    ];
    const known = { spans: [line], lengths: [parseStatedLength('1m')] };
    const { tab, saved } = await open(photo, known);
    const { text } = await saved();
    expect(JSON.parse(text)).toMatchObject({ plain: true });
    expect(toRead(text)).toEqual(await keptByLibrary(photo, known));
    await tab.close();
    // Nor does it say so of a wall, whose courses it does not rest on here.
    const wall = await open(put(level), known);
    expect(JSON.parse((await wall.saved()).text)).not.toHaveProperty('plain');
    await wall.tab.close();
  });

  test('counts down the photo where no courses were found and nothing is said of them', async () => {
    const photo = put(await encodePhoto(noisePicture(300, 220, 5), { format: 'png' }));
    const { tab } = await open(photo, {});
    await tab.check('input[value=count]', { force: true });
    await tab.fill('#choice', '75mm');
    // Half of 220 px, 8 courses of 75 mm: 600 / 110.
    expect(await tab.textContent('#figure')).toBe('5.455 mm a pixel');
    await tab.close();
  });

  test('counts courses that stand upright as the library does', async () => {
    const photo = put(onEnd);
    const opened = await open(photo, { axis: 'x' });
    const { tab, saved } = opened;
    await tab.check('input[value=count]', { force: true });
    await tab.fill('#choice', '75mm');
    await tab.keyboard.press('Escape');
    expect(await tab.inputValue('#command')).toContain('--axis x');
    const courses = Number(await tab.inputValue('#courses'));
    const spans = [await spanOf(opened)];
    const { text } = await saved();
    expect(toRead(text)).toEqual(await keptByLibrary(photo, { course, courses, spans, axis: 'x' }));
    // Truth of the drawing: 75 mm on 25 px.
    const { mmPerPx } = JSON.parse(text) as { mmPerPx: { x: number } };
    expect(Math.abs(mmPerPx.x / 3 - 1)).toBeLessThan(0.01);
    await tab.close();
  });

  test.each([
    ['level', level, {}, ''],
    ['upright', onEnd, { axis: 'x' }, ' --axis x'],
  ] as const)(
    'shows of %s courses that were found what the command it offers measures',
    async (_, bytes, how, words) => {
      const photo = put(bytes);
      const { tab } = await open(photo, { course, ...how });
      expect(await tab.inputValue('#command')).toBe(
        `gaugerod measure wall.png --course 75mm${words} --save`,
      );
      expect(await tab.isVisible('#save')).toBe(false);
      const measured = await measurePhoto(photo, { course, ...how });
      if (!measured.ok) throw new Error(measured.message);
      const told = Number.parseFloat((await tab.textContent('#figure')) ?? '');
      expect(Math.abs(told / measured.value.mmPerPx.y - 1)).toBeLessThan(2e-4);
      expect(await tab.locator('#warnings li').allTextContents()).toEqual(
        measured.warnings.map(({ message }) => message),
      );
      await tab.close();
    },
  );

  test('heeds a focal length, with a reference and without', async () => {
    const photo = put(level);
    const focal = parseRealLength('28mm');
    const opened = await open(photo, { focal });
    const { tab, saved } = opened;
    await tab.check('input[value=corners]', { force: true });
    await tab.fill('#size', '1x0.9m');
    expect(await tab.inputValue('#command')).toContain('--focal 28mm');
    await tab.check('input[value=count]', { force: true });
    await tab.fill('#choice', '75mm');
    await tab.keyboard.press('Escape');
    const courses = Number(await tab.inputValue('#courses'));
    const spans = [await spanOf(opened)];
    expect(toRead((await saved()).text)).toEqual(
      await keptByLibrary(photo, { course, courses, spans, focal }),
    );
    await tab.close();
  });

  test('leaves it to the command to keep a tile, which looks at every pixel', async () => {
    const photo = put(readFileSync('tests/golden/english.png'), 'english.png');
    const { tab } = await open(photo, { course, courses: 4 });
    expect(await tab.isVisible('#save')).toBe(false);
    expect(await tab.inputValue('#command')).toBe(
      'gaugerod measure english.png --course 75mm --courses 4 --save',
    );
    // It is one, by what the library makes of it.
    expect(await keptByLibrary(photo, { course })).toMatchObject({ finished: true });
    await tab.close();
  });

  test('keeps notes without blanks around them, and says where single quotes do not serve', async () => {
    const photo = put(level);
    const { tab, saved } = await open(photo, { course, courses: 14 });
    await tab.click('summary');
    await tab.fill('#licence', '  CC0 ');
    expect(await tab.inputValue('#command')).toMatch(/ --licence CC0$/);
    expect(await tab.isVisible('#command-note')).toBe(false);
    await tab.fill('#credit', String.raw`@wharf\100%`);
    expect(await tab.inputValue('#command')).toContain(String.raw`--credit '@wharf\100%'`);
    expect(await tab.isVisible('#command-note')).toBe(true);
    expect(JSON.parse((await saved()).text)).toMatchObject({ licence: 'CC0' });
    await tab.close();
  });

  test.each([
    ['line', 1280, 800],
    ['count', 1280, 800],
    ['corners', 390, 844],
    ['found', 390, 844],
  ] as const)('axe finds nothing wrong with it: %s', async (way, width, height) => {
    const photo = put(level);
    const page = join(photo, '..', 'page.html');
    await measurePhoto(photo, { course, page });
    const { tab } = await openPointedPage(browser, page, { width, height });
    await tab.check(`input[value=${way}]`, { force: true });
    await tab.evaluate(
      readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'),
    );
    const found = await tab.evaluate(async () => {
      const { axe: run } = globalThis as unknown as { axe: { run: () => Promise<AxeResults> } };
      return run.run();
    });
    expect(
      found.violations.map(
        ({ id, impact, nodes }) => `${id} (${impact ?? ''}): ${nodes[0]?.html ?? ''}`,
      ),
    ).toEqual([]);
    expect(found.passes.length).toBeGreaterThan(20);
    await tab.close();
  });
});

test('where another photo’s measurement is kept, no page is begun', async () => {
  const photo = put(level);
  await measurePhoto(photo, { course, save: true });
  // The same name but for its ending shares the surface file.
  const other = join(photo, '..', 'wall.jpg');
  writeFileSync(other, await sharp(onEnd).jpeg().toBuffer());
  const steps: string[] = [];
  const asked = measurePhoto(other, {
    course,
    page: join(photo, '..', 'page.html'),
    onProgress: (step) => steps.push(step),
  });
  await expect(asked).rejects.toThrow('wall.png');
  expect(steps).not.toContain('measuring');
});

test('a failure keeps its own hint beside the page’s', async () => {
  const photo = put(level);
  const page = join(photo, '..', 'page.html');
  const span: Span = [
    { x: 10, y: 20 },
    { x: 10, y: 900 },
  ];
  const alone = await measurePhoto(photo, { course, courses: 4, spans: [span] });
  const beside = await measurePhoto(photo, { course, courses: 4, spans: [span], page });
  if (alone.ok || beside.ok) throw new Error('a place outside the photo was taken');
  expect(alone.hint).toBeDefined();
  expect(beside.hint).toContain(alone.hint);
  expect(beside.hint).toContain('page.html');
});

test('a focal length that no camera has is refused beside a page as well', async () => {
  const photo = put(level);
  const page = join(photo, '..', 'page.html');
  await expect(measurePhoto(photo, { focal: parseRealLength('1mm'), page })).rejects.toThrow(
    'focal',
  );
});
