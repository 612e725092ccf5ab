import { fileURLToPath } from 'node:url';
import { alternate, printTimings } from './alternate.js';
import { drawLargeWall } from './draw-large-wall.js';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/**
 * Measuring a 24-megapixel JPEG by its courses, as a whole process, against a process that only
 * decodes it. Under one and a half times the peer's time is wanted.
 *
 * @param words - Another photo to measure, and what its courses are; a drawn wall unless told.
 */
export async function benchMeasureSpeed(words: readonly string[]): Promise<void> {
  const [photo = (await drawLargeWall()).photo, course = 'uk-metric'] = words;
  const cli = here('../../../packages/cli/dist/main.js');
  printTimings(
    alternate(
      [
        { name: 'gaugerod measure', argv: [cli, 'measure', photo, '--course', course, '--json'] },
        { name: 'sharp decode', argv: [here('peer-decode.js'), photo] },
      ],
      9,
    ),
  );
}
