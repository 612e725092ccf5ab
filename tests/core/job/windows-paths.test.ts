import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';

const inScript = (text: string): string => `data:text/javascript,${encodeURIComponent(text)}`;
const names =
  'basename, dirname, extname, isAbsolute, join, normalize, posix, relative, resolve, sep';
const windows = inScript(
  `import path from 'node:path'; export const { ${names} } = path.win32; export default path.win32;`,
);
// Whoever asks for `node:path` is given what that is on Windows, but for this module itself.
const hooks = inScript(`export async function resolve(asked, context, next) {
  const isOurs = asked === 'node:path' && context.parentURL?.startsWith('file:');
  return isOurs ? { url: ${JSON.stringify(windows)}, shortCircuit: true } : next(asked, context);
}`);
const register = inScript(
  `import { register } from 'node:module'; register(${JSON.stringify(hooks)});`,
);

// What the built library's own functions make of paths where `node:path` is that of Windows.
function onWindows(module: string, calls: string): unknown {
  const url = new URL(`../../../packages/core/dist/${module}`, import.meta.url).href;
  const script = `import * as it from ${JSON.stringify(url)}; console.log(JSON.stringify(${calls}));`;
  const words = ['--import', register, '--input-type=module', '--eval', script];
  const { stdout, status } = spawnSync(process.execPath, words, { encoding: 'utf8' });
  expect(status).toBe(0);
  return JSON.parse(stdout);
}

// RFC 3986: an address has / between its names, and a blank in none of them.
test('a link to a picture on Windows is an address, with / and without blanks', () => {
  const calls = String.raw`[
    it.toHref('C:\\works', 'C:\\works\\my pictures\\wall 1.png'),
    it.toHref('C:\\works\\out', 'C:\\works\\wall.png'),
    it.toHref('c:\\Works', 'C:\\works\\caf\u00e9.png'),
    it.stemOf('C:\\works\\front.final.svg'),
  ]`;
  expect(onWindows('job/slim/slim-links.js', calls)).toEqual([
    'my%20pictures/wall%201.png',
    '../wall.png',
    'caf%C3%A9.png',
    'front.final',
  ]);
});

test('a path of a job is taken from its folder, whichever way its slashes lean, and one with a drive as it is', () => {
  const calls = String.raw`[
    it.inFolder('C:\\works', 'photos/wall.png'),
    it.inFolder('C:\\works', 'photos\\wall.png'),
    it.inFolder('C:\\works', 'D:\\wall.png'),
    it.inFolder('\\\\quay\\share', 'wall.png'),
  ]`;
  expect(onWindows('job/build/in-folder.js', calls)).toEqual([
    String.raw`C:\works\photos\wall.png`,
    String.raw`C:\works\photos\wall.png`,
    String.raw`D:\wall.png`,
    String.raw`\\quay\share\wall.png`,
  ]);
});

// There a drive is not inside another, and letters of another case are the same folder.
test('what lies in a folder on Windows is told by its drive and its names, of any case', () => {
  const calls = String.raw`[
    ['C:\\works', 'C:\\works\\out\\front.png'],
    ['C:\\works', 'c:\\WORKS\\front.png'],
    ['C:\\works', 'C:\\works'],
    ['C:\\works', 'C:\\works\\..hidden\\front.png'],
    ['C:\\works', 'C:\\works and more\\front.png'],
    ['C:\\works', 'C:\\front.png'],
    ['C:\\works', 'D:\\works\\front.png'],
    ['C:\\works', '\\\\quay\\works\\front.png'],
  ].map(([folder, path]) => it.isInside(folder, path))`;
  const inside = [true, true, true, true, false, false, false, false];
  expect(onWindows('job/build/check-folders.js', calls)).toEqual(inside);
});
