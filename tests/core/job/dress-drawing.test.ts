import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, dressDrawing, TextureError } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { dress, dressFolder, paintOf, scale, svg, wall } from '../../support/dress-drawings.js';
import { picturesIn } from '../../support/slim-drawings.js';

const red = 'fill="#b5432e"';
const gable = `<path id="gable" class="brick" ${red} stroke="#000" d="M5 35V15L15 5 25 15V35Z"/>`;
const yard = `<g id="yard"><rect x="30" y="5" width="12" height="10" style="fill:#B5432E"/>
  <!-- a > b --><circle cx="50" cy="20" r="6" style='stroke:#000; fill : rgb(181,67,46);'/></g>`;
const used = `<defs><rect id="pier" width="6" height="9"/></defs><use xlink:href="#pier" x="30" y="28" ${red}/><use href='#pier' x="40" y="28" ${red}/>`;

// What is ours, taken out again by its marks alone, as the documentation names them.
function without(text: string): string {
  return text
    .replace(/<defs data-gaugerod="(pictures|copies)">.*?<\/defs>/gs, '')
    .replace(/<g data-gaugerod="dressing".*?<\/g>/gs, '')
    .replace(/ style="fill-opacity:0" data-gaugerod="clear"/g, '')
    .replace(/;fill-opacity:0(["']) data-gaugerod="clear-joined"/g, '$1')
    .replace(/fill-opacity:0(["']) data-gaugerod="clear-after"/g, '$1')
    .replace(/href=(["'])#gaugerod-copy-\d+\1 data-gaugerod-href="([^"]*)"/g, 'href=$1$2$1');
}

test('every byte that need not change stays', async () => {
  const text = `<?xml version="1.0"?>\r\n<!DOCTYPE svg>\r\n${svg(`${gable}\t${yard}\r\n${used}<text>  ü &amp; € </text>`)}`;
  const made = await dress(dressFolder(text), ['#b5432e']);
  expect(made.outlines).toHaveLength(5);
  expect(without(made.text)).toBe(text);
});

test('prefixes that hold on an outline alone do not leak beside it', async () => {
  const text = `<v:svg xmlns:v="http://www.w3.org/2000/svg" width="60mm" height="40mm"><v:g><v:path xmlns:xlink="http://www.w3.org/1999/xlink" ${red} d="M5 5h30v30z"/><s:rect xmlns:s="http://www.w3.org/2000/svg" id="r" width="9" height="9" ${red}/><circle xmlns="http://www.w3.org/2000/svg" r="9" ${red}/></v:g><v:use xmlns:k="http://www.w3.org/1999/xlink" k:href="#r" x="30"/></v:svg>`;
  const folder = dressFolder(text);
  const once = await dress(folder, ['#b5432e'], { to: 'once.svg' });
  expect(once.outlines).toHaveLength(4);
  expect(once.text).not.toMatch(/<(g|use|clipPath|defs|s:g)[ >]/);
  // Read again, which it would not be if a prefix stood for nothing.
  const again = await dress(folder, ['#b5432e'], { from: 'once.svg', to: 'again.svg' });
  expect(again.text).toBe(once.text);
});

test('a drawing in another encoding, with a mark, keeps both', async () => {
  const text = svg(gable);
  const folder = dressFolder(Buffer.from(`\ufeff${text}`, 'utf16le'));
  await dress(folder, ['#b5432e']);
  const back = readFileSync(join(folder, 'dressed.svg')).toString('utf16le');
  expect(without(back)).toBe(`\ufeff${text}`);
});

describe('what was dressed before is dressed anew', () => {
  test.each([
    ['outlines', gable + yard],
    ['what is used', gable + used],
  ])('%s', async (_, inner) => {
    const folder = dressFolder(svg(inner));
    const once = await dress(folder, ['#b5432e'], { to: 'once.svg' });
    const other = await dress(folder, ['.brick'], { to: 'other.svg', datum: { x: 3, y: 4 } });
    const again = await dress(folder, ['#b5432e'], { from: 'other.svg', to: 'again.svg' });
    expect(other.text).not.toBe(once.text);
    expect(again.text).toBe(once.text);
  });

  test('though another program wrote its styles in another order', async () => {
    const folder = dressFolder(svg(yard));
    const once = await dress(folder, ['#b5432e'], { to: 'once.svg' });
    const moved = once.text.replace('fill:#B5432E;fill-opacity:0', 'fill-opacity:0;fill:#B5432E');
    expect(moved).not.toBe(once.text);
    writeFileSync(join(folder, 'moved.svg'), moved);
    const again = await dress(folder, ['#b5432e'], { from: 'moved.svg', to: 'again.svg' });
    expect(again.text.match(/<g data-gaugerod/g)).toHaveLength(2);
    expect(again.text.match(/fill-opacity/g)).toHaveLength(2);
  });
});

test('a picture is stored once for all its outlines, and no larger than they need', async () => {
  const folder = dressFolder(svg(gable + yard + used));
  writeFileSync(join(folder, 'other.png'), wall);
  const made = await dress(folder, ['#b5432e', '#gable=other.png']);
  expect(picturesIn(made.text)).toHaveLength(2);
  expect(made.surfaces.map(({ outlines }) => outlines)).toEqual([4, 1]);
  // 20 x 30 mm at 600 dpi and half a millimetre all round are 496.1 x 732.3 dots.
  const [, one] = made.surfaces;
  expect(one?.picture.widthPx).toBeGreaterThanOrEqual(496);
  expect(one?.picture.widthPx).toBeLessThanOrEqual(500);
  expect(one?.picture.heightPx).toBeLessThanOrEqual(736);
});

test('pictures beside the drawing are linked by the way from it', async () => {
  const folder = dressFolder(svg(gable));
  const made = await dress(folder, ['#b5432e'], { link: join(folder, 'my pictures') });
  const [file = ''] = readdirSync(join(folder, 'my pictures'));
  expect(file).toMatch(/^dressed-[0-9a-f]{8}\.png$/);
  expect(made.text).toContain(`xlink:href="my%20pictures/${file}"`);
  expect(made.bytesAfter).toBeLessThan(2000);
});

test('a fraction of the dots, and the datum, are heeded', async () => {
  const folder = dressFolder(svg(gable));
  const at = { datum: { x: 2, y: 3 }, dpi: dpi(254), link: folder };
  const made = await dress(folder, ['#b5432e'], at);
  // A dot of 254 dpi is a tenth of a millimetre.
  const [, a = '', e = '', f = ''] =
    /<use transform="matrix\(([\d.]+) 0 0 [\d.]+ ([-\d.]+) ([-\d.]+)\)"/.exec(made.text) ?? [];
  expect(Number(a)).toBeCloseTo(0.1, 9);
  expect(Number(e) * 10).toBeCloseTo(Math.round(Number(e) * 10), 6);
  expect(Number(f) * 10).toBeCloseTo(Math.round(Number(f) * 10), 6);
});

test('a mask, a clip and half transparency of its own go with the picture', async () => {
  const inner = `<clipPath id="c"><rect width="20" height="20"/></clipPath><rect id="a" width="30" height="30" transform="translate(2 3)" ${red} opacity=".5" clip-path="url(#c)"/>`;
  const { text } = await dress(dressFolder(svg(inner)), ['#a']);
  expect(text).toContain('style="opacity:.5"');
  expect(text).toContain('<g transform="translate(2 3)" style="clip-path:url(#c)"><use ');
});

describe('what is used in several places', () => {
  test('is covered in a copy for each, and stays for who is not meant', async () => {
    const inner = `${used}<use xlink:href="#pier" x="50" y="28" fill="blue"/>`;
    const { text, outlines } = await dress(dressFolder(svg(inner)), ['#b5432e']);
    expect(outlines.map(({ id }) => id)).toEqual(['pier', 'pier']);
    expect(text.match(/<g id="gaugerod-copy-\d"/g)).toHaveLength(2);
    expect(text).toContain('<use xlink:href="#pier" x="50" y="28" fill="blue"/>');
    expect(text).toContain('<rect id="pier" width="6" height="9"/>');
  });

  test('and shows where it stands, is as it was for the others', async () => {
    const inner = `<g fill="#b5432e"><rect id="pier" width="6" height="9"/></g><use xlink:href="#pier" x="50" fill="blue"/>`;
    const { text } = await dress(dressFolder(svg(inner)), ['#b5432e']);
    const [, copy = ''] = /<use xlink:href="#(gaugerod-copy-\d)"/.exec(text) ?? [];
    expect(text).toContain(`<rect id="${copy}" width="6" height="9"/></defs>`);
  });

  test('that uses itself ends', async () => {
    const inner = `<g id="a"><use xlink:href="#a"/>${gable}<use xlink:href="#b"/></g><g id="b"><use xlink:href="#a"/></g>`;
    const { outlines } = await dress(dressFolder(svg(inner)), ['#gable']);
    expect(outlines.length).toBeGreaterThan(0);
  });
});

describe('refused in words that help', () => {
  const refused = async (inner: string, keys: string[], more?: string): Promise<string> => {
    const folder = dressFolder(svg(inner, more));
    const output = join(folder, 'dressed.svg');
    const path = join(folder, 'front.svg');
    const before = readdirSync(folder);
    const told = await dressDrawing(path, { output, paint: paintOf(folder, keys), scale }).then(
      (outcome) =>
        outcome.ok ? 'done' : `${outcome.code}: ${outcome.message} / ${outcome.hint ?? ''}`,
      (error: unknown) => {
        if (error instanceof TextureError)
          return `${error.code}: ${error.message} / ${error.hint ?? ''}`;
        throw error;
      },
    );
    expect(readdirSync(folder)).toEqual(before);
    return told.replaceAll(folder, '');
  };

  test.each([
    [
      'a colour that nothing has',
      ['#123456'],
      /^no-outline: nothing in .* is filled with #123456.* \/ there are the fill colours #b5432e; ids #gable; classes \.brick$/,
    ],
    ['an id that is not there', ['#tower'], /^no-outline: nothing in .* has the id tower/],
    ['a class that is not there', ['.slate'], /^no-outline: nothing in .* is of the class slate/],
    ['a photo that is not there', ['#gable=gone.png'], /^no-file: /],
    ['a photo that was never measured', ['#gable'], /^not-measured: /],
  ])('%s', async (_, keys, expected) => {
    expect(await refused(gable, keys)).toMatch(expected);
  });

  test('what cannot be covered', async () => {
    expect(await refused('<line id="a" x2="9"/>', ['#a'])).toMatch(/it has no area/);
    expect(await refused('<text id="a">a</text>', ['#a'])).toMatch(/it is text/);
    expect(await refused('<g id="a"/>', ['#a'])).toMatch(
      /nothing in .* that can be filled stands in #a/,
    );
    expect(await refused('<path id="a" d="M0 0h1e9v9z"/>', ['#a'])).toMatch(/over 10 m/);
  });

  test('a key that others leave nothing to', async () => {
    expect(await refused(gable, ['#gable', '#b5432e'])).toMatch(
      /^no-outline: all that #b5432e means .* by another key/,
    );
  });

  test('a key of two meanings', async () => {
    const inner = `${gable}<path id="b5432e" d="M0 0h9v9z"/>`;
    expect(await refused(inner, ['#b5432e'])).toMatch(
      /^ambiguous-key: .* both a fill colour and an id .* \/ write fill:#b5432e for the colour, id:b5432e for the id/,
    );
  });

  test('a drawing without a size on paper', async () => {
    expect(await refused(gable, ['#gable'], 'viewBox="0 0 60 40"')).toMatch(
      /^bad-drawing: .* states no size in mm.* \/ give its size on paper/,
    );
  });

  test('the drawing or a photo as the output', async () => {
    const folder = dressFolder(svg(gable));
    const path = join(folder, 'front.svg');
    const paint = paintOf(folder, ['#gable']);
    await expect(dressDrawing(path, { output: path, paint, scale })).rejects.toThrow(
      /never written over/,
    );
  });

  test('options that make no sense', async () => {
    const folder = dressFolder(svg(gable));
    const path = join(folder, 'front.svg');
    const output = join(folder, 'dressed.svg');
    const paint = paintOf(folder, ['#gable']);
    for (const wrong of [
      { paint: [] },
      { paint: [...paint, ...paint] },
      { paint, dpi: dpi(1) },
      { paint, datum: { x: NaN, y: 0 } },
      { paint, link: folder, embed: true },
    ]) {
      await expect(dressDrawing(path, { output, scale, ...wrong })).rejects.toThrow(RangeError);
    }
    expect(existsSync(output)).toBe(false);
  });
});

test('what is left is told: those named each, the others together', async () => {
  const inner = `${gable}<g ${red}><text>a</text><text>b</text><line x2="3"/></g><rect class="brick" width="0" height="3" ${red}/><rect width="4" height="3" ${red}/>`;
  const { codes } = await dress(dressFolder(svg(inner)), ['#b5432e', '.brick']);
  expect(codes.filter((code) => code === 'left-as-it-is')).toHaveLength(2);
});
