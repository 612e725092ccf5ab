import { join } from 'node:path';
import { type Renderer, renderers } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { compareColours } from '../../../packages/core/src/colour/compare-colours.js';
import {
  clip,
  drawingFolder,
  image,
  jpeg,
  png,
  slim,
  small,
  soft,
  svg,
  uri,
} from '../../support/slim-drawings.js';

async function shownBy(
  renderer: Renderer,
  folder: string,
  name: string,
): Promise<{ data: Buffer; width: number }> {
  const { data, width, height } = await renderer.render(join(folder, name), 600, size);
  const flat = sharp(data, { raw: { width, height, channels: 4 } }).flatten({
    background: '#ffffff',
  });
  return { data: await flat.raw().toBuffer(), width };
}

// Every pixel that is not paper in both: mean, and the worst of the means of 8 x 8 pixels.
function compare(a: Buffer, b: Buffer, width: number): { mean: number; worst: number } {
  const [one, other]: [number[], number[]] = [[], []];
  let worst = 0;
  for (let i = 0; i < a.length; i += 3) {
    const paper = [a, b].every((x) => (x[i] ?? 0) + (x[i + 1] ?? 0) + (x[i + 2] ?? 0) === 765);
    if (paper) continue;
    one.push(...a.subarray(i, i + 3));
    other.push(...b.subarray(i, i + 3));
  }
  const height = a.length / 3 / width;
  for (let y = 0; y + 8 <= height; y += 8) {
    for (let x = 0; x + 8 <= width; x += 8) {
      const block = (from: Buffer): Buffer =>
        Buffer.concat(
          Array.from({ length: 8 }, (_, k) => {
            const at = ((y + k) * width + x) * 3;
            return from.subarray(at, at + 24);
          }),
        );
      if (!block(a).equals(block(b)))
        worst = Math.max(worst, compareColours(block(a), block(b), { channels: 3 }).mean);
    }
  }
  return {
    mean: compareColours(Uint8Array.from(one), Uint8Array.from(other), { channels: 3 }).mean,
    worst,
  };
}

// Whole pixels of CSS, 228 x 152: a browser fits a page to them, and would move a picture by a part of a dot.
const size = [60.325, (152 * 25.4) / 96] as const;
const page = (inner: string): string =>
  svg(
    inner,
    `xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${size[0]}mm" height="${size[1]}mm" viewBox="0 0 ${size.join(' ')}"`,
  );

const drawings: readonly (readonly [what: string, draw: () => string])[] = [
  ['clipped', () => page(`${clip}<g clip-path="url(#c)">${image(uri(png))}</g>`)],
  ['finer than the print', () => page(small(uri(png)))],
  ['finer, a JPEG', () => page(`<g transform="scale(.6)">${small(uri(soft, 'jpeg'))}</g>`)],
  ['clipped, a JPEG', () => page(`${clip}<g clip-path="url(#c)">${small(uri(jpeg, 'jpeg'))}</g>`)],
  ['turned', () => page(small(uri(png), 'transform="rotate(20 10 10) scale(.16)"'))],
  [
    'mirrored and stretched',
    () => page(small(uri(png), 'preserveAspectRatio="none" transform="matrix(-1 0 0 .7 30 3)"')),
  ],
  ['a quarter turned', () => page(small(uri(png), 'transform="matrix(0 1 -1 0 25 2)"'))],
  [
    'cut off by its shape',
    () =>
      page(
        `<image x="3.3" y="2.1" width="9" height="14" preserveAspectRatio="xMaxYMid slice" xlink:href="${uri(png)}"/>`,
      ),
  ],
  [
    'twice, off the same dots',
    () =>
      page(
        `<g transform="scale(.4)">${small(uri(png))}${small(uri(png), 'transform="translate(17.3 9.9) scale(.9)"')}</g>`,
      ),
  ],
  [
    'used again',
    () =>
      page(
        `<defs>${small(uri(png), 'id="a"')}</defs><use xlink:href="#a"/><use xlink:href="#a" x="20.32" y="3.683"/>`,
      ),
  ],
  [
    'in an svg inside',
    () =>
      page(
        `<svg x="3.1" y="4.7" width="10" height="20" viewBox="0 0 20 30" preserveAspectRatio="xMinYMax slice"><image width="30" height="22" xlink:href="${uri(png)}"/></svg>`,
      ),
  ],
  ['half off the page', () => page(small(uri(png), 'transform="translate(-9.7 -3.1)"'))],
];

const there = renderers.filter(({ isThere }) => isThere);

describe.each(there)('printed at 600 dpi it shows the same ($name)', (renderer) => {
  test.each(drawings)('%s', async (_, draw) => {
    const folder = drawingFolder(draw());
    const made = await slim(folder);
    expect(made.bytesAfter).toBeLessThan(made.bytesBefore);
    const before = await shownBy(renderer, folder, 'front.svg');
    const after = await shownBy(renderer, folder, 'small.svg');
    expect(after.width).toBe(before.width);
    const { mean, worst } = compare(before.data, after.data, before.width);
    expect(mean).toBeLessThanOrEqual(0.5);
    // Outlines too: where one moves or fades, its 8 x 8 pixels differ by ten and more.
    expect(worst).toBeLessThan(2.5);
  });
});

// Sharp to the pixel and some four times as fine as the print: programs that halve show it otherwise than those that average.
test.each(there.filter(({ name }) => name === 'rsvg-convert'))(
  'a JPEG that programs disagree on becomes the means of what lies under each dot ($name)',
  async (renderer) => {
    const folder = drawingFolder(page(`<g transform="scale(.6)">${small(uri(jpeg, 'jpeg'))}</g>`));
    const made = await slim(folder);
    expect(made.images[0]?.what).toContain('the mean under its dot');
    expect(made.bytesAfter).toBeLessThan(0.5 * made.bytesBefore);
    const before = await shownBy(renderer, folder, 'front.svg');
    const after = await shownBy(renderer, folder, 'small.svg');
    expect(compare(before.data, after.data, before.width).mean).toBeLessThanOrEqual(0.5);
  },
);

test.each(renderers.filter(({ isThere }) => !isThere))(
  '$name is not installed: nothing was compared as it prints',
  ({ isThere }) => {
    expect(isThere).toBe(false);
  },
);

// 1500 x 1200 px, grey but for patches that lie between any few places that one would look at first: stripes a
// pixel wide, which programs that halve show otherwise than programs that average, and those far otherwise where
// every other row is left out.
async function drawPatches(): Promise<Buffer> {
  const [width, height] = [1500, 1200];
  const bytes = Buffer.alloc(width * height * 3, 128);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const isPatch = x % 600 >= 260 && x % 600 < 600 && y % 480 >= 260;
      if (!isPatch) continue;
      bytes.set((x + y) % 3 === 0 ? [230, 40, 30] : [40, 60, 200], 3 * (y * width + x));
    }
  }
  return sharp(bytes, { raw: { width, height, channels: 3 } })
    .png()
    .toBuffer();
}

test.each(there)('coloured where no piece lies, it still shows the same ($name)', async (one) => {
  const patches = uri(await drawPatches());
  const folder = drawingFolder(
    page(
      `<clipPath id="c"><rect x="2" y="1" width="7" height="16"/></clipPath><g clip-path="url(#c)"><image x="2.1" y="1.3" width="20" height="16" xlink:href="${patches}"/></g>`,
    ),
  );
  const made = await slim(folder);
  const before = await shownBy(one, folder, 'front.svg');
  const after = await shownBy(one, folder, 'small.svg');
  const { mean, worst } = compare(before.data, after.data, before.width);
  expect(mean).toBeLessThanOrEqual(0.5);
  expect(worst).toBeLessThan(2.5);
  // What is only cut out prints the same.
  expect(made.bytesAfter).toBeLessThan(0.6 * made.bytesBefore);
});
