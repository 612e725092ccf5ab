import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { sheetParts } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { dress, dressFolder } from '../../support/dress-drawings.js';
import { drawingFolder, image, png, slim, svg } from '../../support/slim-drawings.js';
import { tempFolder } from '../../support/temp-folder.js';

// A drawing in a folder of its own, with a picture inside that and one beside it.
function yard(inner: string): { readonly folder: string; readonly found: string } {
  const folder = drawingFolder(svg(inner));
  const found = tempFolder();
  mkdirSync(join(folder, 'out'));
  mkdirSync(join(folder, 'pictures'));
  writeFileSync(join(folder, 'pictures', 'wall 1.png'), png);
  writeFileSync(join(found, 'slate.png'), png);
  return { folder, found };
}

const away = (folder: string): { readonly output: string } => ({
  output: join(folder, 'out', 'small.svg'),
});

// In every form that CSS Syntax Level 3, 4.3.6 and 4.3.4, has for them, and XML around it.
describe.each([
  ['a style sheet', (url: string) => `<style>rect { fill: url(${url}) }</style>`, ''],
  ['one in quotes', (url: string) => `<style>rect { fill: URL( "${url}" ) }</style>`, ''],
  ['CDATA', (url: string) => `<style><![CDATA[a>b { fill: url('${url}') }]]></style>`, ''],
  ['an import', (url: string) => `<style>@import "${url}";</style>`, ''],
  ['a style', (url: string) => `<rect id="r" style="fill:url(&quot;${url}&quot;)"/>`, 'r'],
  ['an attribute', (url: string) => `<rect fill="url(${url})"/>`, 'rect 1'],
])('a link in %s', (_, form, id) => {
  test('stays where it holds, and follows the drawing elsewhere', async () => {
    const { folder } = yard(form('pictures/wall%201.png#a'));
    expect((await slim(folder)).text).toBe(svg(form('pictures/wall%201.png#a')));
    const moved = await slim(folder, away(folder));
    expect(moved.text).toBe(svg(form('../pictures/wall%201.png#a')));
    expect(moved.missing).toEqual([]);
  });

  test('to nothing is listed, and mended where it is found', async () => {
    const { folder, found } = yard(form('/gone/slate.png'));
    const lost = await slim(folder);
    expect(lost.missing).toEqual([
      { id: id || 'style 1', href: '/gone/slate.png', why: 'does not exist', likely: [] },
    ]);
    expect(lost.codes).toContain('missing-picture');
    expect(lost.text).toBe(svg(form('/gone/slate.png')));
    const made = await slim(folder, { find: found });
    expect(made.text).toMatch(/\.\.\/[^"')]*\/slate\.png/);
    expect(made.missing).toEqual([]);
    expect(made.codes).toContain('relinked');
  });

  test('by a path from the root is made relative', async () => {
    const { folder } = yard('');
    const fixed = pathToFileURL(join(folder, 'pictures', 'wall 1.png')).href;
    writeFileSync(join(folder, 'front.svg'), svg(form(fixed)));
    expect((await slim(folder)).text).toBe(svg(form('pictures/wall%201.png')));
  });

  test('to the network is told of, and stays', async () => {
    const { folder } = yard(form('http://127.0.0.1:9/wall.png'));
    const made = await slim(folder, away(folder));
    expect(made.missing[0]?.why).toBe('is an address, and nothing is fetched');
    expect(made.text).toBe(svg(form('http://127.0.0.1:9/wall.png')));
  });

  test('follows a drawing that is dressed elsewhere', async () => {
    const brick = '<path fill="#b5432e" d="M5 5h20v15h-20z"/>';
    const folder = dressFolder(svg(brick + form('gone/wall.png')));
    mkdirSync(join(folder, 'out'));
    const { text } = await dress(folder, ['#b5432e'], { to: 'out/front.svg' });
    expect(text).toContain(form('../gone/wall.png'));
  });
});

// A font and a style sheet are found as pictures are: by the name, or told of where it may be one of several, or of
// another format.
describe.each([
  ['a font', '@font-face { src: url(#) }', 'yard.woff2', ['yard.ttf']],
  ['a style sheet', '@import "#";', 'yard.css', []],
])('%s that a style links to', (_, rule, name, others) => {
  const styled = (href: string): string => `<style>${rule.replace('#', href)}</style>`;

  test('is found in the folder of the drawing', async () => {
    const { folder, found } = yard(styled(`gone/${name}`));
    writeFileSync(join(folder, name), '');
    const made = await slim(folder);
    expect(made.text).toBe(svg(styled(name)));
    expect(made.codes).toContain('relinked');
    writeFileSync(join(found, name), '');
    const { missing } = await slim(folder, { find: found });
    expect(missing).toMatchObject([{ likely: [name, join(found, name)] }]);
  });

  test('is never likely to be a picture', async () => {
    const { folder } = yard(styled(`gone/${name}`));
    for (const other of ['yard.png', ...others]) writeFileSync(join(folder, other), png);
    expect((await slim(folder)).missing).toMatchObject([{ likely: others }]);
  });
});

test('what only looks like a link in CSS is none', async () => {
  const inner = `<style>/* url(gone.png) */ <!-- url(gone.png) --> rect { fill: url(#p); content: "url(gone.png)" }</style>
<rect style="fill:url(data:image/png;base64,AAAA)" clip-path="url(#c)"/><desc>href url(gone.png)</desc>`;
  const { folder } = yard(inner);
  const made = await slim(folder, away(folder));
  expect(made.text).toBe(svg(inner));
  expect(made.missing).toEqual([]);
});

test('what means something to CSS stays part of the name', async () => {
  const inner = `<style>rect { fill: url("it's (a) &lt;&amp; b.png") }</style>`;
  const { folder } = yard(inner);
  const { text } = await slim(folder, away(folder));
  // The URL Standard: a path in hundreds is the same path.
  const [, link = ''] = /url\("([^"]*)"\)/.exec(text) ?? [];
  expect(decodeURIComponent(link)).toBe("../it's (a) <& b.png");
  expect(link).not.toMatch(/['()<& ]/);
});

// XML Base, second edition, 4; the ways to resolve are those of RFC 3986, 5.4.
describe('xml:base', () => {
  const under = (base: string, href: string): string => `<g xml:base="${base}">${image(href)}</g>`;

  test.each([
    ['pictures/', 'wall%201.png'],
    ['pictures/other.svg', './wall%201.png'],
    ['gone/', '../pictures/wall%201.png'],
  ])('%s is heeded, and goes: few programs do', async (base, href) => {
    const { folder } = yard(under(base, href));
    const made = await slim(folder);
    expect(made.missing).toEqual([]);
    expect(made.text).toBe(svg(`<g>${image('pictures/wall%201.png')}</g>`));
    const moved = await slim(folder, away(folder));
    expect(moved.text).toBe(svg(`<g>${image('../pictures/wall%201.png')}</g>`));
  });

  test('counts for both links of an image that has two', async () => {
    const two = (one: string, other: string): string =>
      `<image width="4" height="4" href="${one}" xlink:href="${other}"/>`;
    const { folder } = yard(`<g xml:base="pictures/">${two('wall%201.png', 'old.png')}</g>`);
    const both = (way: string): string =>
      svg(`<g>${two(`${way}pictures/wall%201.png`, `${way}pictures/old.png`)}</g>`);
    expect((await slim(folder)).text).toBe(both(''));
    expect((await slim(folder, away(folder))).text).toBe(both('../'));
  });

  test('counts from the one around it, and holds in CSS', async () => {
    const rect = (base: string, url: string): string => `<rect${base} fill="url(${url})"/>`;
    const { folder } = yard(
      `<g xml:base="pictures/">${rect(' xml:base="old/"', '../wall%201.png#p')}</g>`,
    );
    const { text } = await slim(folder);
    expect(text).toBe(svg(`<g>${rect('', 'pictures/wall%201.png#p')}</g>`));
  });

  test.each([
    ['http://127.0.0.1:9/a/', 'b.png', 'http://127.0.0.1:9/a/b.png'],
    ['http://127.0.0.1:9', 'b.png', 'http://127.0.0.1:9/b.png'],
    ['//127.0.0.1:9/a/c', 'b.png', '//127.0.0.1:9/a/b.png'],
    ['http://127.0.0.1:9/a/', '/b.png', 'http://127.0.0.1:9/b.png'],
  ])('%s is told of, and nothing is fetched', async (base, href, address) => {
    const { folder } = yard(under(base, href));
    writeFileSync(join(folder, 'b.png'), png);
    const made = await slim(folder, { embed: true });
    const why = 'is an address, and nothing is fetched';
    expect(made.missing).toEqual([{ id: 'image 1', href: address, why, likely: [] }]);
    expect(made.text).toBe(svg(`<g>${image(address)}</g>`));
  });

  test('over what links to nothing outside stays', async () => {
    const inner = under('http://127.0.0.1:9/', '#p');
    const { folder } = yard(inner);
    expect((await slim(folder, away(folder))).text).toBe(svg(inner));
  });

  test('is heeded on a sheet', async () => {
    const { folder } = yard(under('pictures/', 'wall%201.png'));
    const path = join(folder, 'front.svg');
    const laid = await sheetParts([path], { output: join(folder, 'page.pdf') });
    expect(laid.ok).toBe(true);
    writeFileSync(path, svg(under('http://127.0.0.1:9/', 'wall.png')));
    await expect(sheetParts([path], { output: join(folder, 'b.pdf') })).rejects.toThrow(
      'http://127.0.0.1:9/wall.png, which is an address, and nothing is fetched',
    );
  });
});
