import { basename } from 'node:path';
import type { CourseReference } from '../../catalogue/course-reference.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import { openPhoto, type OpenedPhoto } from '../../read/open-photo.js';
import { readSidecarText } from '../../read/read-sidecar-text.js';
import { sidecarPath } from '../../surface/sidecar-path.js';
import { showPath } from '../../errors/show-path.js';
import { readSidecar } from '../../read/read-sidecar.js';
import { type Dpi, mmPerInch } from '../../units/units.js';
import type { WallRows } from '../../fill/finish-rows.js';
import type { WeatherPage } from '../../finish/weather/paint-rows.js';
import type { PageRows } from '../../finish/weather/weather-wall.js';
import type { Matrix } from '../../numeric/matrix.js';
import { type DressedPicture, dressPicture } from './dress-picture.js';
import { type LaidOutline, planAlone, planSurface, type SurfacePlan } from './dress-plan.js';
import type { PlacedWeather } from './dress-weather.js';
import { onGround } from '../../finish/relief/on-ground.js';
import { reliefFinish } from '../../finish/relief/relief-finish.js';
import type { MakeFinish } from '../../raster/row-finish.js';
import type { PlacedRelief } from './dress-relief-options.js';
import { type CoveredWith, meanOfWall } from '../weather/mean-of-wall.js';
import { toReal, type WeatherPlaces } from '../weather/weather-places.js';
import type { JobOptions } from '../job-options.js';
import type {
  MadeSurface,
  MakeSurfaceOptions,
  SurfaceRefusal,
  TakeSurface,
} from '../surface/made-surface.js';
import { makeSurface, openForSurface } from '../surface/make-surface.js';
import type { PrintTile } from '../surface/make-tile.js';
import type { Raster } from '../../raster/raster.js';
import { type Printing, printColours, sharpenSurface, isChanging } from '../print/open-printing.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

/** A surface, and the outlines that it covers. */
export interface DressedWith {
  /** Where its photo lies. */
  readonly path: string;
  /** The outlines. */
  readonly laid: readonly LaidOutline[];
  /** What is told of what repeats. */
  readonly surface: BareSurface;
  /** Pictures of it: one, and one for every outline that is weathered or in relief. */
  readonly pictures: readonly DressedPicture[];
  /** By outline, which of them lies under it, and where: from its pixels to mm of paper, each time. */
  readonly under: readonly LaidPicture[];
}

/** A surface without its pixels, which are let go once its pictures are made. */
interface BareSurface extends Pick<MadeSurface, 'measurement' | 'lattice' | 'factor'> {
  /** Columns and rows of the photo. */
  readonly photo: Pick<MadeSurface['photo'], 'width' | 'height'>;
  /** What repeats. */
  readonly made: Pick<PrintTile, 'light' | 'plan' | 'origin'> & {
    readonly raster: Pick<Raster, 'width' | 'height'>;
  };
}

/** A picture under an outline. */
interface LaidPicture {
  /** Which, from 0. */
  readonly picture: number;
  /** Where it is laid. */
  readonly places: readonly Matrix[];
}

type Refused = Extract<Outcome<never, 'not-measured'>, { readonly ok: false }>;

/** How surfaces are made. */
export interface DressSurfacesOptions extends Pick<ReferenceOptions, 'references'>, JobOptions {
  /** Of the model. */
  readonly scale: NamedScale;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** What the courses are of photos with nothing kept beside them. */
  readonly course?: CourseReference;
  /** Whether slow changes of light are taken out. */
  readonly even: boolean;
  /** What is done to colours, or null for nothing. */
  readonly printing: Printing | null;
  /** Where pictures go. */
  readonly mode: 'link' | 'embed';
  /** What weather does to them, or null. */
  readonly placed: PlacedWeather | null;
  /** By outline: relief on it. */
  readonly reliefs: ReadonlyMap<LaidOutline, PlacedRelief>;
  /** Brings surfaces from elsewhere than their photos. */
  readonly take?: TakeSurface;
}

/**
 * Make each surface, and the pictures of it that its outlines need.
 *
 * @param wanted - Outlines by the photo that they are covered with.
 * @param options - How.
 * @returns The surfaces, or why one of the photos makes none.
 * @throws TextureError when a file does not allow it.
 */
export async function dressSurfaces(
  wanted: ReadonlyMap<string, readonly LaidOutline[]>,
  options: DressSurfacesOptions,
): Promise<Outcome<readonly DressedWith[], SurfaceRefusal>> {
  const paths = [...wanted.keys()];
  const unmeasured = await refuseUnmeasured(paths, options);
  if (unmeasured !== null) return unmeasured;
  const pending: Promise<DressedWith>[] = [];
  const warnings: Warning[] = [];
  // The decoder works on the next photo, and the encoder on the last picture, in threads of their own.
  const fromPhotos = options.take === undefined;
  let opening = open(fromPhotos ? paths[0] : undefined);
  const make = async (path: string, next: string | undefined): ReturnType<TakeSurface> => {
    if (options.take !== undefined) return options.take(path, { ...options, method: 'auto' });
    const opened = await opening;
    opening = open(next);
    if (opened === null) throw new Error('no photo was opened');
    return makeSurface(opened, await known(opened, options));
  };
  for (const [i, [path, laid]] of [...wanted].entries()) {
    const made = await make(path, paths[i + 1]);
    if (!made.ok) return made;
    pending.push(quiet(dressWith({ path, laid, surface: made.value }, options)));
    warnings.push(...(paths.length > 1 ? ofPhoto(path, made.warnings, paths) : made.warnings));
  }
  return { ok: true, value: await Promise.all(pending), warnings };
}

// Told before the photos ahead of it are made.
async function refuseUnmeasured(
  paths: readonly string[],
  { course, take }: DressSurfacesOptions,
): Promise<Refused | null> {
  if (course !== undefined || take !== undefined) return null;
  for (const path of paths) {
    // What cannot be read is told of where it is read.
    const kept = await readSidecarText(sidecarPath(path)).catch(() => '');
    if (kept !== null) continue;
    // So is a photo that is no photo.
    await openPhoto(path, { longest: 16 });
    return {
      ok: false,
      code: 'not-measured',
      message: `${showPath(path)} was not measured: nothing is kept beside it, and no course is given`,
      hint: 'say what its courses are (--course uk-metric), or measure it first: gaugerod measure PHOTO --save',
    };
  }
  return null;
}

// Where there are several, a warning says which it is about; two of one name are told apart by their folders.
function ofPhoto(path: string, warnings: readonly Warning[], paths: readonly string[]): Warning[] {
  const own = basename(path);
  const isAlone = paths.filter((one) => basename(one) === own).length === 1;
  const name = showPath(isAlone ? own : path);
  return warnings.map(({ code, message }) => ({
    code,
    message: message.includes(name) ? message : `${name}: ${message}`,
  }));
}

function withoutPixels(surface: MadeSurface): BareSurface {
  const { measurement, lattice, factor, made } = surface;
  const { light, plan, origin } = made;
  const photo = sizeOf(surface.photo);
  return {
    measurement,
    lattice,
    factor,
    photo,
    made: { light, plan, origin, raster: sizeOf(made.raster) },
  };
}

function sizeOf({
  width,
  height,
}: Pick<Raster, 'width' | 'height'>): Pick<Raster, 'width' | 'height'> {
  return { width, height };
}

async function dressWith(
  { path, laid, surface }: Pick<DressedWith, 'path' | 'laid'> & { readonly surface: MadeSurface },
  options: DressSurfacesOptions,
): Promise<DressedWith> {
  const base = { path, laid, surface: withoutPixels(surface) };
  const { dpi, mode, scale, placed, reliefs, printing } = options;
  const sharp = sharpenSurface(surface, printing, dpi);
  const rows = placed && (await weathered(sharp, placed, { dpi, scale }));
  const isCovered = rows !== null || laid.some((one) => reliefs.has(one));
  const printed = printColours({ tile: sharp.made.raster, isCovered }, printing);
  const { finishes } = printed;
  const tile = { ...sharp.made, raster: printed.tile };
  const isPrinted = isChanging(printing);
  const pictures: DressedPicture[] = [];
  const under = new Map<LaidOutline, LaidPicture>();
  // What neither weather nor relief makes unlike the others shares one picture.
  const alike = rows === null ? laid.filter((one) => !reliefs.has(one)) : [];
  if (alike.length > 0) {
    const plan = planSurface(alike, tile.raster, dpi);
    pictures.push(
      await dressPicture(tile, plan, { dpi, mode, path, wall: null, finishes, isPrinted }),
    );
    for (const [i, one] of alike.entries())
      under.set(one, { picture: 0, places: plan.places[i] ?? [] });
  }
  const others = laid.filter((one) => !under.has(one));
  const { raster, origin } = sharp.made;
  const ground = { tile: raster, origin, wall: rows };
  for (const [one, { plan, finish, wall, same }] of eachAlone(others, ground, options)) {
    let picture = same === null ? undefined : under.get(same)?.picture;
    if (picture === undefined) {
      const drawn = { dpi, mode, path, wall, finishes: [...finish, ...finishes], isPrinted };
      // One after the other: rows of each are made while those before them are compressed.
      picture = pictures.push(await dressPicture(tile, plan, drawn)) - 1;
    }
    under.set(one, { picture, places: plan.places[0] ?? [] });
  }
  return {
    ...base,
    pictures,
    under: laid.map((one) => under.get(one) ?? { picture: 0, places: [] }),
  };
}

interface AloneOutline {
  readonly plan: SurfacePlan;
  readonly finish: readonly MakeFinish[];
  readonly wall: WallRows | null;
  // One before it whose picture is the same, or null.
  readonly same: LaidOutline | null;
}

function* eachAlone(
  laid: readonly LaidOutline[],
  ground: CoveredWith,
  { placed, reliefs, dpi, scale }: DressSurfacesOptions,
): Generator<readonly [LaidOutline, AloneOutline]> {
  const { wall: rows } = ground;
  const mean = meanOfWall(reliefs.size > 0 ? ground : { ...ground, wall: null });
  const known = new Map<string, LaidOutline>();
  const walls = [...new Set(placed?.places.values())];
  for (const one of laid) {
    const { x0, y0, x1, y1 } = one.dots;
    const here = placed?.places.get(one);
    const relief = reliefs.get(one);
    const key = [x0, y0, x1, y1, here && walls.indexOf(here)].join();
    const same = relief === undefined ? (known.get(key) ?? null) : null;
    if (relief === undefined && same === null) known.set(key, one);
    const wall: WallRows | null =
      rows && ((page) => rows({ ...page, ...(here && { places: toSite(here, scale) }) }));
    const finish = relief === undefined ? [] : [lightOf(onGround(relief.marks, mean), one, dpi)];
    yield [one, { plan: planAlone(one), finish, wall, same }];
  }
}

// A picture begins at the outline's own dots.
function lightOf(marks: PlacedRelief['marks'], { dots }: LaidOutline, dpi: Dpi): MakeFinish {
  const perMm = dpi / mmPerInch;
  return (page) => {
    const inset = { x: page.inset.x - dots.x0, y: page.inset.y - dots.y0 };
    return reliefFinish(marks, { perMm, width: page.width, inset });
  };
}

// What weathers is loaded for those who want it.
async function weathered(
  surface: MadeSurface,
  { weather }: PlacedWeather,
  { dpi, scale }: Pick<DressSurfacesOptions, 'dpi' | 'scale'>,
): Promise<PageRows | null> {
  const { weatherPart } = await import('../weather/weather-part.js');
  return weatherPart(surface, { dpi, scale, weather, foot: null });
}

function toSite(places: WeatherPlaces, scale: NamedScale): NonNullable<WeatherPage['places']> {
  const { ledges = [], fixings = null, foot } = toReal(places, scale);
  return { ledges, fixings, foot };
}

// One word on courses is said of several photos: it stands in for what was not kept beside them, and
// does not contradict what was.
async function known(
  opened: OpenedPhoto,
  { course, ...options }: DressSurfacesOptions,
): Promise<MakeSurfaceOptions> {
  const kept = course === undefined ? null : await readSidecar(opened.look);
  return { ...options, method: 'auto', ...(kept === null && course && { course }) };
}

function open(path: string | undefined): Promise<OpenedPhoto | null> {
  return quiet(path === undefined ? Promise.resolve(null) : openForSurface(path));
}

// Whoever awaits it is told of what went wrong; nobody may.
function quiet<Value>(promise: Promise<Value>): Promise<Value> {
  promise.catch(() => undefined);
  return promise;
}
