import type { CourseReference } from '../catalogue/course-reference.js';
import type { NamedScale } from '../catalogue/find-scale.js';
import type { SectionReference } from '../catalogue/find-section.js';
import type { ProfileId } from '../finish/relief/profiles/profile.js';
import type { LightSide } from '../finish/relief/light-side.js';
import type { Dpi, RealMm } from '../units/units.js';
import type { JobOptions } from './job-options.js';
import type { WeatherOptions } from './weather-options.js';
import type { OutlineSource } from './read-outline.js';

/** What a piece in relief is: a rolled section of the catalogue, or a profile and its own sizes. */
export interface ReliefSizes {
  /** Of the catalogue; one of this and `profile`. */
  readonly section?: SectionReference;
  /** Its kind, with `depth` and whatever else that needs. */
  readonly profile?: ProfileId;
  /** From its top to its foot. */
  readonly depth?: RealMm;
  /** Over its flanges, from front to back: told, a flange casts a shadow. Needs `web` where there is one. */
  readonly width?: RealMm;
  /** Thickness of a flange, or of a leg. */
  readonly flange?: RealMm;
  /** Thickness of the web. */
  readonly web?: RealMm;
  /** Radius of its rounded corners. */
  readonly root?: RealMm;
  /** Depth of the legs that join flange plates to the web of a plate girder. */
  readonly leg?: RealMm;
}

/** What stands on it. */
export interface ReliefFittings {
  /** Lengths of plates on both flanges, in the middle, as thick as these: each shorter than the one under it. */
  readonly covers?: readonly RealMm[];
  /** From rivet to rivet of a row. */
  readonly rivets?: RealMm;
  /** Diameter of a rivet's head; 30 mm, that of a rivet of 3/4 in, unless told. */
  readonly rivetHead?: RealMm;
  /** From stiffener to stiffener; they are as thick as the web. */
  readonly stiffeners?: RealMm;
  /** Where the web is spliced, from its left end. */
  readonly splices?: readonly RealMm[];
  /** Of a splice plate, from side to side; 300 mm unless told. */
  readonly spliceWidth?: RealMm;
}

/** What `makeRelief` needs to know. */
export interface MakeReliefOptions extends ReliefSizes, ReliefFittings, JobOptions {
  /** The file to write. */
  readonly output: string;
  /** Of the model. */
  readonly scale: NamedScale;
  /** From end to end; one of this and `along`. */
  readonly length?: RealMm;
  /** A line of a drawing, at its size on paper, that the middle of the piece's depth follows. */
  readonly along?: OutlineSource;
  /** Of the printer, 10 to 4800; 600 unless told. */
  readonly dpi?: Dpi;
  /** Where the light comes from; `above` unless told. */
  readonly light?: LightSide;
  /** How strong relief is, 0 to 1; 0.7 unless told. */
  readonly strength?: number;
  /** Extra picture past every side, to be cut away, in mm of paper, 0 to 100; 0 unless told. */
  readonly bleed?: number;
  /** Pieces one under the other, 1 to 1000; 1 unless told. */
  readonly copies?: number;
  /** White paper between them, in mm, 0 to 100; 1 unless told. */
  readonly gap?: number;
  /** What lies under relief where there is no photo, `#rrggbb`; a grey unless told. */
  readonly colour?: string;
  /** What the courses are of a photo with nothing kept beside it. */
  readonly course?: CourseReference;
  /** Whether slow changes of light and colour are taken out of the photo; true unless told. */
  readonly even?: boolean;
  /**
   * What weather does to each piece, in mm of paper from its top left corner, before light falls on it; none unless
   * told. Water runs from its edges unless told. Of a preset salts and patches are left out, and damp where no foot
   * is told.
   */
  readonly weather?: WeatherOptions;
  /** How true a JPEG is, 1 to 100; 92 unless told, and only with an output of `.jpg`. */
  readonly quality?: number;
}
