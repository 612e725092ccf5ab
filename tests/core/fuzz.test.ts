import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';

// Whatever readers put down lies in here.
const [folder, home] = [mkdtempSync(join(tmpdir(), 'gaugerod-test-')), process.cwd()];
for (const name of ['TMPDIR', 'TMP', 'TEMP']) process.env[name] = folder;
const { readers } = await import('../fuzz/src/readers/index.js');
const { caseOf, stockOf, tryCase } = await import('../fuzz/src/try-case.js');

afterAll(() => {
  process.chdir(home);
  rmSync(folder, { recursive: true, force: true });
});

// A few of the cases that `npm run fuzz` makes without end. What that finds is a test of its own beside what it
// found it in.
test.each(readers)('$name: what was changed is read, or refused in one line', async (reader) => {
  const stock = await stockOf(reader);
  const whole = reader.isSlow === true ? [] : stock.seeds;
  for (const seed of whole) await reader.read(Buffer.from(seed));
  for (let index = 0; index < reader.tried; index++) {
    const fault = await tryCase(reader, caseOf(stock, 1, index));
    expect(fault, `npm run fuzz -- --reader ${reader.name} --seed 1 --case ${index}`).toBeNull();
  }
});
