import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Browser, Locator, Page } from 'playwright-core';

/** A page that was written to point at a photo with, opened by a browser. */
export interface PointedPage {
  readonly tab: Page;
  /** What the browser said, and asked for beside the page itself: nothing, if all is well. */
  readonly noise: string[];
  /** Where a place of the photo is shown on the screen, by what the browser itself says. */
  readonly onScreen: (x: number, y: number) => Promise<{ x: number; y: number }>;
  /** Where a field says that a line runs: x, y, x, y. */
  readonly ends: (line?: number) => Promise<number[]>;
  /** One of the marks, in the order of a keyboard. */
  readonly mark: (index: number) => Locator;
  /** What the button keeps: the name and the text of the file that the browser saves. */
  readonly saved: () => Promise<{ name: string; text: string }>;
}

// Opens it as a double click on the file does.
export async function openPointedPage(
  browser: Browser,
  file: string,
  { width = 1280, height = 800, touch = false } = {},
): Promise<PointedPage> {
  const context = await browser.newContext({ viewport: { width, height }, hasTouch: touch });
  const tab = await context.newPage();
  const noise: string[] = [];
  tab.on('console', (message) => noise.push(message.text()));
  tab.on('pageerror', (error) => noise.push(error.message));
  const address = pathToFileURL(file).href;
  tab.on('request', (request) => {
    const asked = request.url();
    if (asked !== address && !/^(data|blob):/.test(asked)) noise.push(asked);
  });
  await tab.goto(address);
  const photo = tab.locator('#photo');
  const size = await tab.evaluate<{ width: number }>(
    `JSON.parse(document.getElementById('told').text).photo`,
  );
  return {
    tab,
    noise,
    onScreen: async (x, y) => {
      const box = await boxOf(photo);
      const scale = box.width / size.width;
      return { x: box.x + x * scale, y: box.y + y * scale };
    },
    ends: async (line = 0) =>
      (await tab.locator(`#ends-${line}`).inputValue()).split(/[ ,]/).map(Number),
    mark: (index) => tab.locator('.mark').nth(index),
    saved: async () => {
      const [download] = await Promise.all([tab.waitForEvent('download'), tab.click('#save')]);
      return {
        name: download.suggestedFilename(),
        text: readFileSync(await download.path(), 'utf8'),
      };
    },
  };
}

// Draws a mark by the mouse from its middle to a place on the screen.
export async function dragTo(
  { tab }: PointedPage,
  mark: Locator,
  to: { readonly x: number; readonly y: number },
): Promise<void> {
  const box = await boxOf(mark);
  await tab.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await tab.mouse.down();
  await tab.mouse.move(Math.round(to.x), Math.round(to.y), { steps: 5 });
  await tab.mouse.up();
}

type Box = NonNullable<Awaited<ReturnType<Locator['boundingBox']>>>;

// Where something is on the screen.
export async function boxOf(shown: Locator): Promise<Box> {
  const box = await shown.boundingBox();
  if (box === null) throw new Error('it is not shown');
  return box;
}
