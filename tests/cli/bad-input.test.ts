import {
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { drawTexture, drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { plainBrick } from '../support/plain-brick.js';
import { pngFile } from '../support/picture-files.js';
import { type Run, runGaugerod, runHere } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

// The state of a folder, so that whatever changes in it is seen.
function look(folder: string): Record<string, string> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile());
  return Object.fromEntries(
    files.map(({ parentPath, name }) => {
      const path = join(parentPath, name);
      return [path.slice(folder.length), readFileSync(path).toString('base64')];
    }),
  );
}

// One error line, perhaps a hint, nothing left behind and nothing changed. In this process: one of
// its own for each would take minutes.
async function refused(words: readonly string[], folder: string): Promise<Run> {
  const before = look(folder);
  const inFolder = words.map((word) =>
    /\.[a-z]+\/?$|^front$/.test(word) && !word.startsWith('-') ? join(folder, word) : word,
  );
  const got = await runHere(inFolder);
  expect(got.stderr).toMatch(/^error: [^\n]+\n(hint: [^\n]+\n)?$/);
  expect(look(folder)).toEqual(before);
  return got;
}

const course = ['--course', 'uk-metric'];
const fillWith = (photo: string, output: string): string[] => [
  ...['fill', photo, ...course, '--scale', '1:148', '--size', '20x20mm', '--dpi', '150'],
  ...['-o', output],
];

const girder = ['--section', 'IPE 600', '--length', '2m', '--scale', '1:76.2'];

const { raster: drawn } = drawWall(plainBrick);
const wall = await encodePhoto(drawn, { format: 'png' });

describe('a photo that is none', () => {
  const files: Readonly<Record<string, (path: string) => void>> = {
    'empty.jpg': (path) => {
      writeFileSync(path, '');
    },
    'text.jpg': (path) => {
      writeFileSync(path, 'a wall, seen from the quay\n');
    },
    'cut.png': (path) => {
      writeFileSync(path, wall.subarray(0, wall.length / 2));
    },
    'bomb.png': (path) => {
      writeFileSync(path, pngFile({ width: 100_000, height: 100_000 }));
    },
    'photo.heic': (path) => {
      writeFileSync(path, Buffer.from('00000018667479706865696300000000686569636d696631', 'hex'));
    },
    'folder.jpg': (path) => {
      mkdirSync(path);
    },
    'missing.jpg': () => undefined,
  };

  test.each(Object.keys(files))('%s is refused by its name', async (name) => {
    const folder = tempFolder();
    files[name]?.(join(folder, name));
    writeFileSync(join(folder, 'front.png'), 'made before');
    for (const words of [
      ['measure', name, ...course],
      ['scale', name, ...course, '--scale', '1:148'],
      ['inspect', name],
      ['mend', name, '-o', 'front.png'],
      ['extend', name, '--times', '2x2', '-o', 'front.png'],
      fillWith(name, 'front.png'),
      ['relief', name, ...course, ...girder, '-o', 'front.png'],
    ]) {
      const { exit, stdout, stderr } = await refused(words, folder);
      expect([exit, stdout]).toEqual([1, '']);
      expect(stderr).toContain(name);
    }
  });
});

describe('a photo of an odd kind', () => {
  const kinds: Readonly<Record<string, (path: string) => Promise<unknown>>> = {
    // What it is its bytes say, not its name.
    'really-a-png.jpg': (path) => writeFile(path, wall),
    'cmyk.jpg': (path) => sharp(wall).toColourspace('cmyk').jpeg({ quality: 95 }).toFile(path),
    'sixteen.png': (path) => sharp(wall).toColourspace('rgb16').png().toFile(path),
    'palette.png': (path) => sharp(wall).png({ palette: true }).toFile(path),
    'two-frames.gif': async (path) =>
      sharp([wall, await sharp(wall).flip().toBuffer()], { join: { animated: true } })
        .gif()
        .toFile(path),
  };

  test.each(Object.keys(kinds))('%s is measured all the same', async (name) => {
    const folder = tempFolder();
    await kinds[name]?.(join(folder, name));
    const { exit, stdout } = runGaugerod(['measure', name, ...course, '--json'], folder);
    expect(exit).toBe(0);
    const { photo, mmPerPx, warnings } = JSON.parse(stdout) as {
      photo: object;
      mmPerPx: { y: number };
      warnings: { code: string }[];
    };
    expect(photo).toEqual({ path: name, width: 360, height: 260 });
    // 75 mm on 25 px.
    expect(Math.abs(mmPerPx.y / 3 - 1)).toBeLessThan(0.01);
    const codes = warnings.map(({ code }) => code);
    if (name === 'cmyk.jpg') expect(codes).toContain('approximate-colour');
    if (name === 'two-frames.gif') expect(codes).toContain('several-frames');
  });
});

describe('a surface file', () => {
  const changes: Readonly<Record<string, readonly [string | RegExp, string]>> = {
    'of another photo': [/[\da-f]{64}/, '0'.repeat(64)],
    'of a newer version': ['gaugerod.surface/1', 'gaugerod.surface/2'],
    'with a negative value': ['"mmPerPx": {\n    "x": ', '"mmPerPx": {\n    "x": -'],
    'without a value': ['"mmPerPx"', '"mmPerInch"'],
    'that is no JSON': ['{', '{,'],
  };

  test.each(Object.keys(changes))('%s is refused, never guessed around', async (name) => {
    const folder = tempFolder();
    writeFileSync(join(folder, 'wall.png'), wall);
    runGaugerod(['measure', 'wall.png', ...course, '--save'], folder);
    const path = join(folder, 'wall.surface.json');
    const [from, to] = changes[name] ?? ['', ''];
    const text = readFileSync(path, 'utf8');
    const changed = text.replace(from, to);
    expect(changed).not.toBe(text);
    writeFileSync(path, changed);
    const { exit, stderr } = await refused(
      ['fill', 'wall.png', '--scale', '1:148', '--size', '20x20mm', '-o', 'front.png'],
      folder,
    );
    expect(exit).toBe(1);
    expect(stderr).toContain('wall.surface.json');
    expect(stderr).toContain('hint: ');
    if (name === 'of a newer version') expect(stderr).toContain('version 2');
    if (name === 'of another photo')
      expect(stderr).toContain('hint: measure it again: gaugerod measure ');
  });
});

describe('an output', () => {
  // A name that no picture can have is the command's fault; a place that does not allow it is not.
  const misnamed = ['of a kind that is not written', 'without an extension'];
  const places: Readonly<Record<string, (folder: string) => string>> = {
    'that is the photo': () => 'wall.png',
    'that is a hard link to the photo': (folder) => {
      linkSync(join(folder, 'wall.png'), join(folder, 'link.png'));
      return 'link.png';
    },
    'that is a symbolic link to the photo': (folder) => {
      symlinkSync(join(folder, 'wall.png'), join(folder, 'link.png'));
      return 'link.png';
    },
    'in a folder that is not there': () => join('none', 'front.png'),
    'that is a folder': (folder) => {
      mkdirSync(join(folder, 'front.png'));
      return 'front.png';
    },
    'that is called like a folder': () => 'front.png/',
    'of a kind that is not written': () => 'front.xyz',
    'without an extension': () => 'front',
  };

  test.each(Object.keys(places))('%s is refused before the work', async (name) => {
    const folder = tempFolder();
    writeFileSync(join(folder, 'wall.png'), wall);
    const output = places[name]?.(folder) ?? '';
    for (const words of [
      fillWith('wall.png', output),
      ['mend', 'wall.png', '-o', output],
      ['inspect', 'wall.png', '--picture', output],
    ]) {
      const { exit, stderr } = await refused(words, folder);
      expect(exit).toBe(misnamed.includes(name) ? 2 : 1);
      expect(stderr).toContain(output);
    }
  });

  test('the photo is refused as its own output before it is even read', async () => {
    const folder = tempFolder();
    writeFileSync(join(folder, 'text.png'), 'no picture at all');
    const { stderr } = await refused(['mend', 'text.png', '-o', 'text.png'], folder);
    expect(stderr).toContain('never written over');
  });
});

test.each(['gravel', 'grass', 'stucco'] as const)(
  'a picture of %s has no courses, and is refused with what would work',
  async (texture) => {
    const folder = tempFolder();
    const { raster } = drawTexture({ texture, width: 400, height: 300, seed: 3 });
    writeFileSync(join(folder, 'ground.png'), await encodePhoto(raster, { format: 'png' }));
    const { exit, stderr } = await refused(fillWith('ground.png', 'front.png'), folder);
    expect(exit).toBe(1);
    expect(stderr).toMatch(
      /^error: .*ground\.png: no courses found .*\nhint: .*span.*, or say so where the courses stand upright \(--axis x\)\n$/,
    );
    const { stdout } = runGaugerod(['measure', 'ground.png', ...course, '--json'], folder);
    expect(JSON.parse(stdout)).toMatchObject({ error: { code: 'no-courses' } });
  },
);

test('a photo that was never measured is refused with what would work', async () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'wall.png'), wall);
  const { exit, stderr } = await refused(
    ['fill', 'wall.png', '--scale', '1:148', '--size', '20x20mm', '-o', 'front.png'],
    folder,
  );
  expect(exit).toBe(1);
  expect(stderr).toContain('--course');
});

test('sizes past any page are refused before a file is opened', async () => {
  const folder = tempFolder();
  for (const size of ['1000000000mmx1mm', '11x1m', '0x20mm', '1e9x1e9mm', '9.9x9.9m']) {
    const { exit, stderr } = await refused(
      ['fill', 'missing.jpg', ...course, '--scale', '1:148', '--size', size, '-o', 'front.png'],
      folder,
    );
    expect(exit).toBe(2);
    expect(stderr).toContain('--size');
  }
});

test('a point outside the photo is refused with the size of the photo', async () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'wall.png'), wall);
  const { exit, stderr } = await refused(
    ['measure', 'wall.png', '--span', '10,10 999,10', '--length', '1m'],
    folder,
  );
  expect(exit).toBe(1);
  expect(stderr).toContain('999,10');
  expect(stderr).toContain('360 x 260');
});

test('a file’s name cannot draw on the terminal or forge a line', async () => {
  const folder = tempFolder();
  const name = 'a\u001b[2J\nerror: b\u202egnp.png';
  const { stderr } = await refused(['inspect', name], folder);
  expect(stderr.replaceAll('\n', '')).not.toMatch(/[\u0000-\u001f\u202e]/);
});
