import { findSection } from '../../../catalogue/find-section.js';
import { type LightSide, parseLight } from '../../../finish/relief/light-side.js';
import { parseProfile } from '../../../finish/relief/parse-profile.js';
import { parseDpi } from '../../../units/parse-dpi.js';
import { parseGrid } from '../../../units/parse-grid.js';
import { parseRealLength } from '../../../units/parse-length.js';
import { parseShare, parseWhole } from '../../../units/parse-number.js';
import { parseOffset } from '../../../units/parse-place.js';
import { parsePrintSize, parseRealSize } from '../../../units/parse-size.js';
import type { Dpi } from '../../../units/units.js';
import type { DressDrawingOptions } from '../../dress/dress-drawing.js';
import type { FillPhotoOptions } from '../../fill/fill-options.js';
import { parseCorner, parseStringCourse } from '../../fill/parse-wall.js';
import type {
  MakeReliefOptions,
  ReliefFittings,
  ReliefJoinery,
  ReliefLayers,
  ReliefSizes,
} from '../../relief/relief-options.js';
import type { SlimDrawingOptions } from '../../slim/slim-drawing.js';
import type { WallRelief } from '../../fill/wall-relief-options.js';
import { choice, type Field, type FieldsOf, place, several, text, yesOrNo } from './field.js';

const dpi: Field<Dpi> = text('dots per inch of the print; 600 unless told', parseDpi);
const bleed: Field<number> = text(
  'extra picture past the outer edge, to be cut away: 2mm',
  parseOffset,
);
const quality: Field<number> = text('how true a .jpg is, 1 to 100', (typed, name) =>
  parseWhole(typed, name, { most: 100 }),
);

/** What is said of a part that is filled. */
export type FillValues = Pick<
  FillPhotoOptions,
  'size' | 'realSize' | 'dpi' | 'bleed' | 'datum' | 'corner' | 'quality' | 'svg'
>;

/** A part that is filled with a surface. */
export const fillFields: FieldsOf<FillValues> = {
  size: text('size on paper: 84x112mm', parsePrintSize),
  realSize: text('or size of the real thing: 9.9x4.2m', parseRealSize),
  dpi,
  bleed,
  datum: place('where it lies on the whole wall, mm of paper right and down: [120, 0]'),
  corner: text('also say the datum of the wall round the corner: right, or left=60mm', parseCorner),
  quality,
  svg: choice('what an .svg holds', ['baked', 'pattern']),
};

/** What of a wall is lit, as it is written. */
export interface WallValues extends Omit<WallRelief, 'stringCourses' | 'isOpeningsLit'> {
  /** Courses that stand out. */
  readonly stringCourse?: NonNullable<WallRelief['stringCourses']>;
  /** Whether the edges of windows and doors are lit. */
  readonly openings?: boolean;
}

/** What of a wall is lit. */
export const wallFields: FieldsOf<WallValues> = {
  stringCourse: several(
    'a course that stands out: its top below the datum, its height: 24,3',
    parseStringCourse,
  ),
  rise: text('how far string courses stand out in reality', parseRealLength),
  openings: yesOrNo('edges of windows and doors are lit; with an outline'),
  light: text('where the light comes from: above, above-left', parseLight),
  strength: text('how strong lines and shadows are, 0 to 1', parseShare),
};

/** What a part in relief is, as it is written. */
export interface ReliefValues
  extends
    ReliefSizes,
    Omit<ReliefFittings, 'covers' | 'splices'>,
    Omit<ReliefJoinery, 'isSunk' | 'isUpright' | 'outline'>,
    Omit<ReliefLayers, 'isLayered'> {
  /** Whether it is also written as layers of card. */
  readonly layers?: boolean;
  /** Whether a panel lies deeper than what is round it. */
  readonly sunk?: boolean;
  /** Whether planks stand. */
  readonly upright?: boolean;
  /** From end to end. */
  readonly length?: NonNullable<MakeReliefOptions['length']>;
  /** Plates on its flanges. */
  readonly cover?: NonNullable<ReliefFittings['covers']>;
  /** Where its web is spliced. */
  readonly splice?: NonNullable<ReliefFittings['splices']>;
  /** Where the light comes from. */
  readonly light?: LightSide;
  /** How strong relief is. */
  readonly strength?: number;
}

/** What covered outlines of a drawing are in relief, as it is written. */
export type DressReliefValues = Omit<
  ReliefValues,
  'depth' | 'length' | 'cover' | 'around' | 'layers' | 'card'
>;

/** What covered outlines of a drawing are in relief: as long and as deep as they are drawn. */
export const dressReliefFields: FieldsOf<DressReliefValues> = {
  section: text('the rolled section that it is: UB 203x133x25', findSection),
  profile: text('or its kind, with its own sizes: plate-girder', parseProfile),
  width: text('over its flanges, from front to back', parseRealLength),
  flange: text('thickness of a flange or leg', parseRealLength),
  web: text('thickness of the web', parseRealLength),
  root: text('radius of its rounded corners', parseRealLength),
  leg: text('depth of the legs that join flange plates to a web', parseRealLength),
  board: text('width of a board', parseRealLength),
  boardLength: text('how long boards are', parseRealLength),
  upright: yesOrNo('planks stand, side by side'),
  rail: text('width of what goes round a frame or a door', parseRealLength),
  bar: text('width of what parts panes or panels', parseRealLength),
  block: text('height of a quoin', parseRealLength),
  rise: text('how far it stands out, or lies deeper', parseRealLength),
  panes: text('columns and rows of panes or panels: 2x4', parseGrid),
  sunk: yesOrNo('a panel, or the panels of a door, lie deeper than what is round them'),
  rivets: text('from rivet to rivet: 4in', parseRealLength),
  rivetHead: text('diameter of a rivet’s head', parseRealLength),
  stiffeners: text('from stiffener to stiffener', parseRealLength),
  splice: several('a plate over a joint of the web, so far from the left end', parseRealLength),
  spliceWidth: text('of such a plate', parseRealLength),
  light: text('where the light comes from: above, above-left', parseLight),
  strength: text('how strong lines and shadows are, 0 to 1', parseShare),
};

/** What a part in relief is. */
export const reliefFields: FieldsOf<ReliefValues> = {
  ...dressReliefFields,
  depth: text('from its top to its foot: 1.2m', parseRealLength),
  around: text('how much of what is round it is shown, mm of paper', parseOffset),
  length: text('from end to end: 9m', parseRealLength),
  cover: several('a plate on each flange, so long', parseRealLength),
  layers: yesOrNo('a file for each layer of card as well; sheets that name the part take them all'),
  card: text('how thick that card is, mm; 0.5 unless told', parseOffset),
};

/** What else is said of a part in relief. */
export type PiecesValues = Pick<
  MakeReliefOptions,
  'dpi' | 'bleed' | 'quality' | 'colour' | 'copies' | 'gap'
>;

/** What else is said of a part in relief, beside its surface. */
export const piecesFields: FieldsOf<PiecesValues> = {
  dpi,
  bleed,
  quality,
  colour: text('in place of a surface: firebrick, "#7a543e"', (typed) => typed),
  copies: text('pieces one under the other', (typed, name) =>
    parseWhole(typed, name, { most: 1000 }),
  ),
  gap: text('paper between them', parseOffset),
};

/** How pictures that a drawing holds are made smaller, its folder aside, which is looked for. */
export type SlimValues = Pick<SlimDrawingOptions, 'keepClipped'>;

/** How pictures that a drawing holds are made smaller. */
export const slimFields: FieldsOf<SlimValues> = {
  keepClipped: yesOrNo('what never shows of a picture is kept'),
};

/** What is said of a drawing that is dressed. */
export type DressValues = Pick<DressDrawingOptions, 'dpi' | 'datum' | 'embed'>;

/** A drawing whose outlines are covered. */
export const dressFields: FieldsOf<DressValues> = {
  dpi,
  datum: place('where on the drawing a course begins, mm of paper from its top left corner'),
  embed: yesOrNo('pictures go into the drawing, which they do unless link is given'),
};
