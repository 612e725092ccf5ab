import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dpi, makeRelief } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { mm, oneTo } from '../../support/relief-strip.js';
import { tempFolder } from '../../support/temp-folder.js';

const girder = {
  ...{ profile: 'plate-girder' as const, depth: mm(1200), flange: mm(40), leg: mm(100) },
  ...{ web: mm(12), width: mm(350), stiffeners: mm(1200), length: mm(2000) },
  ...{ colour: '#7a543e', scale: oneTo(76.2), dpi: dpi(300), isLayered: true },
};

test.each(['png', 'svg', 'pdf'])(
  'older layers all stay where the last new one cannot be written, as %s',
  async (kind) => {
    const folder = tempFolder();
    const output = join(folder, `girder.${kind}`);
    const made = await makeRelief(null, { ...girder, output });
    if (!made.ok) throw new Error(made.message);
    const files = made.value.layers.map(({ file }) => file);
    expect(files.length).toBeGreaterThan(2);
    for (const file of files) writeFileSync(file, 'older');
    const last = files.at(-1) ?? '';
    // Somebody's folder takes the last one's place once all were looked at.
    const blocked = makeRelief(null, {
      ...{ ...girder, output },
      onProgress: (step) => {
        if (step !== 'writing') return;
        rmSync(last);
        mkdirSync(last);
      },
    });
    await expect(blocked).rejects.toThrow('is a folder, not a file');
    expect(files.slice(0, -1).map((file) => readFileSync(file, 'utf8'))).toEqual(
      files.slice(0, -1).map(() => 'older'),
    );
    expect(readdirSync(folder).length).toBe(files.length);
  },
);
