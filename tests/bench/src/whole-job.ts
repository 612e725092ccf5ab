import { statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { alternate, printTimings } from './alternate.js';
import { drawLargeWall } from './draw-large-wall.js';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/**
 * The whole job, a 24-megapixel JPEG to an A4 fill at 600 dpi, as a whole process, against a plain
 * sharp decode, resize, tile and PNG of the same page. Under twice the peer's time is wanted.
 */
export async function benchWholeJob(): Promise<void> {
  const { folder, photo } = await drawLargeWall();
  const ours = join(folder, 'ours.png');
  const peer = join(folder, 'peer.png');
  const fill = ['--course', 'uk-metric', '--size', '210x297mm', '-o', ours, '--quiet'];
  const cli = here('../../../packages/cli/bin/gaugerod.js');
  printTimings(
    alternate(
      [
        { name: 'gaugerod fill, OO', argv: [cli, 'fill', photo, ...fill, '--scale', 'OO'] },
        { name: 'gaugerod fill, N-UK', argv: [cli, 'fill', photo, ...fill, '--scale', 'N-UK'] },
        // 1.2 mm a pixel at 1:76.2 and 600 dpi: 0.372001 dots a pixel.
        {
          name: 'sharp decode + resize + tile + PNG, OO',
          argv: [here('peer-sharp.js'), photo, peer, '0.372001'],
        },
      ],
      7,
    ),
  );
  for (const [name, path] of [
    ['ours', ours],
    ['peer', peer],
  ] as const) {
    console.log(`${name}: ${(statSync(path).size / 1e6).toFixed(1)} MB`);
  }
}
