import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  fillPhoto,
  findBrick,
  findCourse,
  findScale,
  measurePhoto,
  type MeasurePhotoOptions,
  type OwnReference,
  parseDpi,
  parsePrintSize,
  parseRealSize,
  parseStatedLength,
  type Point,
  realMm,
  type Span,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { browserPath, openBrowser } from '../../support/open-browser.js';
import { boxOf, dragTo, openPointedPage, type PointedPage } from '../../support/pointed-page.js';

// 3 mm a pixel of the level wall; seen a little from the left, so that corners have something to do.
const wall = drawWall({ coursePx: 25, width: 900, height: 620, tiltX: 9, rotation: 1, seed: 41 });

let folder: string;
let photo: string;
let page: string;
let browser: Browser;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-pointer-'));
  photo = join(folder, 'tansy wharf.png');
  page = join(folder, 'point.html');
  writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
  const written = await measurePhoto(photo, { page });
  expect(written.ok && written.value.page).toBe(page);
  if (browserPath !== null) browser = await openBrowser();
});
afterAll(async () => {
  if (browserPath !== null) await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

// What the library keeps for the same places.
async function keptByLibrary(options: MeasurePhotoOptions): Promise<unknown> {
  rmSync(join(folder, 'tansy wharf.surface.json'), { force: true });
  const measured = await measurePhoto(photo, { ...options, save: true });
  if (!measured.ok) throw new Error(measured.message);
  return toRead(readFileSync(join(folder, 'tansy wharf.surface.json'), 'utf8'));
}

// Two makes of JavaScript differ in the last digit of a tangent: ECMA-262 leaves it to them.
function toRead(text: string): unknown {
  return JSON.parse(text, (_, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(12)) : value,
  );
}

const toSpan = ([a = 0, b = 0, c = 0, d = 0]: readonly number[]): Span => [
  { x: a, y: b },
  { x: c, y: d },
];

describe.skipIf(browserPath === null)('the page that is pointed at, in a browser', () => {
  test('opens from the disk, asks for nothing else, and says nothing on the console', async () => {
    const { tab, noise } = await openPointedPage(browser, page);
    await tab.waitForTimeout(200);
    expect(await tab.title()).toContain('tansy wharf.png');
    expect(await tab.evaluate(`document.getElementById('photo').naturalWidth`)).toBe(900);
    expect(noise).toEqual([]);
    await tab.close();
  });

  test('an end is set within a quarter of a pixel by hand, and what is kept is what the library keeps', async () => {
    const opened = await openPointedPage(browser, page);
    const { tab, onScreen, ends, mark, saved, noise } = opened;
    const targets = [
      { x: 211.3, y: 97.7 },
      { x: 640.15, y: 402.6 },
    ] as const;
    for (const [i, { x, y }] of targets.entries()) {
      // Near it in the whole photo, then in the loupe, which shows it ten times as large.
      await dragTo(opened, mark(i), await onScreen(x, y));
      const placed = (await ends()).slice(2 * i, 2 * i + 2);
      expect(Math.hypot((placed[0] ?? 0) - x, (placed[1] ?? 0) - y)).toBeLessThan(2);
      const box = await boxOf(tab.locator('#loupe'));
      const middle = { x: box.x + 90, y: box.y + 90 };
      await tab.mouse.move(middle.x, middle.y);
      await tab.mouse.down();
      await tab.mouse.move(
        Math.round(middle.x + 10 * ((placed[0] ?? 0) - x)),
        Math.round(middle.y + 10 * ((placed[1] ?? 0) - y)),
        { steps: 4 },
      );
      await tab.mouse.up();
      const [a = 0, b = 0] = (await ends()).slice(2 * i, 2 * i + 2);
      expect(Math.abs(a - x)).toBeLessThan(0.25);
      expect(Math.abs(b - y)).toBeLessThan(0.25);
    }
    await tab.fill('#length-0', '1.58m+-5mm');
    await tab.click('summary');
    await tab.fill('#credit', 'Tansy Wharf <dye works> & "Co"');
    const { name, text } = await saved();
    expect(name).toBe('tansy wharf.surface.json');
    const span = toSpan(await ends());
    const byLibrary = await keptByLibrary({
      spans: [span],
      lengths: [parseStatedLength('1.58m+-5mm')],
      credit: 'Tansy Wharf <dye works> & "Co"',
    });
    expect(toRead(text)).toEqual(byLibrary);
    expect(await tab.inputValue('#command')).toBe(
      `gaugerod measure "tansy wharf.png" --span "${span.map(({ x, y }) => `${x},${y}`).join(' ')}" --length 1.58m+-5mm --save --credit 'Tansy Wharf <dye works> & "Co"'`,
    );
    expect(noise).toEqual([]);

    // The file as it came out of the browser is taken by another command.
    writeFileSync(join(folder, 'tansy wharf.surface.json'), text);
    const filled = await fillPhoto(photo, {
      output: join(folder, 'front.png'),
      scale: findScale('1:76.2'),
      dpi: parseDpi('200'),
      size: parsePrintSize('12x8mm'),
    });
    expect(filled.ok).toBe(true);
    await tab.close();
  });

  test('a reference of one’s own is offered first, and kept as the library would', async () => {
    const own: OwnReference = {
      ...{ id: 'dye-house', name: 'dye-house', kind: 'brick', source: 'measured </script> by me' },
      ...{ course: realMm(76), tolerance: realMm(1), length: realMm(228) },
      ...{ lengthTolerance: null, width: null, joint: null },
    };
    // Notes that were kept before would be kept on.
    rmSync(join(folder, 'tansy wharf.surface.json'), { force: true });
    const mine = join(folder, 'mine.html');
    expect((await measurePhoto(photo, { page: mine, references: [own] })).ok).toBe(true);
    const { tab, ends, saved, noise } = await openPointedPage(browser, mine);
    await tab.check('input[value=count]', { force: true });
    await tab.fill('#choice', 'dye');
    expect(await tab.textContent('#choices')).toContain('your own · measured </script> by me');
    await tab.keyboard.press('ArrowDown');
    await tab.keyboard.press('Enter');
    expect(await tab.inputValue('#choice')).toBe('dye-house');
    const { text } = await saved();
    const courses = Number(await tab.inputValue('#courses'));
    const spans = [toSpan(await ends())];
    const course = findCourse('dye-house', 'course', [own]);
    expect(toRead(text)).toEqual(await keptByLibrary({ course, courses, spans }));
    expect(noise).toEqual([]);
    await tab.close();
  });

  test('courses that are counted are reckoned with the joints that were found, as by the library', async () => {
    const { tab, ends, saved } = await openPointedPage(browser, page);
    await tab.check('input[value=count]', { force: true });
    await tab.fill('#choice', 'metric');
    await tab.keyboard.press('ArrowDown');
    await tab.keyboard.press('Enter');
    expect(await tab.inputValue('#choice')).toBe('uk-metric');
    await tab.click('#fewer');
    await tab.click('#more');
    const courses = Number(await tab.inputValue('#courses'));
    // Whole walls are bonded in stretchers of 25 px: the line it begins with lies on joints.
    const { text } = await saved();
    const spans = [toSpan(await ends())];
    expect(toRead(text)).toEqual(
      await keptByLibrary({ course: findCourse('uk-metric'), courses, spans }),
    );
    // Truth of the drawing: 75 mm on 25 px, 3 mm a pixel at the middle of the photo.
    const { mmPerPx } = JSON.parse(text) as { mmPerPx: { y: number } };
    expect(Math.abs(mmPerPx.y / 3 - 1)).toBeLessThan(0.01);
    await tab.close();
  });

  test('a rectangle straightens the photo as it does in the library, and so does a length in its plane', async () => {
    const opened = await openPointedPage(browser, page);
    const { tab, onScreen, mark, saved, ends } = opened;
    await tab.check('input[value=corners]', { force: true });
    const near = [
      [160, 120],
      [730, 96],
      [738, 530],
      [150, 498],
    ] as const;
    for (const [i, [x, y]] of near.entries()) await dragTo(opened, mark(i), await onScreen(x, y));
    await tab.fill('#size', '1.9x1.3m');
    const corners = await marksOf(opened, 4);
    const rectangleSize = parseRealSize('1.9x1.3m');
    expect(toRead((await saved()).text)).toEqual(await keptByLibrary({ corners, rectangleSize }));
    await tab.selectOption('#known', 'line');
    await tab.fill('#length-0', '600mm');
    const spans = [toSpan(await ends())];
    const lengths = [parseStatedLength('600mm')];
    expect(toRead((await saved()).text)).toEqual(await keptByLibrary({ corners, spans, lengths }));
    await tab.close();
  });

  test('a section, a brick and several lines are measured as by the library', async () => {
    const { tab, ends, saved } = await openPointedPage(browser, page);
    await tab.fill('#length-0', '411mm');
    await tab.click('#another');
    await tab.fill('#length-1', '1ft 4 1/4in');
    const spans = [toSpan(await ends(0)), toSpan(await ends(1))];
    const lengths = ['411mm', '1ft 4 1/4in'].map((text) => parseStatedLength(text));
    expect(toRead((await saved()).text)).toEqual(await keptByLibrary({ spans, lengths }));
    await tab.click('text=Remove line 2');
    await tab.selectOption('#thing', 'section');
    await tab.fill('#choice', 'IPE 300');
    await tab.keyboard.press('Escape');
    expect((await saved()).text).toContain('"method": "section"');
    await tab.selectOption('#thing', 'brick');
    await tab.fill('#choice', 'uk-metric');
    await tab.keyboard.press('Escape');
    const brick = findBrick('uk-metric');
    const along = [toSpan(await ends(0))];
    expect(toRead((await saved()).text)).toEqual(await keptByLibrary({ brick, spans: along }));
    await tab.close();
  });

  test('a keyboard moves a mark by a pixel, a tenth and ten, and is told where it is', async () => {
    const { tab, ends, mark } = await openPointedPage(browser, page);
    const [x = 0, y = 0] = await ends();
    await mark(0).focus();
    await tab.keyboard.press('ArrowRight');
    await tab.keyboard.press('Shift+ArrowRight');
    await tab.keyboard.press('Shift+ArrowRight');
    await tab.keyboard.press('Control+ArrowDown');
    const [a = 0, b = 0] = await ends();
    expect([a - x, b - y].map((by) => Number(by.toFixed(6)))).toEqual([1.2, 10]);
    await expect.poll(() => tab.textContent('#said')).toContain(`first end at ${a}, ${b}`);
    expect(await mark(0).getAttribute('aria-label')).toContain(`${a} across, ${b} down`);
    await tab.close();
  });

  test('a finger draws a mark, and two come nearer', async () => {
    const opened = await openPointedPage(browser, page, { width: 390, height: 844, touch: true });
    const { tab, ends, mark, onScreen } = opened;
    const hand = await tab.context().newCDPSession(tab);
    const touch = async (
      type: 'touchStart' | 'touchMove' | 'touchEnd',
      ...touchPoints: Point[]
    ): Promise<void> => {
      await hand.send('Input.dispatchTouchEvent', { type, touchPoints });
    };
    const box = await boxOf(mark(1));
    const from = { x: box.x + 30, y: box.y + 16 };
    const [, , x = 0, y = 0] = await ends();
    const before = await onScreen(x, y);
    await touch('touchStart', from);
    for (const step of [10, 20, 30]) await touch('touchMove', { x: from.x + step, y: from.y });
    await touch('touchEnd');
    const [, , c = 0, d = 0] = await ends();
    const after = await onScreen(c, d);
    expect(after.x - before.x).toBeCloseTo(30, 0);
    expect(after.y - before.y).toBeCloseTo(0, 0);

    const width = async (): Promise<number> => (await boxOf(tab.locator('#photo'))).width;
    const small = await width();
    const view = await boxOf(tab.locator('#view'));
    const at = { x: 60, y: view.y + view.height - 40 };
    await touch('touchStart', at, { x: 120, y: at.y });
    await touch('touchMove', { x: 30, y: at.y }, { x: 150, y: at.y });
    await touch('touchEnd');
    // Twice as far apart.
    expect((await width()) / small).toBeCloseTo(2, 0);
    await tab.close();
  });
});

// Where marks are, as they are told to whoever cannot see them.
async function marksOf({ mark }: PointedPage, count: number): Promise<Point[]> {
  const labels = await Promise.all(
    Array.from({ length: count }, (_, i) => mark(i).getAttribute('aria-label')),
  );
  return labels.map((label) => {
    const [, x, y] = /, ([\d.]+) across, ([\d.]+) down$/.exec(label ?? '') ?? [];
    return { x: Number(x), y: Number(y) };
  });
}
