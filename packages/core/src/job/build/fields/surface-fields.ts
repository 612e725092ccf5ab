import { findBrick } from '../../../catalogue/find-brick.js';
import { findCourse } from '../../../catalogue/find-course.js';
import { findSection } from '../../../catalogue/find-section.js';
import type { OwnReference } from '../../../catalogue/own-reference.js';
import { parseCorners, parseSpan } from '../../../surface/parse-span.js';
import { parseRealLength } from '../../../units/parse-length.js';
import { parseWhole } from '../../../units/parse-number.js';
import { parsePrintSize, parseRealSize } from '../../../units/parse-size.js';
import { parseStatedLength } from '../../../units/parse-stated-length.js';
import { parseTimes } from '../../../units/parse-times.js';
import type { LayExtensionOptions } from '../../extend/lay-extension.js';
import type { ReferenceOptions } from '../../measure/reference-options.js';
import { choice, type FieldsOf, several, text, yesOrNo } from './field.js';

/** What is known of a photo, as it is written. */
export interface SurfaceValues extends Omit<
  ReferenceOptions,
  'references' | 'spans' | 'lengths' | 'rectangleSize'
> {
  /** Lines on the photo. */
  readonly span?: NonNullable<ReferenceOptions['spans']>;
  /** Their real lengths. */
  readonly length?: NonNullable<ReferenceOptions['lengths']>;
  /** Size of what lies between corners. */
  readonly rectangle?: NonNullable<ReferenceOptions['rectangleSize']>;
  /** Whether slow changes of light are taken out. */
  readonly even?: boolean;
}

/** What is known of a photo's real size. */
export const surfaceFields: FieldsOf<SurfaceValues> = surfaceFieldsWith([]);

/**
 * The same where there are references beside the catalogue's.
 *
 * @param own - Those.
 * @returns The keys.
 */
export function surfaceFieldsWith(own: readonly OwnReference[]): FieldsOf<SurfaceValues> {
  return {
    course: text(
      'what its courses are: uk-metric, or their height bed joint to bed joint, 75mm',
      (typed, name) => findCourse(typed, name, own),
    ),
    courses: text(
      'how many were counted, over span where given, else over the whole photo',
      (typed, name) => parseWhole(typed, name, { most: 99_999 }),
    ),
    axis: choice('which way courses are counted: y down the photo, x where they stand upright', [
      'x',
      'y',
    ]),
    span: several(
      'two points of the photo in pixels, "120,80 120,680"; a list for more',
      parseSpan,
    ),
    length: several('how long each span is in reality: 1.2m', parseStatedLength),
    section: text('the rolled section whose depth the span goes across', findSection),
    brick: text('the brick whose long face the span goes along', (typed, name) =>
      findBrick(typed, name, own),
    ),
    corners: text('the four corners of a rectangle, "x,y x,y x,y x,y"', parseCorners),
    rectangle: text(
      'how large the rectangle between corners is in reality: 1.2x2.1m',
      parseRealSize,
    ),
    distance: text('from the camera to the wall: 4.5m', parseStatedLength),
    focal: text('focal length as on a 35 mm camera: 28mm', parseRealLength),
    straighten: choice('how far the photo is straightened', ['full', 'level', 'none']),
    even: yesOrNo('slow changes of light and colour are taken out; true unless told'),
  };
}

/** How much more of a wall is laid than its photos show. */
export type ExtendValues = Pick<LayExtensionOptions, 'size' | 'realSize' | 'times' | 'seed'>;

/** How much more of a wall is laid than its photos show. */
export const extendFields: FieldsOf<ExtendValues> = {
  size: text('size on paper: 120x80mm', parsePrintSize),
  realSize: text('or size of the real thing: 9.9x4.2m', parseRealSize),
  times: text('or so many times the photo across and down: 4x3', parseTimes),
  seed: text('another lays it otherwise; 1 unless told', (typed, name) =>
    parseWhole(typed, name, { least: 0, most: 2 ** 32 - 1 }),
  ),
};

/** How a surface is mended. */
export interface MendValues {
  /** Along which axis alone. */
  readonly axis?: 'x' | 'y';
  /** How its ends are joined. */
  readonly method?: 'auto' | 'blend' | 'cut' | 'gradient';
}

/** How a surface is mended. */
export const mendFields: FieldsOf<MendValues> = {
  axis: choice('along which axis alone; across it the photo is taken to meet itself', ['x', 'y']),
  method: choice('how its ends are joined', ['auto', 'blend', 'cut', 'gradient']),
};
