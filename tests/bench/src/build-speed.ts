import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';

const bonds = ['english', 'flemish', 'stretcher', 'english-garden-wall-3', 'header'] as const;
const cli = fileURLToPath(new URL('../../../packages/cli/bin/gaugerod.js', import.meta.url));

/**
 * A building of 30 parts from 5 photographs of 12 megapixels: the first build (under 15 s is wanted on two
 * processors, in 600 MiB), a second one that has nothing to do (30 times faster), a report of it and the
 * same from what was kept (a second more, 8 MB), and one after a photo changed.
 */
export async function benchBuild(): Promise<void> {
  const folder = join(process.cwd(), 'out', 'bench', 'building');
  await drawPhotos(folder);
  writeFileSync(join(folder, 'works.yaml'), jobOf());
  rmSync(join(folder, 'out'), { recursive: true, force: true });
  build(folder, '--clean', '--json');
  const first = timed('first build', folder);
  const again = timed('nothing to do', folder);
  timed('a report of it', folder, '--report', 'record.html');
  timed('the report again', folder, '--report', 'record.html');
  const { size } = statSync(join(folder, 'record.html'));
  console.log(`the report takes ${(size / 1e6).toFixed(1)} MB`);
  const photo = join(folder, 'photo-1.jpg');
  const bytes = readFileSync(photo);
  // Other bytes of the same picture: a comment after the first marker.
  writeFileSync(
    photo,
    Buffer.concat([bytes.subarray(0, 2), Buffer.from('fffe00046162', 'hex'), bytes.subarray(2)]),
  );
  timed('one photo changed', folder);
  writeFileSync(photo, bytes);
  console.log(`a second build is ${(first / again).toFixed(0)} times faster`);
}

async function drawPhotos(folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  for (const [i, bond] of bonds.entries()) {
    const path = join(folder, `photo-${i + 1}.jpg`);
    if (existsSync(path)) continue;
    const wall = drawWall({
      bond,
      format: 'uk-metric',
      coursePx: 40 + 4 * i,
      width: 4020,
      height: 2990,
      seed: 3300 + i,
    });
    writeFileSync(path, await encodePhoto(wall.raster, { format: 'jpeg', quality: 90 }));
  }
}

function jobOf(): string {
  const surfaces = bonds.map(
    (_, i) => `  wall-${i + 1}: { photo: photo-${i + 1}.jpg, course: uk-metric }`,
  );
  const parts = Array.from({ length: 30 }, (_, i) => {
    const [wide, high] = [60 + 7 * (i % 6), 40 + 9 * (i % 5)];
    return `  part-${i + 1}: { surface: wall-${(i % 5) + 1}, size: ${wide}x${high}mm, datum: [${13 * i}, 0] }`;
  });
  const named = Array.from({ length: 30 }, (_, i) => `part-${i + 1}`).join(', ');
  return `gaugerod: 1\nscale: N-UK\nbleed: 2mm\nsurfaces:\n${surfaces.join('\n')}\nparts:\n${parts.join('\n')}\nsheets:\n  pages: { parts: [${named}] }\n`;
}

function build(folder: string, ...words: string[]): string {
  const run = spawnSync(
    '/usr/bin/time',
    ['-f', '%M', process.execPath, cli, 'build', 'works.yaml', ...words, '--no-config'],
    {
      cwd: folder,
      encoding: 'utf8',
    },
  );
  if (run.status !== 0)
    throw new Error(`the build ended with ${String(run.status)}: ${run.stderr}`);
  return run.stderr;
}

function timed(what: string, folder: string, ...words: readonly string[]): number {
  const start = performance.now();
  const said = build(folder, '--quiet', ...words);
  const ms = performance.now() - start;
  const peak = Number(said.trim().split('\n').at(-1)) / 1024;
  console.log(`${what.padEnd(20)} ${(ms / 1000).toFixed(2).padStart(7)} s, ${peak.toFixed(0)} MiB`);
  return ms;
}
