import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, slimDrawing } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import {
  drawingFolder,
  jpeg,
  picturesIn,
  png,
  slim,
  small,
  svg,
  uri,
} from '../../support/slim-drawings.js';
import { tempFolder } from '../../support/temp-folder.js';

describe('links', () => {
  const linked = (href: string): string =>
    svg(`<image id="w" width="12" height="9" xlink:href="${href}"/>`);

  test('to what lies beside the drawing stay, and follow it elsewhere', async () => {
    const folder = drawingFolder(linked('pictures/wall%201.png'));
    mkdirSync(join(folder, 'pictures'));
    mkdirSync(join(folder, 'out'));
    writeFileSync(join(folder, 'pictures', 'wall 1.png'), png);
    expect((await slim(folder)).text).toBe(linked('pictures/wall%201.png'));
    const moved = await slim(folder, { output: join(folder, 'out', 'small.svg') });
    expect(moved.text).toBe(linked('../pictures/wall%201.png'));
  });

  test.each([
    '/gone/away/wall.png',
    'C:\\Users\\me\\wall.png',
    'file:///gone/wall.png',
    'gone/wall.png',
  ])('%s is mended where a file of that name lies beside the drawing', async (href) => {
    const folder = drawingFolder(linked(href));
    writeFileSync(join(folder, 'wall.png'), png);
    const made = await slim(folder);
    expect(made.text).toBe(linked('wall.png'));
    expect(made.codes).toContain('relinked');
  });

  test('a missing picture is looked for where it was said, by name and then without extension', async () => {
    const folder = drawingFolder(linked('gone/wall.png'));
    const found = tempFolder();
    mkdirSync(join(found, 'a'));
    const missing = await slim(folder, { find: found });
    expect(missing.missing).toEqual([
      { id: 'w', href: 'gone/wall.png', why: 'does not exist', likely: [] },
    ]);
    writeFileSync(join(found, 'a', 'Wall.jpg'), jpeg);
    expect((await slim(folder, { find: found })).text).toMatch(/href="[^"]*a\/Wall\.jpg"/);
    writeFileSync(join(found, 'wall.webp'), png);
    const two = await slim(folder, { find: found });
    expect(two.missing[0]?.likely.map((path) => path.slice(-8))).toEqual(['Wall.jpg', 'all.webp']);
  });

  test.each([
    ['http://127.0.0.1:9/wall.png', 'nothing is fetched'],
    ['//127.0.0.1:9/wall.png', 'nothing is fetched'],
    ['javascript:alert(1)', 'nothing is fetched'],
    ['../secret.png', 'outside'],
    ['%2e%2e/secret.png', 'outside'],
    ['link.png', 'outside'],
    ['file://somehost/wall.png', 'another machine'],
    ['wall%00.png', 'NUL'],
    ['', 'names nothing'],
    ['#w', 'the drawing itself'],
  ])('%j is not read', async (href, why) => {
    const around = tempFolder();
    const folder = join(around, 'drawing');
    mkdirSync(folder);
    writeFileSync(join(around, 'secret.png'), png);
    symlinkSync(join(around, 'secret.png'), join(folder, 'link.png'));
    writeFileSync(join(folder, 'front.svg'), linked(href));
    const made = await slim(folder, { embed: true });
    expect(made.text).toBe(linked(href));
    expect(made.missing[0]?.why).toContain(why);
  });

  test('--embed puts linked pictures into the drawing, --link all of them beside it', async () => {
    const folder = drawingFolder(linked('wall.png'));
    writeFileSync(join(folder, 'wall.png'), png);
    const embedded = await slim(folder, { embed: true, dpi: dpi(2400) });
    expect(picturesIn(embedded.text)[0]?.equals(png)).toBe(true);
    const beside = join(folder, 'beside');
    const output = join(folder, 'linked.svg');
    const made = await slim(folder, { output, link: beside, dpi: dpi(2400) }, 'small.svg');
    const [name = ''] = readdirSync(beside);
    expect(made.text).toBe(linked(`beside/${name}`));
    expect(readFileSync(join(beside, name)).equals(png)).toBe(true);
    // Again: the same file serves.
    await slim(folder, { output, link: beside, dpi: dpi(2400) }, 'small.svg');
    expect(readdirSync(beside)).toEqual([name]);
  });

  test('a drawing without pictures leaves no folder for them', async () => {
    const folder = drawingFolder(svg('<rect width="9" height="9"/>'));
    const output = join(folder, 'small.svg');
    await slim(folder, { output, link: join(folder, 'beside') });
    expect(readdirSync(folder).sort()).toEqual(['front.svg', 'small.svg']);
  });

  test('where the drawing cannot be written no picture is left beside it', async () => {
    const folder = drawingFolder(svg(small(uri(png))));
    const output = join(folder, 'small.svg');
    const controller = new AbortController();
    const run = slimDrawing(join(folder, 'front.svg'), {
      output,
      link: join(folder, 'beside'),
      signal: controller.signal,
      onProgress: (step) => {
        // Whatever stands there once the pictures are made: a folder is no file.
        if (step === 'writing') mkdirSync(output);
      },
    });
    await expect(run).rejects.toThrow('is a folder');
    expect(readdirSync(folder).sort()).toEqual(['front.svg', 'small.svg']);
  });
});
