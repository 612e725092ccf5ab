import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { sheetParts, slimDrawing } from '@gaugerod/core';
import { renderers } from '@gaugerod/fixtures';
import { beforeAll, describe, expect, test } from 'vitest';
import { dress, dressFolder, svg, wall } from '../../support/dress-drawings.js';
import { drawPhotos, statesOf, works as worksOf } from '../../support/building.js';
import { tempFolder } from '../../support/temp-folder.js';

const brick = '<rect fill="#b5432e" x="5" y="5" width="20" height="15"/>';
const roof = (href: string, more = ''): string =>
  `<image x="30" y="5" width="12" height="9" xlink:href="${href}"${more}/>`;

// A folder of drawings with a picture in it, and one beside it.
function yard(inner: string): { readonly top: string; readonly drawings: string } {
  const top = tempFolder();
  const drawings = join(top, 'drawings');
  for (const name of ['drawings', 'drawings/roof parts', 'out']) mkdirSync(join(top, name));
  dressFolder(svg(inner), drawings);
  writeFileSync(join(drawings, 'roof parts', 'ridge.png'), wall);
  return { top, drawings };
}

// How a browser follows a link: the URL Standard, from the drawing's own address.
const leadsTo = (drawing: string, href: string): string =>
  fileURLToPath(new URL(href, pathToFileURL(drawing)));

const linksIn = (text: string): string[] =>
  [...text.matchAll(/<image x="30"[^>]*?href="([^"]*)"/g)].map(([, href = '']) => href);

describe('links of a dressed drawing in another folder', () => {
  test.each([
    ['wall.png', 'drawings/wall.png'],
    ['./wall.png', 'drawings/wall.png'],
    ['roof%20parts/ridge.png', 'drawings/roof parts/ridge.png'],
    ['../out/slate.png', 'out/slate.png'],
    ['gone.png', 'drawings/gone.png'],
  ])('%s leads to where it led', async (href, file) => {
    const { top, drawings } = yard(brick + roof(href));
    const { text } = await dress(drawings, ['#b5432e'], { to: '../out/front.svg' });
    const [link = ''] = linksIn(text);
    expect(relative(top, leadsTo(join(top, 'out', 'front.svg'), link))).toBe(file);
  });

  test.each(['#slate', '/gone/wall.png', 'C:\\gone\\wall.png', 'http://127.0.0.1:9/a.png', ''])(
    '%j stays',
    async (href) => {
      const { drawings } = yard(brick + roof(href));
      const { text } = await dress(drawings, ['#b5432e'], { to: '../out/front.svg' });
      expect(linksIn(text)).toEqual([href]);
    },
  );

  test('are all that changes, under both of their names', async () => {
    const inner = `${brick}<a href='plan.html?x=1&amp;y=2#z'>${roof('wall.png', " href='wall.png' id='r'")}</a><use xlink:href="lib.svg#post"/>`;
    const { drawings } = yard(inner);
    const near = await dress(drawings, ['#b5432e']);
    const far = await dress(drawings, ['#b5432e'], { to: '../out/front.svg' });
    expect(near.text).toContain(inner.slice(brick.length));
    const back = far.text.replaceAll('="../drawings/', '="').replaceAll("='../drawings/", "='");
    expect(back).toBe(near.text);
    expect(far.text.match(/\.\.\/drawings\//g)).toHaveLength(4);
  });

  test('of an earlier dressing are taken out with it', async () => {
    const { drawings } = yard(brick + roof('wall.png'));
    const link = join(drawings, 'beside');
    mkdirSync(link);
    await dress(drawings, ['#b5432e'], { to: 'once.svg', link });
    const again = await dress(drawings, ['#b5432e'], { from: 'once.svg', to: '../out/front.svg' });
    const plain = await dress(drawings, ['#b5432e'], { to: '../out/plain.svg' });
    expect(again.text).toBe(plain.text);
  });

  test('count from where folders really lie', async () => {
    const { top, drawings } = yard(brick + roof('wall.png'));
    mkdirSync(join(top, 'far', 'away'), { recursive: true });
    symlinkSync(join(top, 'far', 'away'), join(top, 'near'));
    const { text } = await dress(drawings, ['#b5432e'], { to: '../near/front.svg' });
    expect(linksIn(text)).toEqual(['../../drawings/wall.png']);
  });

  // Of those, the one that reads links from a drawing's own folder and below.
  const rsvg = renderers.find(({ name }) => name === 'rsvg-convert');
  test.skipIf(rsvg?.isThere !== true)('into a folder around it print the same', async () => {
    const { top, drawings } = yard(brick + roof('wall.png'));
    await dress(drawings, ['#b5432e'], { to: 'near.svg' });
    await dress(drawings, ['#b5432e'], { to: '../front.svg' });
    const front = join(top, 'front.svg');
    const bare = join(top, 'bare.svg');
    writeFileSync(bare, readFileSync(front, 'utf8').replace(/<image x="30"[^>]*>/, ''));
    const [near, far, without] = await Promise.all(
      [join(drawings, 'near.svg'), front, bare].map(async (path) => {
        const shown = await rsvg?.render(path, 150, [0, 0]);
        return shown?.data ?? Buffer.alloc(0);
      }),
    );
    expect(far?.equals(near ?? Buffer.alloc(0))).toBe(true);
    // It shows: the picture's own place is not the bare page.
    expect(far?.equals(without ?? Buffer.alloc(0))).toBe(false);
  });

  test('what they name is not written over', async () => {
    const { drawings } = yard(`${brick}<use href="lib.svg#post"/>`);
    writeFileSync(join(drawings, 'lib.svg'), svg(brick));
    await expect(dress(drawings, ['#b5432e'], { to: 'lib.svg' })).rejects.toThrow(/lib\.svg/);
    expect(readFileSync(join(drawings, 'lib.svg'), 'utf8')).toBe(svg(brick));
  });
});

test('a slimmed drawing in another folder keeps links of what is no picture, or is not there', async () => {
  const { top, drawings } = yard(`<a href="plan.html">${roof('gone.png')}</a>${roof('wall.png')}`);
  const output = join(top, 'out', 'small.svg');
  const made = await slimDrawing(join(drawings, 'front.svg'), { output });
  expect(made.ok).toBe(true);
  const text = readFileSync(output, 'utf8');
  expect(text).toContain('href="../drawings/plan.html"');
  expect(linksIn(text)).toEqual(['../drawings/gone.png', '../drawings/wall.png']);
});

describe('a job', () => {
  let photos: Awaited<ReturnType<typeof drawPhotos>>;
  beforeAll(async () => {
    photos = await drawPhotos();
  });

  const text = `gaugerod: 1
scale: N-UK
dpi: 150
surfaces:
  red: { photo: red.png, course: uk-metric }
parts:
  front: { drawing: drawings/front.svg, paint: { "#b5432e": red } }
sheets:
  page: { parts: [front] }
`;

  const begin = (more = text, href = 'ridge.png'): ReturnType<typeof worksOf> => {
    const works = worksOf(photos, more);
    mkdirSync(join(works.folder, 'drawings'));
    writeFileSync(join(works.folder, 'drawings', 'front.svg'), svg(brick + roof(href)));
    writeFileSync(join(works.folder, 'drawings', 'ridge.png'), wall);
    return works;
  };

  test('makes anew what shows a linked picture that changed', async () => {
    const { folder, build } = begin();
    expect(statesOf(await build())).toEqual({ front: 'built', page: 'built' });
    const front = join(folder, 'out', 'front.svg');
    const [link = ''] = linksIn(readFileSync(front, 'utf8'));
    expect(resolve(dirname(front), link)).toBe(join(folder, 'drawings', 'ridge.png'));
    expect(statesOf(await build())).toEqual({ front: 'kept', page: 'kept' });
    writeFileSync(join(folder, 'drawings', 'ridge.png'), photos.pale);
    const again = await build();
    expect(again.steps.map(({ why }) => why)).toEqual([
      `${join('drawings', 'ridge.png')} changed`,
      'front changed',
    ]);
  });

  test('does not write over a linked picture', async () => {
    const over = text
      .replace('dpi:', 'output: drawings\ndpi:')
      .replace('front.svg,', 'front.svg, file: dressed.svg,')
      .replace('[front]', '[front], file: ridge.png');
    const { folder, build } = begin(over);
    await expect(build()).rejects.toThrow(/page would write over .*ridge\.png/);
    expect(readFileSync(join(folder, 'drawings', 'ridge.png'))).toEqual(wall);
  });
});

test('a sheet of a drawing whose picture lies elsewhere says what would do', async () => {
  const { top, drawings } = yard(brick + roof('wall.png'));
  await dress(drawings, ['#b5432e'], { to: '../out/front.svg' });
  await expect(
    sheetParts([join(top, 'out', 'front.svg')], { output: join(top, 'page.pdf') }),
  ).rejects.toMatchObject({
    message: expect.stringContaining('lies outside the folder of the drawing') as string,
    hint: expect.stringContaining('slim --embed --find') as string,
  });
  const whole = join(top, 'out', 'whole.svg');
  const slimmed = await slimDrawing(join(top, 'out', 'front.svg'), {
    output: whole,
    embed: true,
    find: drawings,
  });
  expect(slimmed.ok).toBe(true);
  const laid = await sheetParts([whole], { output: join(top, 'page.pdf') });
  expect(laid.ok).toBe(true);
});
