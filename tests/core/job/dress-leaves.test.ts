import { existsSync, mkdirSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { dressDrawing, slimDrawing } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { dress, dressFolder, paintOf, scale, svg } from '../../support/dress-drawings.js';

const red = 'fill="#b5432e"';
const pane = `<rect id="pane" x="30" y="5" width="12" height="10" ${red}/>`;

describe('what cannot be read, or encloses nothing, is left to the byte and named', () => {
  // SVG 2, 9.5.4 and 10.6: errors in path data and in lists of points.
  const bad = [
    [`<path id="not-a-number" ${red} d="M5 5L NaN 20 30 30Z"/>`, 'path data'],
    [`<path id="past-all-numbers" ${red} d="M5 5L1e999 20 30 30Z"/>`, 'path data'],
    [`<path id="breaks-off" ${red} d="M5 5H30V30Q3"/>`, 'path data'],
    [`<polygon id="a-word" ${red} points="5,5 a 20,9"/>`, 'points'],
    [`<polygon id="odd" ${red} points="5,5 20,20 3,8 9"/>`, 'points'],
    [`<rect id="no-size" ${red} width="foo" height="9"/>`, 'sizes'],
    [`<rect id="endless" ${red} width="1e999" height="9"/>`, 'sizes'],
    [`<path id="moves" ${red} d="M5 5Z"/>`, 'no area'],
    [`<path id="slants" ${red} d="M5 5L20 20Z"/>`, 'no area'],
    [`<polygon id="and-back" ${red} points="5,5 20,20 9,9"/>`, 'no area'],
    [
      `<path id="cancels" ${red} fill-rule="evenodd" d="M5 5h9v9h-9zM5 5h9v9h-9z"/>`,
      'cancel one another',
    ],
  ] as const;

  test('all of them beside one that is sound', async () => {
    const inner = bad.map(([shape]) => shape).join('\n');
    const made = await dress(dressFolder(svg(inner + pane)), ['#b5432e']);
    expect(made.outlines.map(({ id }) => id)).toEqual(['pane']);
    for (const [shape, why] of bad) {
      expect(made.text).toContain(shape);
      const name = /id="([^"]*)"/.exec(shape)?.[1] ?? shape;
      expect(made.messages.filter((message) => message.includes(why)).join()).toContain(name);
    }
  });

  test('and is found by what is around it, or by its line', async () => {
    const bad = `<path ${red} d="M5 5L NaN 20"/>`;
    const inner = `${pane}<g id="gable">${bad}</g>\n${bad}`;
    const { messages } = await dress(dressFolder(svg(inner)), ['#b5432e']);
    expect(messages).toContain(
      'path in gable, path on line 3 are left as they are: each cannot be read: its path data makes no sense',
    );
  });

  test('a figure of eight has an area, though its halves run opposite ways', async () => {
    const eight = `<path id="x" ${red} d="M5 5L20 20V5L5 20Z"/>`;
    const { outlines } = await dress(dressFolder(svg(eight)), ['#b5432e']);
    expect(outlines).toHaveLength(1);
  });
});

describe('refused before the long work', () => {
  // The photo is missing, which is told once it is read.
  const early = async (more: {
    link?: string;
    output?: string;
    keys?: string[];
  }): Promise<string> => {
    const folder = dressFolder(svg(pane));
    rmSync(join(folder, 'wall.png'));
    symlinkSync(join(folder, 'gone'), join(folder, 'astray'));
    const { link, output = 'dressed.svg', keys = ['#pane'] } = more;
    const done = dressDrawing(join(folder, 'front.svg'), {
      output: join(folder, output),
      paint: paintOf(folder, keys),
      scale,
      ...(link !== undefined && { link: join(folder, link) }),
    });
    return done.then(
      () => 'done',
      (error: unknown) => String(error).replaceAll(`${folder}/`, ''),
    );
  };

  test.each([
    ['a folder in no folder', { link: 'no/pictures' }, 'the folder of no/pictures does not exist'],
    ['a file for a folder', { link: 'front.svg' }, 'front.svg is a file, not a folder'],
    [
      'a folder in a file',
      { link: 'front.svg/a' },
      'the folder of front.svg/a is a file, not a folder',
    ],
    [
      'a link that leads nowhere',
      { link: 'astray' },
      'astray is a symbolic link that leads nowhere',
    ],
    [
      'one name for drawing and folder',
      { link: 'dressed.svg' },
      'expected a folder beside the drawing, not the drawing itself, for link, got "dressed.svg"',
    ],
    ['no name at all', { output: '.svg' }, '.svg is an extension without a name'],
    ['one colour in two spellings', { keys: ['#f00', '#ff0000'] }, 'which are one colour'],
    ['one colour by its name', { keys: ['fill:red', '#f00'] }, 'which are one colour'],
    ['one class in two spellings', { keys: ['.a', 'class:a'] }, 'which are one class'],
    ['one id in two spellings', { keys: ['#pane', 'id:pane'] }, 'which are one id'],
  ])('%s', async (_, more, words) => {
    expect(await early(more)).toContain(words);
  });

  test('as it is where a drawing is slimmed', async () => {
    const folder = dressFolder(svg(pane));
    const path = join(folder, 'front.svg');
    const output = join(folder, 'small.svg');
    const link = join(folder, 'no', 'pictures');
    await expect(slimDrawing(path, { output, link })).rejects.toThrow(/does not exist/);
    await expect(slimDrawing(path, { output, link: output })).rejects.toThrow(/not the drawing/);
    expect(existsSync(output)).toBe(false);
  });
});

test('a drawing that shows nothing says what would work', async () => {
  const folder = dressFolder(svg(''));
  const output = join(folder, 'dressed.svg');
  const paint = paintOf(folder, ['#pane']);
  const outcome = await dressDrawing(join(folder, 'front.svg'), { output, paint, scale });
  expect(outcome).toMatchObject({
    ok: false,
    hint: expect.stringContaining('draw closed paths') as string,
  });
});

test('a folder or a link of a name that a picture would have is not written over', async () => {
  const folder = dressFolder(svg(pane));
  const link = join(folder, 'pictures');
  await dress(folder, ['#pane'], { link });
  const [name = ''] = readdirSync(link);
  rmSync(join(link, name));
  mkdirSync(join(link, name));
  const beside = await dress(folder, ['#pane'], { link });
  expect(beside.text).not.toContain(`/${name}"`);
  rmSync(join(link, name), { recursive: true });
  symlinkSync('nowhere', join(link, name));
  const again = await dress(folder, ['#pane'], { link });
  expect(again.text).toBe(beside.text);
  expect(readdirSync(link)).toHaveLength(2);
});

test('more outlines than memory is good for are refused before the photo is read', async () => {
  const folder = dressFolder(svg(`<rect width="1" height="1" ${red}/>`.repeat(50_001)));
  rmSync(join(folder, 'wall.png'));
  const output = join(folder, 'dressed.svg');
  const paint = paintOf(folder, ['#b5432e']);
  const outcome = await dressDrawing(join(folder, 'front.svg'), { output, paint, scale });
  expect(outcome).toMatchObject({
    ok: false,
    code: 'too-many-outlines',
    message: expect.stringContaining('50000 is the most') as string,
  });
});
