import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { dpi, fillPhoto, findCourse, printMm } from '@gaugerod/core';
import { type Rendered, renderers } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { courseDots, dress, dressFolder, scale, svg } from '../../support/dress-drawings.js';

const red = 'fill="#b5432e"';

// A square of 20 mm about 15,15 of its own 30 mm of page, drawn the same way by each; and how it is
// turned there.
const squares: readonly (readonly [what: string, inner: string, turned: number])[] = [
  ['as it is', `<rect x="5" y="5" width="20" height="20" ${red}/>`, 0],
  [
    'scaled',
    `<g transform="scale(.25)"><rect x="20" y="20" width="80" height="80" ${red}/></g>`,
    0,
  ],
  [
    'stretched',
    `<g transform="translate(5 5) scale(4 .5)"><rect width="5" height="40" ${red}/></g>`,
    0,
  ],
  [
    'turned',
    `<g transform="rotate(30 15 15)"><rect x="5" y="5" width="20" height="20" ${red}/></g>`,
    30,
  ],
  ['a quarter turned', `<path transform="matrix(0 1 -1 0 25 5)" d="M0 0h20v20h-20z" ${red}/>`, 90],
  ['mirrored', `<path transform="matrix(-1 0 0 1 25 5)" d="M0 0h20v20h-20z" ${red}/>`, 0],
  [
    'in a drawing inside',
    `<svg x="5" y="5" width="40" height="20" viewBox="0 0 100 100" preserveAspectRatio="xMinYMin"><rect width="100" height="100" ${red}/></svg>`,
    0,
  ],
  [
    'of a symbol',
    `<symbol id="s" viewBox="0 0 10 10"><rect width="10" height="10"/></symbol><use xlink:href="#s" x="5" y="5" width="20" height="20" ${red}/>`,
    0,
  ],
  [
    'used',
    `<defs><g id="g"><rect width="5" height="20"/></g></defs><use xlink:href="#g" transform="translate(5 5) scale(4 1)" ${red}/>`,
    0,
  ],
  [
    'used twice over',
    `<defs><rect id="r" width="20" height="20"/><use id="u" xlink:href="#r" x="5"/></defs><use xlink:href="#u" transform="rotate(-50 15 15) translate(0 5)" ${red}/>`,
    -50,
  ],
];

const cell = (i: number): readonly [number, number] => [30 * (i % 5), 30 * Math.floor(i / 5)];
const drawn = squares
  .map(([, inner], i) => `<g transform="translate(${cell(i).join()})">${inner}</g>`)
  .join('\n');

// For all tests of this file.
const shared: string[] = [];
const sharedFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-test-'));
  shared.push(folder);
  return folder;
};
afterAll(() => {
  for (const folder of shared) rmSync(folder, { recursive: true, force: true });
});

const once = <Value>(make: () => Promise<Value>): (() => Promise<Value>) => {
  let made: Promise<Value> | undefined;
  return () => (made ??= make());
};

// A square piece of 13 mm around a place, turned back, as rows of light.
async function rowsAround(
  { data, width, height }: Rendered,
  [x, y]: readonly [number, number],
  turned: number,
): Promise<number[]> {
  const toDots = 600 / 25.4;
  const reach = Math.round(10 * toDots);
  const [left, top] = [Math.round(x * toDots) - reach, Math.round(y * toDots) - reach];
  const raw = { width, height, channels: 4 } as const;
  const cut = await sharp(data, { raw })
    .extract({ left, top, width: 2 * reach, height: 2 * reach })
    .png()
    .toBuffer();
  const back = await sharp(cut).rotate(-turned).png().toBuffer();
  const around = (await sharp(back).metadata()).width;
  const side = Math.round(13 * toDots);
  const at = Math.round((around - side) / 2);
  const piece = await sharp(back)
    .extract({ left: at, top: at, width: side, height: side })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { channels } = piece.info;
  return Array.from({ length: side }, (_, row) => {
    let sum = 0;
    for (let i = 0; i < side; i++) sum += piece.data[(row * side + i) * channels] ?? 0;
    return sum / side;
  });
}

// The period whose wave a run of numbers holds most of, looked for between 0.8 and 1.25 times a guess.
function periodOf(rows: readonly number[], guess: number): number {
  const mean = rows.reduce((a, b) => a + b, 0) / rows.length;
  let best = { period: 0, power: 0 };
  for (let period = 0.8 * guess; period < 1.25 * guess; period += guess / 2000) {
    let [re, im] = [0, 0];
    rows.forEach((value, i) => {
      const window = 1 - Math.cos((2 * Math.PI * (i + 0.5)) / rows.length);
      const angle = (2 * Math.PI * i) / period;
      re += (value - mean) * window * Math.cos(angle);
      im += (value - mean) * window * Math.sin(angle);
    });
    const power = re * re + im * im;
    if (power > best.power) best = { period, power };
  }
  return best.period;
}

const alphaOf = ({ data, width }: Rendered, x: number, y: number): number =>
  data[(y * width + x) * 4 + 3] ?? -1;

const house = `<path fill-rule="evenodd" ${red} d="M4 34V14L18 4 32 14V34z M8 18h6v7h-6z M21 34v-8a3 3 0 0 1 6 0v8z"/>
<g transform="rotate(-17 46 20)"><rect x="37" y="9" width="16" height="22" rx="3" ${red}/></g>`;

const dressedSquares = once(async () => {
  const folder = dressFolder(
    svg(drawn, 'width="150mm" height="60mm" viewBox="0 0 150 60"'),
    sharedFolder(),
  );
  const { outlines } = await dress(folder, ['#b5432e']);
  expect(outlines).toHaveLength(squares.length);
  return join(folder, 'dressed.svg');
});

const size = [60, 40] as const;

const dressedHouse = once(async () => {
  const folder = dressFolder(svg(house), sharedFolder());
  await dress(folder, ['#b5432e']);
  return folder;
});

const dressedPieces = once(async () => {
  const whole = `<rect x="3" y="3" width="54" height="33" ${red}/>`;
  const pieces = [
    `<rect x="3" y="3" width="20.32" height="33" ${red}/>`,
    `<g transform="translate(23.32 3) scale(2 .5)"><rect width="5.08" height="66" ${red}/></g>`,
    `<g transform="matrix(-1 0 0 1 57 0)"><path d="M0 3h23.52v33H0z" ${red}/></g>`,
  ].join('');
  const folder = dressFolder(svg(whole), sharedFolder());
  writeFileSync(join(folder, 'pieces.svg'), svg(pieces));
  const link = join(folder, 'pictures');
  await dress(folder, ['#b5432e'], { link });
  await dress(folder, ['#b5432e'], { from: 'pieces.svg', to: 'cut.svg', link });
  return folder;
});

describe.each(renderers.filter(({ isThere }) => isThere))('as $name shows it', (renderer) => {
  const shown = once(async () => renderer.render(await dressedSquares(), 600, [150, 60]));

  test.each(squares.map(([what, , turned], i) => [what, turned, i] as const))(
    'a course is as high as it should be: %s',
    async (_, turned, i) => {
      const [left, top] = cell(i);
      const rows = await rowsAround(await shown(), [left + 15, top + 15], turned);
      expect(Math.abs(periodOf(rows, courseDots) / courseDots - 1)).toBeLessThan(0.01);
    },
  );

  test.each([600, 203, 50])(
    'at %i dpi edges lie where they did, holes are empty, and nothing shines through',
    async (resolution) => {
      const folder = await dressedHouse();
      const [before, after] = [
        await renderer.render(join(folder, 'front.svg'), resolution, size),
        await renderer.render(join(folder, 'dressed.svg'), resolution, size),
      ];
      const worst = { inside: 255, outside: 0, edge: 0 };
      for (let y = 1; y < before.height - 1; y++) {
        for (let x = 1; x < before.width - 1; x++) {
          const [was, is] = [alphaOf(before, x, y), alphaOf(after, x, y)];
          const around = [-1, 1].flatMap((d) => [
            alphaOf(before, x + d, y),
            alphaOf(before, x, y + d),
          ]);
          if ([was, ...around].every((one) => one === 255))
            worst.inside = Math.min(worst.inside, is);
          else if ([was, ...around].every((one) => one === 0))
            worst.outside = Math.max(worst.outside, is);
          else worst.edge = Math.max(worst.edge, Math.abs(is - was));
        }
      }
      expect(worst.inside).toBe(255);
      expect(worst.outside).toBe(0);
      // Half a pixel is half of what a pixel holds.
      expect(worst.edge).toBeLessThan(128);
    },
  );

  test('a wall cut in pieces, each in transforms of its own, is the wall in one piece', async () => {
    const folder = await dressedPieces();
    const one = await renderer.render(join(folder, 'dressed.svg'), 600, size);
    const cut = await renderer.render(join(folder, 'cut.svg'), 600, size);
    let [worst, sum, count] = [0, 0, 0];
    for (let y = 80; y < 840; y++) {
      for (let x = 80; x < 1340; x++) {
        // Where two pieces meet their edges may share a dot.
        if ([550.9, 790.9].some((joint) => Math.abs(x - joint) < 3)) continue;
        const at = (y * one.width + x) * 4;
        const difference = Math.abs((one.data[at] ?? 0) - (cut.data[at] ?? 0));
        worst = Math.max(worst, difference);
        sum += difference;
        count++;
      }
    }
    expect(sum / count).toBeLessThan(0.05);
    expect(worst).toBeLessThan(4);
  });
});

test.runIf(renderers[0]?.isThere)('an outline shows the very dots that fill writes', async () => {
  const folder = dressFolder(svg(`<rect width="40" height="30" ${red}/>`));
  const output = join(folder, 'fill.png');
  const size4x3 = { width: printMm(40), height: printMm(30) };
  const course = findCourse('75mm');
  await fillPhoto(join(folder, 'wall.png'), {
    output,
    scale,
    course,
    size: size4x3,
    dpi: dpi(600),
  });
  await dress(folder, ['#b5432e'], { link: join(folder, 'pictures') });
  const shown = await renderers[0]?.render(join(folder, 'dressed.svg'), 600, size);
  const fill = await sharp(readFileSync(output)).raw().toBuffer({ resolveWithObject: true });
  let worst = 0;
  for (let y = 2; y < 700; y++) {
    for (let x = 2; x < 940; x++) {
      for (let c = 0; c < 3; c++) {
        const [a, b] = [
          shown?.data[(y * shown.width + x) * 4 + c] ?? 0,
          fill.data[(y * fill.info.width + x) * 3 + c] ?? 0,
        ];
        worst = Math.max(worst, Math.abs(a - b));
      }
    }
  }
  expect(worst).toBeLessThanOrEqual(1);
});

test.each(renderers.filter(({ isThere }) => !isThere))(
  '$name is not installed: nothing was compared as it shows',
  ({ isThere }) => {
    expect(isThere).toBe(false);
  },
);
