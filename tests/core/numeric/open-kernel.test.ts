import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import openWabt from 'wabt';

const sources = fileURLToPath(new URL('../../../packages/core/src', import.meta.url));
const texts = readdirSync(sources, { recursive: true, encoding: 'utf8' }).filter((path) =>
  path.endsWith('.wat'),
);

test.each(texts)('code is what its text says, else run npm run kernels: %s', async (path) => {
  const wabt = await openWabt();
  const text = wabt.parseWat(path, readFileSync(join(sources, path), 'utf8'), { simd: true });
  const code = Buffer.from(text.toBinary({}).buffer).toString('base64');
  const made = readFileSync(join(sources, path.replace(/[.]wat$/, '-code.ts')), 'utf8');
  expect(made).toContain(`'${code}'`);
});
