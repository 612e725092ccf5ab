import type { Outcome } from '../errors/outcome.js';
import type { PhotoExif } from '../surface/photo-exif.js';
import type { Size } from '../units/parse-size.js';

/** A focal length in the picture's own pixels. */
export interface FocalLength {
  /** Pixels. */
  readonly px: number;
  /** Standard uncertainty (k = 1) of that, a fraction. */
  readonly uncertainty: number;
  /** Where it comes from. */
  readonly source: string;
}

/** Diagonal of 35 mm film, 36 x 24 mm. */
const filmDiagonal = Math.hypot(36, 24);

/** Sides that cameras store, the longer over the shorter. */
const usualShapes = [1, 5 / 4, 4 / 3, 3 / 2, 16 / 9, 2];

/** How far two shapes may differ and be the same: rounding to blocks of 16 px, as a fraction. */
const sameShape = 0.012;

/** Diagonals of sensors that there are, mm, from the smallest of telephones to plate backs. */
const sensors = { smallest: 2, largest: 100 };

/** Lenses of a 35 mm camera, mm: wider and longer ones take no pictures of walls. */
export const lenses: { readonly shortest: number; readonly longest: number } = {
  shortest: 5,
  longest: 2000,
};

const hint =
  'give the focal length of the lens (--focal 28mm, as on a 35 mm camera), or better a --span and its --length';

const shapeOf = ({ width, height }: Size<number>): number =>
  Math.max(width, height) / Math.min(width, height);

const isNear = (a: number, b: number): boolean => Math.abs(a / b - 1) <= sameShape;

/**
 * Find the focal length of the whole picture from what the camera noted, in pixels of the picture: by
 * the equivalent on 35 mm film, which holds for equal diagonals, else by the sensor's own pixels.
 *
 * @param size - The picture, upright or not.
 * @param exif - The camera's notes, or null.
 * @returns It, or why the notes do not tell.
 * @see CIPA DC-008 (Exif 2.32), FocalLengthIn35mmFilm; CIPA DCG-001 for the diagonal
 */
export function findFocalLength(
  size: Size<number>,
  exif: PhotoExif | null,
): Outcome<FocalLength, 'no-focal-length'> {
  if (exif === null) return refuse('the photo does not say its focal length');
  const { focalLength35mm, digitalZoom, stored } = exif;
  if (digitalZoom > 1.02) {
    const zoom = `${Number(digitalZoom.toFixed(2))} times`;
    return refuse(
      `the photo was taken with digital zoom of ${zoom}, and cameras differ in whether the focal length they note counts it`,
    );
  }
  if (stored !== null && !isNear(shapeOf(stored), shapeOf(size))) {
    const was = `${stored.width} x ${stored.height} px as the camera stored it`;
    return refuse(`the photo was cropped: it is ${size.width} x ${size.height} px, and was ${was}`);
  }
  if (focalLength35mm === null) return fromSensor(size, exif);
  if (!isLens(focalLength35mm)) return refuse(noLens(focalLength35mm));
  const noted = `focal length of ${focalLength35mm} mm (35 mm equivalent) noted by the camera`;
  return { ok: true, value: fromEquivalent(size, focalLength35mm, noted), warnings: [] };
}

function fromSensor(size: Size<number>, exif: PhotoExif): Outcome<FocalLength, 'no-focal-length'> {
  const { focalLengthMm, sensorPxPerMm, stored } = exif;
  if (focalLengthMm === null || sensorPxPerMm === null || stored === null) {
    return refuse('the photo says the focal length of its lens, but not how large the sensor is');
  }
  const diagonal = Math.hypot(stored.width, stored.height);
  const sensor = diagonal / sensorPxPerMm;
  if (sensor < sensors.smallest || sensor > sensors.largest) {
    return refuse(`the photo says that its sensor measures ${sensor.toPrecision(2)} mm across`);
  }
  const equivalent = (focalLengthMm * filmDiagonal) / sensor;
  if (!isLens(equivalent)) return refuse(noLens(equivalent));
  // A smaller copy of the picture has fewer pixels to the same field.
  const px = focalLengthMm * sensorPxPerMm * (Math.hypot(size.width, size.height) / diagonal);
  const source = `focal length of ${focalLengthMm} mm and pixels of the sensor noted by the camera`;
  return { ok: true, value: { px, uncertainty: shapeDoubt(size), source }, warnings: [] };
}

/**
 * Bring a focal length on 35 mm film to a picture's pixels.
 *
 * @param size - The picture.
 * @param focal - Of a 35 mm camera that sees as much, mm.
 * @param source - Where that comes from.
 * @returns The same in pixels, for equal diagonals.
 */
export function fromEquivalent(size: Size<number>, focal: number, source: string): FocalLength {
  const { width, height } = size;
  const px = (focal * Math.hypot(width, height)) / filmDiagonal;
  // Some makers go by the width instead of the diagonal, and nobody can see which.
  const byWidth = (focal * Math.max(width, height)) / 36;
  const rule = Math.abs(byWidth / px - 1) / Math.sqrt(3);
  // Noted in whole millimetres: JCGM 100:2008 (GUM), 4.3.7.
  const rounding = 0.5 / Math.sqrt(3) / focal;
  return { px, uncertainty: Math.hypot(rule, rounding, shapeDoubt(size)), source };
}

// A shape that cameras do not store was probably cut out of one they do.
function shapeDoubt(size: Size<number>): number {
  return usualShapes.some((shape) => isNear(shapeOf(size), shape)) ? 0 : 0.1;
}

const isLens = (mm: number): boolean => mm >= lenses.shortest && mm <= lenses.longest;

function noLens(mm: number): string {
  return `the photo says that its focal length is ${Number(mm.toFixed(1))} mm (35 mm equivalent), which no lens has`;
}

function refuse(message: string): Outcome<never, 'no-focal-length'> {
  return { ok: false, code: 'no-focal-length', message, hint };
}
