import { readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import type { AxeResults } from 'axe-core';
import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { drawPhotos } from '../../support/building.js';
import { type HostileWorks, hostileWorks } from '../../support/hostile-works.js';
import { browserPath, openBrowser } from '../../support/open-browser.js';

if (browserPath === null) console.warn('no Chromium on this system: reports are not opened');

// CSS Values and Units Module Level 4, 6.2: 1in is 2.54cm and 96px.
const pxOf = (mm: number): number => (mm * 96) / 25.4;

describe.skipIf(browserPath === null)('a report in Chromium', () => {
  let attacked: HostileWorks;
  let browser: Browser;

  beforeAll(async () => {
    attacked = await hostileWorks(await drawPhotos());
    await attacked.build();
    browser = await openBrowser();
  });

  afterAll(async () => {
    await browser.close();
    rmSync(attacked.folder, { recursive: true, force: true });
  });

  interface Opened {
    readonly page: Page;
    // Whatever the browser had to say, and whatever was asked for.
    readonly said: string[];
  }

  async function open(options: BrowserContextOptions = {}): Promise<Opened> {
    const context = await browser.newContext({
      viewport: { width: 1280, height: 900 },
      ...options,
    });
    const page = await context.newPage();
    const said: string[] = [];
    const url = pathToFileURL(attacked.page).href;
    page.on('console', (message) => said.push(message.text()));
    page.on('pageerror', (error) => said.push(error.message));
    page.on('dialog', (dialog) => said.push(dialog.message()));
    page.on('request', (request) => {
      if (request.url() !== url && !request.url().startsWith('data:')) said.push(request.url());
    });
    await page.goto(url, { waitUntil: 'load' });
    return { page, said };
  }

  test('it opens without a message, without a script, and asks for nothing', async () => {
    const { page, said } = await open();
    await page.mouse.move(400, 400);
    expect(said).toEqual([]);
    expect(await page.locator('script, iframe, object, embed, form').count()).toBe(0);
    const broken = await page.evaluate(
      '[...document.images].filter((image) => image.naturalWidth === 0).map((image) => image.alt)',
    );
    expect(broken).toEqual([]);
    expect(await page.locator('h1').innerText()).toBe('works"><svg onload=alert(4)>&amp;.yaml');
  });

  test.each([
    ['by day', { colorScheme: 'light' }],
    ['by night', { colorScheme: 'dark' }],
    ['on a phone', { viewport: { width: 390, height: 844 }, isMobile: true }],
  ] as const)('axe finds nothing serious in it %s', async (_, options) => {
    const { page } = await open(options);
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    await page.evaluate(axe);
    const found = await page.evaluate(async () => {
      const { axe: run } = globalThis as unknown as { axe: { run: () => Promise<AxeResults> } };
      return run.run();
    });
    const grave = found.violations.map(
      ({ id, impact, nodes }) => `${id} (${impact ?? ''}): ${nodes[0]?.html ?? ''}`,
    );
    // Headings in order are among what it looks at.
    expect(grave).toEqual([]);
    expect(found.passes.length).toBeGreaterThan(20);
  });

  // Of each part by its name, px.
  async function sizes(page: Page): Promise<(name: string) => readonly [number, number]> {
    const found = new Map<string, readonly [number, number]>();
    for (const part of await page.locator('svg.part').all()) {
      const [name = ''] = ((await part.getAttribute('aria-label')) ?? '').split(':');
      const { width, height } = await boxOf(part);
      found.set(name, [width, height]);
    }
    return (name) => found.get(name) ?? [NaN, NaN];
  }

  type Box = NonNullable<Awaited<ReturnType<Locator['boundingBox']>>>;

  async function boxOf(one: Locator | undefined): Promise<Box> {
    const box = await one?.boundingBox();
    if (box) return box;
    throw new Error('it is not there');
  }

  test('parts are as large as they are, and the bar of 20 mm is 20 mm long', async () => {
    const { page } = await open();
    const size = await sizes(page);
    // With 1 mm of bleed on every side, to a dot of 300 dpi.
    expect(size('gable')[0]).toBeCloseTo(pxOf(42), -0.5);
    expect(size('gable')[1]).toBeCloseTo(pxOf(32), -0.5);
    expect(size('long')[0]).toBeCloseTo(pxOf(250), -0.5);
    expect(size('front')[0]).toBeCloseTo(pxOf(60), 0);
    const bar = page.locator('svg.bar[aria-label^="Scale bar: 20 mm"]').first();
    // From the left of its first block to the right of its last: the line about them has a width of its own.
    const [first, , last] = await bar.locator('rect').all();
    const [from, to] = [await boxOf(first), await boxOf(last)];
    expect(to.x + to.width - from.x).toBeCloseTo(pxOf(20), 1);
  });

  test('on paper they are true where they fit, else as much smaller as is said', async () => {
    const { page } = await open();
    await page.emulateMedia({ media: 'print' });
    const size = await sizes(page);
    expect(size('gable')[0]).toBeCloseTo(pxOf(42), -0.5);
    // A4 is 210 mm wide (ISO 216), less two margins of 12 mm.
    expect(size('long')[0]).toBeLessThanOrEqual(pxOf(186));
    const said = await page.locator('.printed').allInnerTexts();
    expect(said).toHaveLength(1);
    const percent = Number(/at (\d+) %/.exec(said[0] ?? '')?.[1]);
    expect(size('long')[0] / pxOf(250)).toBeCloseTo(percent / 100, 2);
  });

  test('on a phone the page does not scroll sideways, and what is larger scrolls in its own box', async () => {
    const { page } = await open({ viewport: { width: 390, height: 844 }, isMobile: true });
    const wide = await page.evaluate('document.documentElement.scrollWidth');
    expect(wide).toBeLessThanOrEqual(390);
    const box = page.locator('.true', { has: page.locator('svg[aria-label^="long:"]') });
    await box.focus();
    const inFocus = (what: string): Promise<number> =>
      page.evaluate(`document.activeElement.${what}`);
    expect(await inFocus('scrollWidth')).toBeGreaterThan(await inFocus('clientWidth'));
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => inFocus('scrollLeft')).toBeGreaterThan(0);
  });

  test('the first key leads past the contents', async () => {
    const { page } = await open();
    await page.keyboard.press('Tab');
    const skip = page.locator('.skip');
    expect(await page.evaluate('document.activeElement.className')).toBe('skip');
    expect((await skip.boundingBox())?.x).toBeGreaterThanOrEqual(0);
    await page.keyboard.press('Enter');
    expect(await page.evaluate('document.activeElement.tagName')).toBe('MAIN');
  });

  test('sheets show their parts where the sheet has them', async () => {
    const { page } = await open();
    const pages = page.locator('svg.page');
    expect(await pages.count()).toBe(2);
    // Gable, girder and its layer of card on the first, each by one use of its picture.
    expect(await pages.first().locator('use').count()).toBe(3);
    const { width, height } = await boxOf(pages.first());
    expect(height / width).toBeCloseTo(297 / 210, 2);
  });
});
