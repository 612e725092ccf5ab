import {
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { buildJob, type BuildJobOptions, findCourse, measurePhoto } from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { markProcess } from '../../../packages/core/src/write/process-mark.js';
import { drawPhotos, job, works as worksOf } from '../../support/building.js';
import { type HostileWorks, hostileWorks, sumOf } from '../../support/hostile-works.js';

let photos: Awaited<ReturnType<typeof drawPhotos>>;
let attacked: HostileWorks;
let page: string;

beforeAll(async () => {
  photos = await drawPhotos();
  attacked = await hostileWorks(photos);
  const { report } = await attacked.build();
  expect(report).toBe(attacked.page);
  page = readFileSync(attacked.page, 'utf8');
});

afterAll(() => {
  rmSync(attacked.folder, { recursive: true, force: true });
});

// Elements and attributes that the page is made of; whatever a name or a note smuggled in would be another.
const elements =
  'html head meta title link style body a svg defs image header div p h1 bdi dl dt dd nav ol ul li main section h2 h3 h4 article span small figure img figcaption strong br table thead tbody tr th td use g path rect text footer em code';
const attributes =
  'lang charset http-equiv content name rel href class id width height preserveAspectRatio aria-hidden focusable aria-label aria-labelledby role tabindex scope src alt decoding style viewBox transform opacity fill stroke stroke-width d x y font-size text-anchor';

test('whatever photos, jobs and notes are called, the page is made of our own elements alone', () => {
  const found = [...page.matchAll(/<([a-z][\w-]*)((?:\s+[^\s"'<>=/]+(?:="[^"]*")?)*)\s*\/?>/gi)];
  const names = new Set(found.map(([, name = '']) => name));
  const given = new Set(
    found.flatMap(([, , words = '']) =>
      [...words.matchAll(/\s([^\s"'<>=/]+)(?:="[^"]*")?/g)].map(([, word = '']) => word),
    ),
  );
  expect([...names].filter((name) => !elements.split(' ').includes(name))).toEqual([]);
  expect([...given].filter((name) => !attributes.split(' ').includes(name))).toEqual([]);
  // Every other sign of a tag is the end of one of those, or of the kind of document.
  const opened = page.match(/<(?!\/[a-z])/gi) ?? [];
  expect(opened.length).toBe(found.length + 1);
  expect(page).not.toMatch(/\ud800|[\u0000-\u0008\u000b\u000c\u000e-\u001f]/);
  expect(page).toContain('CC &quot;BY&quot; &amp; &lt;b&gt;');
});

test('the page asks nobody for anything', () => {
  const asked = [...page.matchAll(/\s(?:src|href)="([^"]*)"/g)].map(([, to = '']) => to);
  expect(asked.filter((to) => !/^(data:|#)/.test(to))).toEqual([]);
  expect(page).not.toMatch(/url\(|@import|<script|javascript:/i);
  expect(page).toContain('default-src &#39;none&#39;');
});

test('terms are told of every photo, and that there are none where none is noted', () => {
  const terms = page.slice(page.indexOf('id="terms"'));
  expect(terms).toMatch(/pale\.png<\/bdi>[^]*?<em>none noted<\/em>[^]*?<em>none noted<\/em>/);
  expect(terms).toMatch(/No licence is noted for <bdi>pale\.png<\/bdi>/);
  expect(terms).toContain('Tansy &quot;dye&quot; &lt;Wharf&gt; &amp; sons');
  // Who noted a licence has read it, whether the photo is measured anew or not.
  expect(page).not.toMatch(/check that the licence of red/);
  expect(page).toMatch(/check that the licence of .*pale\.png/);
});

test("whose a photo is, by its own data, is told where nobody noted it, and goes into no file of the job's", async () => {
  const said = await sharp(photos.red)
    .withExif({
      IFD0: { Artist: 'Tansy Wharf <b>survey</b>' },
      IFD2: { BodySerialNumber: 'serial-4711' },
      IFD3: { GPSLatitude: '51/1 30/1 0/1', GPSLatitudeRef: 'N' },
    })
    .png()
    .toBuffer();
  const { folder, build } = worksOf({ ...photos, red: said });
  const report = join(folder, 'record.html');
  const own = /Tansy Wharf &lt;b&gt;survey&lt;\/b&gt;<\/bdi> \(from the photo's own data\)/;
  const { steps } = await build({ report, only: ['gable', 'side'] });
  const files = steps.flatMap((step) => step.files);
  const told = readFileSync(report, 'utf8');
  expect(told).toMatch(own);
  expect(told).toMatch(/pale\.png<\/bdi>[^]*?<em>none noted<\/em>[^]*?<em>none noted<\/em>/);
  // A credit is no licence.
  expect(told).toMatch(/No licence is noted for <bdi>[^<]*red\.png/);
  const photo = join(folder, 'red.png');
  const course = findCourse('uk-metric');
  await measurePhoto(photo, { course, save: true, credit: 'the dye works' });
  await build({ report, only: ['gable', 'side'] });
  const noted = readFileSync(report, 'utf8');
  expect(noted).toContain('<bdi>the dye works</bdi>');
  expect(noted).not.toMatch(own);
  const written = [...files, `${photo.slice(0, -4)}.surface.json`].map((file) =>
    readFileSync(file, 'latin1'),
  );
  expect(written.join()).not.toMatch(/Wharf|4711/);
  expect(told).not.toMatch(/4711/);
});

test('what is told of a photo that was looked at smaller is what measuring it tells', async () => {
  const wall = drawWall({ bond: 'flemish', coursePx: 48, width: 2000, height: 1400, seed: 804 });
  const large = await encodePhoto(wall.raster, { format: 'jpeg' });
  const text =
    job.slice(0, job.indexOf('  shed:')) +
    `parts:
  gable:  { surface: engine-house, size: 40x30mm }
`;
  const { folder, build } = worksOf({ ...photos, red: large }, text);
  const report = join(folder, 'record.html');
  await build({ report });
  const told = readFileSync(report, 'utf8');
  const measured = await measurePhoto(join(folder, 'red.png'), { course: findCourse('uk-metric') });
  if (!measured.ok) throw new Error(measured.message);
  const { mmPerPx, uncertaintyPercent, coursePeriodPx } = measured.value;
  const [, pixel, course] = /([\d.]+) mm to a pixel, a course ([\d.]+) px/.exec(told) ?? [];
  // A course of uk-metric is 75 mm: 65 mm of brick (BS EN 771-1) and 10 mm of mortar.
  expect(Number(pixel) / (75 / 48)).toBeCloseTo(1, 2);
  expect(Math.abs(Number(pixel) / mmPerPx.x - 1)).toBeLessThan(5e-4);
  expect(Math.abs(Number(course) / (coursePeriodPx ?? 0) - 1)).toBeLessThan(5e-4);
  const [, within, off] =
    /true to ± ([\d.]+) %<\/strong>\s*\(k = 2\):\s*([\d.]+)\s*mm\s*in/.exec(told) ?? [];
  expect(off).toBe(within);
  expect(Math.abs(Number(within) / uncertaintyPercent - 1)).toBeLessThan(0.06);
  // N-UK is 1:148; one repeat of flemish bond is two courses high.
  const [, high] =
    /N-UK \(1:148\) at 300 dpi\.\s*One repeat is [\d.]+ × ([\d.]+) mm/.exec(told) ?? [];
  const repeats = Number(high) / (150 / 148);
  expect(Math.abs(repeats - Math.round(repeats)) * (150 / 148)).toBeLessThan(0.15);
});

test('cautions stand there once', () => {
  for (const word of ['Knife.', 'Spray glue.', 'Not for structural use.'])
    expect(page.split(`<strong>${word}</strong>`)).toHaveLength(2);
});

test('a report of a job in which nothing was done is drawn from what was kept, and is the same each time', async () => {
  await attacked.build();
  const again = readFileSync(attacked.page, 'utf8');
  const keep = join(attacked.folder, '.gaugerod');
  const views = (): string[] => readdirSync(keep).filter((name) => name.endsWith('.view'));
  const kept = views().map((name) => sumOf(join(keep, name)));
  // Two photos, whose the one is of which no credit was noted, two surfaces, four parts, a layer of card.
  expect(kept).toHaveLength(10);
  await attacked.build();
  expect(readFileSync(attacked.page, 'utf8')).toBe(again);
  expect(views().map((name) => sumOf(join(keep, name)))).toEqual(kept);
  // One that was damaged is drawn again, and so is one whose surface is not kept any more.
  for (const name of readdirSync(keep)) {
    if (name.endsWith('.view')) writeFileSync(join(keep, name), 'scribbled over');
    if (name.endsWith('.surface')) rmSync(join(keep, name));
  }
  await attacked.build();
  expect(readFileSync(attacked.page, 'utf8')).toBe(again);
});

test('what is drawn of files that change on the way is not shown, nor kept for what they were', async () => {
  const { folder, build } = worksOf(photos);
  const report = join(folder, 'record.html');
  const red = join(folder, 'red.png');
  const gable = join(folder, 'out', 'gable.png');
  await build();
  await build({ report });
  const whole = readFileSync(report, 'utf8');
  const made = readFileSync(gable);
  const keep = join(folder, '.gaugerod');
  for (const name of readdirSync(keep)) if (name.endsWith('.view')) rmSync(join(keep, name));
  // Between what was built and what is drawn of it.
  const onBuild: BuildJobOptions['onBuild'] = ({ kind, step }) => {
    if (kind !== 'report' || step !== 'drawing') return;
    writeFileSync(red, photos.other);
    writeFileSync(gable, photos.other);
  };
  await build({ report, onBuild });
  const changed = readFileSync(report, 'utf8');
  expect(changed).toMatch(
    /No picture here: [^<]*red\.png was changed while the job was being built/,
  );
  expect(changed).toMatch(/No picture here: [^<]*gable\.png was changed while the job/);
  writeFileSync(red, photos.red);
  writeFileSync(gable, made);
  await build({ report });
  expect(readFileSync(report, 'utf8')).toBe(whole);
});

test('what a build that was killed left beside its report is cleaned away', async () => {
  const { folder, build } = worksOf(photos);
  mkdirSync(join(folder, 'told'));
  // No process has so high a number: the most that Linux gives is 4194304 (its proc(5), pid_max).
  const [here] = markProcess().split('-');
  const left = join(folder, 'told', `.gaugerod-${here}-4194305-0-0123456789ab.tmp`);
  writeFileSync(left, 'half a page');
  await build({ only: ['girder'], report: join(folder, 'told', 'record.html') });
  expect(readdirSync(join(folder, 'told'))).toEqual(['record.html']);
});

// To a dot of 1/300 inch on either side, and the tenth it is told to.
function expectCut(text: string, mm: number): void {
  const [, width, height] = /Cut to<\/dt>\s*<dd>\s*([\d.]+) × ([\d.]+) mm/.exec(text) ?? [];
  expect(Math.abs(Number(width) - mm)).toBeLessThan(0.15);
  expect(Math.abs(Number(height) - 20)).toBeLessThan(0.15);
}

test('a part that was cut to another size is shown at that size', async () => {
  const { folder, build, write } = worksOf(photos);
  const report = join(folder, 'out', 'record.htm');
  const wish = { only: ['side'], report };
  await build(wish);
  expectCut(readFileSync(report, 'utf8'), 30);
  write(readFileSync(join(folder, 'works.yaml'), 'utf8').replace('30x20mm', '44x20mm'));
  await build(wish);
  const now = readFileSync(report, 'utf8');
  expectCut(now, 44);
  expect(now).toContain('of some of the job');
});

test('where parts fail the report comes out, and tells every cause with what is missing for it', async () => {
  const { folder } = worksOf(photos);
  writeFileSync(join(folder, 'red.png'), 'no picture');
  writeFileSync(join(folder, 'pale.png'), '');
  const report = join(folder, 'record.html');
  const tries: string[] = [];
  const built = await buildJob(join(folder, 'works.yaml'), {
    jobs: 1,
    report,
    onBuild({ name, step }) {
      if (step === 'reading') tries.push(name);
    },
  });
  expect(built.ok).toBe(false);
  const told = readFileSync(report, 'utf8');
  expect(told).toMatch(/surface engine-house: [^<]*red\.png holds text, not a picture/);
  expect(told).toMatch(/surface shed: [^<]*pale\.png is empty/);
  expect(told).toMatch(/Not there for it<\/dt>\s*<dd>\s*<bdi>gable, front and walls<\/bdi>/);
  expect(told).toMatch(/4 things not made, for 2 causes/);
  // Each was tried once, though the report asks for it again.
  expect(tries.filter((name) => name === 'engine-house')).toHaveLength(1);
  // And whoever is told of the failure is told where it lies.
  expect(built.ok ? '' : built.message).toContain(`report: ${report}`);
  // What could be made is shown.
  expect(told).toMatch(/<image\s+id="v3-1"/);
});

test('nothing that a job reads or writes is written over', async () => {
  const { folder, build } = worksOf(photos);
  await build();
  const red = sumOf(join(folder, 'red.png'));
  const gable = sumOf(join(folder, 'out', 'gable.png'));
  symlinkSync(join(folder, 'red.png'), join(folder, 'a.html'));
  linkSync(join(folder, 'out', 'gable.png'), join(folder, 'b.html'));
  mkdirSync(join(folder, 'c.html'));
  for (const [name, told] of [
    ['red.png', /red\.png is the input, which is never written over/],
    ['f.png', /what is written is \.html or \.htm/],
    ['a.html', /same file as the input .*red\.png/],
    ['b.html', /same file as the input .*gable\.png/],
    ['c.html', /is a folder/],
    ['nowhere/d.html', /the folder of .* does not exist/],
  ] as const) {
    await expect(build({ report: join(folder, name) }), name).rejects.toThrow(told);
  }
  expect([sumOf(join(folder, 'red.png')), sumOf(join(folder, 'out', 'gable.png'))]).toEqual([
    red,
    gable,
  ]);
  await expect(build({ report: join(folder, 'e.html'), dryRun: true })).rejects.toThrow(RangeError);
  expect(existsSync(join(folder, 'e.html'))).toBe(false);
});

test('a page is shown as it is laid out for a printer that makes it longer, and colours made for one are told', async () => {
  const written = job
    .replace('dpi: 300', 'dpi: 300\nprinterX: 105')
    .replace('size: 40x30mm,', 'size: 40x30mm, printing: { dotGain: 18% },');
  const { folder, build } = worksOf(photos, written);
  const report = join(folder, 'record.html');
  await build({ report });
  const text = readFileSync(report, 'utf8');
  // 210 mm of A4 x 1.05.
  expect(text).toMatch(/class="page"[^>]*viewBox="0 0 220.5 297"/);
  expect(text).toContain('made for the printer');
});
