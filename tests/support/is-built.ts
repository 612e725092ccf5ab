import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));

/**
 * Refuse to test what was built before its sources were changed: tests run what was built.
 */
export default function isBuilt(): void {
  for (const part of ['packages/core', 'packages/cli', 'fixtures']) {
    const built = timeOf(join(root, part, 'dist/.tsbuildinfo'));
    const sources = join(root, part, 'src');
    const changed = readdirSync(sources, { encoding: 'utf8', recursive: true }).find(
      (name) => name.endsWith('.ts') && timeOf(join(sources, name)) > built,
    );
    if (changed !== undefined) {
      throw new Error(`${part}/src/${changed} is newer than what was built of it: npm run build`);
    }
  }
}

function timeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}
