import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawStrip } from '@gaugerod/core';
import { drawPrinter, drawTansyWharf, encodePhoto, takePrint } from '@gaugerod/fixtures';
import ts from 'typescript';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { atHome } from './support/run-gaugerod.js';
import { tempFolder } from './support/temp-folder.js';

// Every `console` block runs in a fresh folder that holds two photos, a scan of a test strip, the drawing of the `svg` block,
// house.svg, the job of the `yaml` block, works.yaml, and the engine house, front.svg: lines after `$ ` are typed, the rest is what comes back, standard output first. Left out by rule: lines that begin `$ npm ci`,
// which a reader types in a fresh clone. Every `ts` block is checked and run; a `text` block right
// after it is what it prints. UPDATE_README=1 writes what really comes back: read it before committing.
const root = fileURLToPath(new URL('../', import.meta.url));
const main = join(root, 'packages/cli/dist/main.js');
const texts = new Map(
  ['README.md', 'packages/cli/README.md', 'packages/core/README.md'].map((path) => [
    path,
    readFileSync(join(root, path), 'utf8'),
  ]),
);

interface Block {
  readonly path: string;
  readonly kind: string;
  readonly text: string;
  readonly first: string;
}

const blocks: readonly Block[] = [...texts].flatMap(([path, page]) =>
  [...page.matchAll(/^```(\w+)\n([^]*?)^```$/gm)].map(([, kind = '', text = '']) => {
    return { path, kind, text, first: text.split('\n', 1)[0] ?? '' };
  }),
);
const sessions = blocks.filter(
  ({ kind, text }) => kind === 'console' && !text.startsWith('$ npm ci'),
);
const programs = blocks.filter(({ kind }) => kind === 'ts');

const updating = Boolean(process.env['UPDATE_README']);

// What comes back must be what the page says, unless the page is to be written anew.
function compare({ path, kind, text }: Block, got: string): void {
  if (!updating) expect(got).toBe(text);
  const page = texts.get(path) ?? '';
  texts.set(
    path,
    page.replace(`\`\`\`${kind}\n${text}`, () => `\`\`\`${kind}\n${got}`),
  );
}

const photos = [
  ['wall.jpg', 'yard-wall'],
  ['dye-store.jpg', 'dye-store'],
] as const;
const written = [
  ['svg', 'house.svg'],
  ['yaml', 'works.yaml'],
] as const;
let stage = '';

beforeAll(async () => {
  stage = mkdtempSync(join(tmpdir(), 'gaugerod-readme-'));
  copyFileSync(
    join(root, 'packages/core/docs/pictures/engine-house.svg'),
    join(stage, 'front.svg'),
  );
  const bin = join(stage, 'bin');
  mkdirSync(bin);
  const node = process.execPath;
  writeFileSync(join(bin, 'gaugerod'), `#!/bin/sh\nexec "${node}" "${main}" "$@"\n`, {
    mode: 0o755,
  });
  writeFileSync(join(bin, 'gaugerod.cmd'), `@"${node}" "${main}" %*\r\n`);
  for (const [file, name] of photos) {
    const scene = drawTansyWharf().find((one) => one.name === name);
    if (scene === undefined) throw new Error(`Tansy Wharf has lost its ${name}`);
    writeFileSync(join(stage, file), await encodePhoto(scene.draw().raster));
  }
  const scan = takePrint(drawStrip(), drawPrinter(1), { by: 'scanner', seed: 1, width: 1000 });
  writeFileSync(join(stage, 'scan.jpg'), await encodePhoto(scan));
  for (const [kind, name] of written) {
    for (const { text } of blocks.filter((block) => block.kind === kind)) {
      writeFileSync(join(stage, name), text);
    }
  }
});

afterAll(() => {
  rmSync(stage, { recursive: true, force: true });
  if (updating) for (const [path, page] of texts) writeFileSync(join(root, path), page);
});

function freshFolder(): string {
  const folder = tempFolder();
  for (const file of readdirSync(stage, { withFileTypes: true })) {
    if (file.isFile()) copyFileSync(join(stage, file.name), join(folder, file.name));
  }
  return folder;
}

function type(line: string, folder: string): string {
  const path = [join(stage, 'bin'), process.env['PATH']].join(delimiter);
  const { stdout, stderr } = spawnSync(line, {
    cwd: folder,
    shell: true,
    encoding: 'utf8',
    env: { ...process.env, ...atHome(folder), PATH: path },
  });
  return stdout + stderr;
}

test.each(sessions)('$path: $first', (session) => {
  const folder = freshFolder();
  const typed = session.text.split('\n').filter((line) => line.startsWith('$ '));
  compare(session, typed.map((line) => `${line}\n${type(line.slice(2), folder)}`).join(''));
});

test.each(programs)('$path: $first', (program) => {
  const folder = freshFolder();
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'), 'junction');
  const file = join(folder, 'program.mts');
  writeFileSync(file, program.text);
  const options: ts.CompilerOptions = {
    strict: true,
    noEmit: true,
    skipLibCheck: true,
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.NodeNext,
    types: ['node'],
    typeRoots: [join(root, 'node_modules/@types')],
  };
  const problems = ts.getPreEmitDiagnostics(ts.createProgram([file], options));
  expect(
    problems.map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n')),
  ).toEqual([]);
  const { outputText } = ts.transpileModule(program.text, {
    compilerOptions: options,
    fileName: file,
  });
  writeFileSync(join(folder, 'program.mjs'), outputText);
  const { stdout, stderr } = spawnSync(process.execPath, ['program.mjs'], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  const next = blocks[blocks.indexOf(program) + 1];
  if (next?.kind === 'text') compare(next, stdout);
});

test('the first paragraph states the job, and two commands follow before anything else', () => {
  const setup = blocks.slice(0, 2).map(({ text }) => text);
  expect(setup).toEqual(['$ npm ci && npm run demo\n', '$ npm ci && npm test\n']);
});

test('every file that is linked to is there, and no picture weighs more than 150 kB', () => {
  for (const [path, page] of texts) {
    const links = [...page.matchAll(/\]\(([^)#]+)\)/g)].map(([, link = '']) => link);
    for (const link of links.filter((found) => !found.includes('://'))) {
      const { size } = statSync(join(root, dirname(path), link));
      if (link.endsWith('.jpg')) expect(size).toBeLessThanOrEqual(150_000);
    }
  }
});
