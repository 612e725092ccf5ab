import type { CourseReference } from '../../catalogue/course-reference.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import type { SectionReference } from '../../catalogue/find-section.js';
import type { ProfileId } from '../../finish/relief/profiles/profile.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { LightSide } from '../../finish/relief/light-side.js';
import type { Dpi, RealMm } from '../../units/units.js';
import type { JobOptions } from '../job-options.js';
import type { PrintingOptions } from '../print/printing-options.js';
import type { WeatherOptions } from '../weather/weather-options.js';
import type { OutlineSource } from '../fill/read-outline.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

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
  /** Width of a board; 150 mm unless told, of boards that lap 110 mm: what of each is seen. */
  readonly board?: RealMm;
  /** Width of what goes round a frame, 75 mm unless told, or a door, 100 mm: common practice, no source. */
  readonly rail?: RealMm;
  /** Width of what parts panes or panels; 25 mm in a frame unless told, 100 mm in a door. */
  readonly bar?: RealMm;
  /** Height of a quoin; 300 mm unless told. */
  readonly block?: RealMm;
  /** How far a panel, a frame, a board's foot or a quoin stands out, or, sunk, how deep it lies. */
  readonly rise?: RealMm;
}

/** What boards, panels, doors and frames have. */
export interface ReliefJoinery {
  /** How long boards are: they end in joints, every other row half a board on; none unless told. */
  readonly boardLength?: RealMm;
  /** Whether planks stand, side by side; false, one under the other, unless told. */
  readonly isUpright?: boolean;
  /** How many panes, or panels, from left to right and from top to foot; 2 by 2 in a frame unless told, 1 by 2 in a door. */
  readonly panes?: PerAxis<number>;
  /** Whether a panel, or the panels of a door, lie deeper than what is round them; false unless told. */
  readonly isSunk?: boolean;
  /** A shape of a drawing, at its size on paper, that a panel has; then it has no length and no depth. */
  readonly outline?: OutlineSource;
  /** How much of the ground round a panel, a frame or quoins is shown, mm of paper, 0 to 100; 0, which cuts it to shape, unless told. */
  readonly around?: number;
}

/** Whether it is made of card, laid one on another. */
export interface ReliefLayers {
  /** Whether what stands out is also written as layers to be cut from card, a file each; false unless told. */
  readonly isLayered?: boolean;
  /** How thick the card is, mm, 0.1 to 3; 0.5 unless told: common practice, no source. Nothing that is cut is narrower. */
  readonly card?: number;
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
export interface MakeReliefOptions
  extends
    ReliefSizes,
    ReliefFittings,
    ReliefJoinery,
    ReliefLayers,
    Pick<ReferenceOptions, 'references'>,
    JobOptions {
  /** The file to write. */
  readonly output: string;
  /** Of the model. */
  readonly scale: NamedScale;
  /** From end to end; one of this, `along` and `outline`. */
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
  /** What is done to colours so that they print as on the screen; nothing unless told, and no colours beside a .svg. */
  readonly printing?: PrintingOptions;
  /** How true a JPEG is, 1 to 100; 92 unless told, and only with an output of `.jpg`. */
  readonly quality?: number;
}
