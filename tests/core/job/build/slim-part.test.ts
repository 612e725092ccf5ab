import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { drawPhotos, statesOf, type Works, works as worksOf } from '../../../support/building.js';
import { png, svg, uri } from '../../../support/slim-drawings.js';

let photos: Awaited<ReturnType<typeof drawPhotos>>;

beforeAll(async () => {
  photos = await drawPhotos();
});

const works = (parts: string): Works =>
  worksOf(
    photos,
    `gaugerod: 1
scale: N-UK
dpi: 300
surfaces:
  wall: { photo: red.png, course: uk-metric }
parts:
  front: { drawing: signs.svg, ${parts} }
`,
  );

// One picture of 600 x 450 px, twice: 10 x 7.5 mm at 300 dpi are 118 x 89 dots.
const twice = svg(
  `<image width="10" height="7.5" href="${uri(png)}"/><image x="20" width="10" height="7.5" href="${uri(png)}"/>
<rect class="brick" x="2" y="20" width="30" height="15"/>`,
);

test('a drawing is made smaller as a part, and made again when what it links changes', async () => {
  const { folder, build } = works('slim: { find: found }, link: pictures');
  mkdirSync(join(folder, 'found'));
  writeFileSync(join(folder, 'found', 'sign.png'), png);
  writeFileSync(
    join(folder, 'signs.svg'),
    svg('<image width="10" height="7.5" href="lost/sign.png"/>'),
  );
  await build();
  const [name = ''] = readdirSync(join(folder, 'out', 'pictures'));
  const picture = join(folder, 'out', 'pictures', name);
  expect(readFileSync(join(folder, 'out', 'front.svg'), 'utf8')).toContain(
    `href="pictures/${name}"`,
  );
  expect(statesOf(await build())).toEqual({ front: 'kept' });
  rmSync(picture);
  expect(statesOf(await build())).toEqual({ front: 'built' });
  expect(existsSync(picture)).toBe(true);
  writeFileSync(join(folder, 'found', 'sign.png'), photos.other);
  const [front] = (await build({ dryRun: true })).steps;
  expect(front).toMatchObject({ kind: 'slim', why: 'found/sign.png changed' });
});

test('a drawing is dressed, and the pictures that it holds already are stored once', async () => {
  const dressed = works('paint: { .brick: wall }');
  writeFileSync(join(dressed.folder, 'signs.svg'), twice);
  await dressed.build();
  const slimmed = works('paint: { .brick: wall }, slim: true');
  writeFileSync(join(slimmed.folder, 'signs.svg'), twice);
  await slimmed.build();
  const [large, small] = [dressed, slimmed].map(({ folder }) => join(folder, 'out', 'front.svg'));
  // Two copies of the picture in base64 go, and one that is coarser comes.
  const gone = statSync(large ?? '').size - statSync(small ?? '').size;
  expect(gone).toBeGreaterThan(1.5 * uri(png).length);
  const shown = async (path: string | undefined): Promise<Buffer> =>
    sharp(readFileSync(path ?? ''), { density: 72 })
      .resize(300)
      .flatten({ background: '#fff' })
      .greyscale()
      .raw()
      .toBuffer();
  const [one, other] = [await shown(large), await shown(small)];
  const off =
    one.reduce((sum, value, i) => sum + Math.abs(value - (other[i] ?? 0)), 0) / one.length;
  expect(off).toBeLessThan(2);
});
