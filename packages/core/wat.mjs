// Makes code of what is written in the text form of WebAssembly, and puts it beside: `paint.wat` becomes `paint-code.ts`,
// in base64, so that threads and browsers have it without a file to fetch. It is committed; a test holds it to its text.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import openWabt from 'wabt';

const sources = fileURLToPath(new URL('src/', import.meta.url));
const { parseWat } = await openWabt();

for (const path of readdirSync(sources, { recursive: true })) {
  if (!path.endsWith('.wat')) continue;
  const name = basename(path, '.wat');
  const text = parseWat(path, readFileSync(sources + path, 'utf8'), { simd: true });
  const code = Buffer.from(text.toBinary({}).buffer).toString('base64');
  writeFileSync(
    `${sources}${path.slice(0, -'.wat'.length)}-code.ts`,
    `/** Made of \`${name}.wat\` by \`npm run kernels\`. */
export const ${name}Code =
  '${code}';
`,
  );
}
