import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawTansyWharf, encodePhoto } from '@gaugerod/fixtures';
import ts from 'typescript';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { tempFolder } from './support/temp-folder.js';

// Every `console` block runs in a fresh folder that holds wall.jpg: lines after `$ ` are typed, the
// rest is what comes back, standard output first. Left out by rule: lines that begin `$ npm ci`,
// which a reader types in a fresh clone. Every `ts` block is checked and run; a `text` block right
// after it is what it prints. UPDATE_README=1 writes what really comes back: read it before committing.
const root = fileURLToPath(new URL('../', import.meta.url));
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const main = join(root, 'packages/cli/dist/main.js');

interface Block {
  readonly first: string;
  readonly kind: string;
  readonly text: string;
}

const blocks: readonly Block[] = [...readme.matchAll(/^```(\w+)\n([^]*?)^```$/gm)].map(
  ([, kind = '', text = '']) => ({ kind, text, first: text.split('\n', 1)[0] ?? '' }),
);
const sessions = blocks.filter(
  ({ kind, text }) => kind === 'console' && !text.startsWith('$ npm ci'),
);
const programs = blocks.filter(({ kind }) => kind === 'ts');

let stage = '';
let updated = readme;

beforeAll(async () => {
  stage = mkdtempSync(join(tmpdir(), 'gaugerod-readme-'));
  const bin = join(stage, 'bin');
  mkdirSync(bin);
  const node = process.execPath;
  writeFileSync(join(bin, 'gaugerod'), `#!/bin/sh\nexec "${node}" "${main}" "$@"\n`, {
    mode: 0o755,
  });
  writeFileSync(join(bin, 'gaugerod.cmd'), `@"${node}" "${main}" %*\r\n`);
  const scene = drawTansyWharf().find(({ name }) => name === 'yard-wall');
  if (scene === undefined) throw new Error('Tansy Wharf has lost its yard wall');
  writeFileSync(join(stage, 'wall.jpg'), await encodePhoto(scene.draw().raster));
});

afterAll(() => {
  rmSync(stage, { recursive: true, force: true });
  if (process.env['UPDATE_README']) writeFileSync(join(root, 'README.md'), updated);
});

function freshFolder(): string {
  const folder = tempFolder();
  copyFileSync(join(stage, 'wall.jpg'), join(folder, 'wall.jpg'));
  return folder;
}

function type(line: string, folder: string): string {
  const path = [join(stage, 'bin'), process.env['PATH']].join(delimiter);
  const { stdout, stderr } = spawnSync(line, {
    cwd: folder,
    shell: true,
    encoding: 'utf8',
    env: { ...process.env, PATH: path },
  });
  return stdout + stderr;
}

test.each(sessions)('$first', ({ text }) => {
  const folder = freshFolder();
  const typed = text.split('\n').filter((line) => line.startsWith('$ '));
  const session = typed.map((line) => `${line}\n${type(line.slice(2), folder)}`).join('');
  updated = updated.replace(text, () => session);
  if (!process.env['UPDATE_README']) expect(session).toBe(text);
});

test.each(programs)('the library: $first', (program) => {
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
  if (next?.kind !== 'text') return;
  updated = updated.replace(`\`\`\`text\n${next.text}`, () => `\`\`\`text\n${stdout}`);
  if (!process.env['UPDATE_README']) expect(stdout).toBe(next.text);
});

test('the first paragraph states the job, and two commands follow before anything else', () => {
  const setup = blocks.slice(0, 2).map(({ text }) => text);
  expect(setup).toEqual(['$ npm ci && npm run demo\n', '$ npm ci && npm test\n']);
});

test('every file that is linked to is there, and no picture weighs more than 150 kB', () => {
  const links = [...readme.matchAll(/\]\(([^)#]+)\)/g)].map(([, link = '']) => link);
  for (const link of links.filter((found) => !found.includes('://'))) {
    const { size } = statSync(join(root, link));
    if (link.endsWith('.jpg')) expect(size).toBeLessThanOrEqual(150_000);
  }
});
