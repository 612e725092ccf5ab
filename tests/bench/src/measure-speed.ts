import { fileURLToPath } from 'node:url';
import { findCourse, measurePhoto, readPhoto } from '@gaugerod/core';
import sharp from 'sharp';
import { alternateCalls } from './alternate-calls.js';
import { alternate, printTimings } from './alternate.js';
import { drawLargeWall } from './draw-large-wall.js';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/**
 * Measuring a 24-megapixel JPEG by its courses, against decoding it and nothing else: as a whole
 * process against another by the clock, then as a call in a running process against another by
 * processor time, with what of it is reading the photo smaller. Under one and a half times the
 * peer's time is wanted.
 *
 * @param words - Another photo to measure, and what its courses are; a drawn wall unless told.
 */
export async function benchMeasureSpeed(words: readonly string[]): Promise<void> {
  const [photo = (await drawLargeWall()).photo, course = 'uk-metric'] = words;
  const cli = here('../../../packages/cli/bin/gaugerod.js');
  console.log('whole processes, by the clock');
  printTimings(
    alternate(
      [
        {
          name: 'gaugerod measure',
          argv: [cli, 'measure', photo, '--course', course, '--json', '--no-config'],
        },
        { name: 'sharp decode', argv: [here('peer-decode.js'), photo] },
      ],
      9,
    ),
  );
  console.log('calls in a running process, by processor time');
  const reference = { course: findCourse(course) };
  printTimings(
    await alternateCalls(
      [
        { name: 'measurePhoto', run: () => measurePhoto(photo, reference) },
        { name: 'readPhoto, 1600 px', run: () => readPhoto(photo, { longest: 1600 }) },
        { name: 'sharp decode', run: () => sharp(photo).raw().toBuffer() },
      ],
      9,
    ),
  );
}
