// Runs tests and tells what they cover of what was built, in whichever process or thread it ran: the command is
// tested in processes of its own. Takes what vitest takes.
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { mergeScriptCovs } from '@bcoe/v8-coverage';
import { convert } from 'ast-v8-to-istanbul';
import libCoverage from 'istanbul-lib-coverage';
import { parseAst } from 'rolldown/parseAst';

const root = fileURLToPath(new URL('../../', import.meta.url));
const counted = join(root, 'out/coverage/counted');
const parts = ['packages/core', 'packages/cli'];

rmSync(counted, { recursive: true, force: true });
mkdirSync(counted, { recursive: true });
// The command takes a bundle older than the modules for stale, and runs these: what is counted are modules.
const built = join(root, 'packages/cli/dist/.tsbuildinfo');
const { atime, mtime } = statSync(built);
utimesSync(built, new Date(), new Date());
const vitest = join(root, 'node_modules/vitest/vitest.mjs');
const { status } = spawnSync(process.execPath, [vitest, 'run', ...process.argv.slice(2)], {
  cwd: root,
  env: { ...process.env, NODE_V8_COVERAGE: counted },
  stdio: 'inherit',
});
utimesSync(built, atime, mtime);

const counts = readCounts();
const missed = [];
for (const part of parts) {
  const map = libCoverage.createCoverageMap();
  for (const { path, source } of builtOf(part)) {
    const covered = await coverageOf(path);
    map.addFileCoverage(covered);
    missed.push(...tellMissed(source, covered));
  }
  const { lines, branches } = map.getCoverageSummary().data;
  console.log(`${part}: lines ${lines.pct} %, branches ${branches.pct} %`);
}
writeFileSync(join(root, 'out/coverage/missed.txt'), `${missed.join('\n')}\n`);
console.log('what is not covered, by lines of dist: out/coverage/missed.txt');
process.exitCode = status ?? 1;

// By module; each process wrote one file or several, of a megabyte or more.
function readCounts() {
  const wanted = parts.map((part) => pathToFileURL(join(root, part, 'dist/')).href);
  const found = new Map();
  for (const name of readdirSync(counted)) {
    const { result } = JSON.parse(readFileSync(join(counted, name), 'utf8'));
    for (const script of result) {
      if (!wanted.some((folder) => script.url.startsWith(folder))) continue;
      const list = found.get(script.url) ?? [];
      list.push(script);
      found.set(script.url, list.length < 50 ? list : [mergeScriptCovs(list)]);
    }
  }
  return found;
}

function builtOf(part) {
  return readdirSync(join(root, part, 'src'), { encoding: 'utf8', recursive: true })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => ({
      source: join(part, 'src', name),
      path: join(root, part, 'dist', name.replace(/ts$/, 'js')),
    }))
    .filter(({ path }) => existsSync(path));
}

async function coverageOf(path) {
  const code = readFileSync(path, 'utf8');
  const { href: url } = pathToFileURL(path);
  const whole = { startOffset: 0, endOffset: code.length, count: 0 };
  const never = { functionName: '', isBlockCoverage: true, ranges: [whole] };
  const coverage = mergeScriptCovs(counts.get(url) ?? [{ scriptId: '0', url, functions: [never] }]);
  const data = await convert({ ast: parseAst(code), code, wrapperLength: 0, coverage });
  return libCoverage.createFileCoverage(Object.values(data)[0] ?? path);
}

function tellMissed(source, covered) {
  const { b, branchMap } = covered.data;
  const branches = Object.entries(b).flatMap(([id, taken]) =>
    taken.flatMap((count, i) => {
      const { locations, loc, type } = branchMap[id];
      return count > 0 ? [] : [`${locations[i]?.start?.line ?? loc.start.line} ${type}`];
    }),
  );
  const lines = covered.getUncoveredLines().map(String);
  if (lines.length + branches.length === 0) return [];
  return [`${source}: lines ${lines.join(', ')}; branches ${branches.join(', ')}`];
}
