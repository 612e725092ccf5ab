import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import sharp from 'sharp';

/** A drawing as a renderer shows it. */
export interface Rendered {
  readonly width: number;
  readonly height: number;
  /** RGBA, row by row. */
  readonly data: Buffer;
}

/** A renderer of another hand than ours. */
export interface Renderer {
  readonly name: string;
  readonly isThere: boolean;
  /** What a drawing of a size in mm shows on nothing, at so many dots to the inch. */
  readonly render: (
    file: string,
    dpi: number,
    sizeMm: readonly [number, number],
  ) => Promise<Rendered>;
}

const has = (command: string): boolean => spawnSync(command, ['--version']).status === 0;

async function load(file: string): Promise<Rendered> {
  const picture = sharp(file, { limitInputPixels: false }).ensureAlpha();
  const { data, info } = await picture.raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
}

function run(command: string, words: readonly string[]): void {
  const { status, stderr } = spawnSync(command, words, { timeout: 60_000 });
  if (status !== 0)
    throw new Error(`${command} ended with ${status ?? 'a signal'}: ${String(stderr)}`);
}

let count = 0;
const target = (file: string): string => join(file, '..', `rendered-${++count}.png`);

const rsvg: Renderer = {
  name: 'rsvg-convert',
  isThere: has('rsvg-convert'),
  render: async (file, dpi) => {
    const out = target(file);
    run('rsvg-convert', ['--dpi-x', String(dpi), '--dpi-y', String(dpi), '-o', out, file]);
    return load(out);
  },
};

const chromium: Renderer = {
  name: 'chromium',
  isThere: has('chromium'),
  render: async (file, dpi, [width, height]) => {
    const out = target(file);
    const [across, down] = [width, height].map((mm) => Math.ceil((mm * 96) / 25.4));
    run('chromium', [
      ...['--headless', '--no-sandbox', '--disable-gpu', '--hide-scrollbars'],
      '--default-background-color=00000000',
      `--window-size=${across ?? 0},${down ?? 0}`,
      `--force-device-scale-factor=${dpi / 96}`,
      `--screenshot=${out}`,
      pathToFileURL(file).href,
    ]);
    return load(out);
  },
};

export const renderers: readonly Renderer[] = [rsvg, chromium];
