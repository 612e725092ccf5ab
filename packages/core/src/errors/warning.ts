/** What a warning is about; the text beside it is for people. */
export type WarningCode =
  | 'several-frames'
  | 'approximate-colour'
  | 'wide-gamut'
  | 'transparency'
  | 'damaged-metadata'
  | 'few-courses'
  | 'irregular-courses'
  | 'uneven-scale'
  | 'bond-unknown'
  | 'two-bonds'
  | 'likely-other-format'
  | 'formats-tied'
  | 'format-unknown'
  | 'two-works'
  | 'other-axis'
  | 'already-tiled'
  | 'uneven-light'
  | 'hard-shadow'
  | 'low-resolution'
  | 'fine-mortar'
  | 'already-seamless'
  | 'too-small-to-tell'
  | 'one-colour'
  | 'visible-seam'
  | 'cut-bricks'
  | 'other-work-cut'
  | 'mirrored'
  | 'little-kept'
  | 'scale-rounded'
  | 'doubtful-print-size'
  | 'cut-in-pieces'
  | 'label-letters'
  | 'spans-disagree'
  | 'spans-repeat'
  | 'estimate'
  | 'estimate-disagrees'
  | 'corners-sorted'
  | 'uncertain-aspect'
  | 'contradictory-size'
  | 'size-assumed'
  | 'picture-beside'
  | 'missing-picture'
  | 'relinked'
  | 'left-as-it-is'
  | 'colours-unsure'
  | 'position-kept'
  | 'large-picture'
  | 'not-smaller'
  | 'caution';

/** Something the user should know, though the work was done. */
export interface Warning {
  /** One of a fixed list, for programs. */
  readonly code: WarningCode;
  /** One line, lower case, no full stop. */
  readonly message: string;
}
