import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { beforeAll, describe, expect, test } from 'vitest';
import { browserPath, openBrowser } from '../../support/open-browser.js';

type Pure = typeof import('@gaugerod/core/pure');

// As somebody's own page would bundle it: all of it, with what it depends on.
let code: string;

beforeAll(async () => {
  const input = fileURLToPath(new URL('../../../packages/core/dist/pure.js', import.meta.url));
  const bundle = await rolldown({ input, platform: 'browser' });
  const { output } = await bundle.generate({ format: 'iife', name: 'gaugerod' });
  expect(output.flatMap((file) => ('imports' in file ? file.imports : []))).toEqual([]);
  [{ code }] = output;
});

test('the part without files asks for nothing of Node', () => {
  expect(code).not.toMatch(/(?:from|import\(|require\()\s*["'](?:node:|fs|path|crypto|sharp)/);
});

describe.skipIf(browserPath === null)('the part without files, in a browser', () => {
  test('measures by lines, by a rectangle and by courses, and turns lengths into dots', async () => {
    const browser = await openBrowser();
    try {
      const tab = await browser.newPage();
      await tab.addScriptTag({ content: `${code};globalThis.gaugerod = gaugerod;` });
      const seen = await tab.evaluate(() => {
        const core = (globalThis as unknown as { gaugerod: Pure }).gaugerod;
        const size = { width: 1200, height: 800 };
        const line = core.measureSpans(size, [
          { from: { x: 100, y: 400 }, to: { x: 1060, y: 400 }, length: core.realMm(3600) },
        ]);
        const corners = core.measureCorners(size, {
          kind: 'corners',
          corners: [
            { x: 300, y: 200 },
            { x: 900, y: 200 },
            { x: 900, y: 600 },
            { x: 300, y: 600 },
          ],
          known: { kind: 'size', size: core.parseRealSize('1.8x1.2m') },
        });
        // Level joints, 2 px dark in every 25, on a lighter wall.
        const wall = core.createRaster(200, 250);
        for (const plane of wall.planes) {
          for (const i of plane.keys()) {
            const [x, y] = [i % 200, Math.floor(i / 200)];
            plane[i] = y % 25 < 2 ? 0.1 : 0.4 + 0.02 * Math.sin(x * 1.7 + y * y);
          }
        }
        const found = core.measureCourses(wall, core.findCourse('uk-metric'));
        const dots = core.toDots(
          core.toPrint(core.realMm(75), core.findScale('OO').ratio),
          core.dpi(600),
        );
        return { line, corners, found, dots };
      });
      // 3600 mm on 960 px; 1800 mm on 600 px.
      expect(seen.line).toMatchObject({ ok: true, value: { mmPerPx: { x: 3.75, y: 3.75 } } });
      expect(seen.corners.ok && seen.corners.value.mmPerPx.x).toBeCloseTo(3, 6);
      expect(seen.found.ok && seen.found.value.mmPerPx.y).toBeCloseTo(3, 2);
      // OO is 4 mm to the foot; 1 ft = 304.8 mm and 1 in = 25.4 mm exactly (International Yard and Pound
      // Agreement, 1959): 75 / 76.2 * 600 / 25.4 = 23.250 dots.
      expect(seen.dots).toBeCloseTo(23.25, 3);
    } finally {
      await browser.close();
    }
  });
});
