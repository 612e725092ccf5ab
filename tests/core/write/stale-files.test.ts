import { readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { markProcess } from '../../../packages/core/src/write/process-mark.js';
import { removeStale } from '../../../packages/core/src/write/stale-files.js';
import { tempFolder } from '../../support/temp-folder.js';

// No process has so high a number: the most that Linux gives is 4194304 (its proc(5), pid_max).
const dead = 4194305;
const [here = ''] = markProcess().split('-');
const elsewhere = here === '01234567' ? '89abcdef' : '01234567';

test('in a folder that machines share only one’s own dead are known by their number, others’ by their age', () => {
  const folder = tempFolder();
  const make = (mark: string, hours: number): string => {
    const name = `.gaugerod-${mark}-0-${hours.toString(16).padStart(12, '0')}.tmp`;
    writeFileSync(join(folder, name), 'half');
    const then = Date.now() / 1000 - 3600 * hours;
    utimesSync(join(folder, name), then, then);
    return name;
  };
  make(`${here}-${dead}`, 0);
  make(`${elsewhere}-${dead}`, 25);
  const kept = [
    make(markProcess(), 48),
    make(`${here}-${process.ppid}`, 48),
    make(`${elsewhere}-${dead}`, 23),
    make(`${elsewhere}-${process.pid}`, 1),
  ];
  writeFileSync(join(folder, 'gable.png'), 'whole');
  removeStale(folder, 'of the dead');
  expect(readdirSync(folder).sort()).toEqual([...kept, 'gable.png'].sort());
});
