import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

// Makes an empty folder that is gone once the test is over.
export function tempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-test-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  return folder;
}
