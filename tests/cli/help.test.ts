import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { describe, expect, test } from 'vitest';
import { runGaugerod, transcript } from '../support/run-gaugerod.js';

const commands = [
  'measure',
  'scale',
  'inspect',
  'mend',
  'extend',
  'fill',
  'weather',
  'relief',
  'dress',
  'slim',
  'sheet',
  'build',
  'reference',
] as const;
const here = tmpdir();

test('the help lists every command, and the whole job in one line', async () => {
  const run = runGaugerod(['--help'], here);
  await expect(transcript(['--help'], run)).toMatchFileSnapshot('transcripts/help.txt');
  const { stdout } = run;
  for (const name of commands) expect(stdout).toContain(`\n  ${name}`);
  expect(stdout).toContain('gaugerod fill wall.jpg --course uk-metric --scale N-UK');
});

describe.each(commands)('%s', (name) => {
  test('explains itself with an example, in 80 columns', async () => {
    const words = [name, '--help'];
    const run = runGaugerod(words, here);
    await expect(transcript(words, run)).toMatchFileSnapshot(`transcripts/${name}-help.txt`);
    const { exit, stdout, stderr } = run;
    expect([exit, stderr]).toEqual([0, '']);
    expect(stdout).toContain(`$ gaugerod ${name} `);
    for (const line of stdout.split('\n')) {
      // A line to type is never broken: it would no longer be one.
      if (!line.includes('$ gaugerod')) expect(line.length).toBeLessThanOrEqual(80);
    }
  });

  test('is explained by gaugerod help as well', () => {
    expect(runGaugerod(['help', name], here)).toEqual(runGaugerod([name, '--help'], here));
  });
});

test('the version is the package’s own', () => {
  const url = new URL('../../packages/cli/package.json', import.meta.url);
  const { version } = JSON.parse(readFileSync(url, 'utf8')) as { version: string };
  expect(runGaugerod(['--version'], here)).toEqual({ exit: 0, stdout: `${version}\n`, stderr: '' });
});
