import {
  sampleTempting,
  sampleTextures,
  sampleViews,
  sampleWalls,
  sampleWorks,
} from '@gaugerod/fixtures';
import { asItIs } from './move-between.js';
import type { PictureTruth } from './try-picture.js';

type Draw = Awaited<ReturnType<ReturnType<typeof sampleWalls>[number]['draw']>>;
type DrawTexture = Awaited<ReturnType<ReturnType<typeof sampleTextures>[number]['draw']>>;

/** A drawn picture and what it shows. */
export interface Picture {
  /** What it is called in a list. */
  readonly name: string;
  readonly truth: PictureTruth;
  readonly raster: Draw['raster'];
  /** What to tell `--course`. */
  readonly course: string;
}

/** The truth about a picture without courses. */
export const nothing: PictureTruth = {
  coursePx: null,
  courseMm: 75,
  brickPx: null,
  axis: 'y',
  bond: null,
  format: null,
  rectification: asItIs,
};

const showKnobs = (knobs: object): string =>
  Object.entries(knobs)
    .filter(([, value]) => value !== undefined && value !== 0)
    .map(([key, value]) => `${key} ${typeof value === 'number' ? Number(value.toFixed(2)) : value}`)
    .join(' ');

function wallPicture({ raster, truth }: Draw, knobs: object): Picture {
  const { bond, format } = truth;
  const name = `${bond} ${format.id} ${showKnobs(knobs)}`;
  return { name, truth: { ...truth, format: format.id }, raster, course: format.id };
}

function texturePicture({ raster, truth }: DrawTexture): Picture {
  return { name: truth.texture, truth: nothing, raster, course: '75mm' };
}

/** Every kind of picture, by the word that asks a benchmark for it. */
export const kindIds = ['walls', 'views', 'works', 'textures', 'tempting'] as const;

type Kind = (typeof kindIds)[number];

/** Each kind: from a first seed and a number to as many pictures, drawn when asked for. */
export const drawKinds: Readonly<
  Record<Kind, (seed: number, count: number) => readonly (() => Promise<Picture>)[]>
> = {
  walls: (seed, count) =>
    sampleWalls(seed, count).map((sample) => async () => wallPicture(await sample.draw(), {})),
  views: (seed, count) =>
    sampleViews(seed, count).map((sample) => async () => {
      const { rotation, tiltX, tiltY, lens, hidden, paint } = sample.params;
      return wallPicture(await sample.draw(), { rotation, tiltX, tiltY, lens, hidden, paint });
    }),
  works: (seed, count) =>
    sampleWorks(seed, count).map((sample) => async () => {
      const { work, upright, rotation, tiltX, tiltY, lens, hidden } = sample.params;
      const { raster, truth } = await sample.draw();
      const knobs = { upright: upright === true ? 'yes' : 0, rotation, tiltX, tiltY, lens, hidden };
      const name = `${work} ${showKnobs(knobs)}`;
      return {
        name,
        truth: { ...truth, bond: null, format: null },
        raster,
        course: `${truth.courseMm}mm`,
      };
    }),
  textures: (seed, count) =>
    sampleTextures(seed, count).map((sample) => async () => texturePicture(await sample.draw())),
  tempting: (seed, count) =>
    sampleTempting(seed, count).map((sample) => async () => texturePicture(await sample.draw())),
};
