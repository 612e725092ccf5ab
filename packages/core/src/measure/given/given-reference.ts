import type { CourseReference } from '../../catalogue/course-reference.js';
import type { KnownSpan } from './measure-spans.js';
import type { Reference } from '../../surface/measurement.js';
import type { Span } from '../../surface/span.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';
import type { StatedLength } from '../../units/parse-stated-length.js';
import type { RealMm } from '../../units/units.js';

/** The one way in which a photo is to be measured, corners aside. */
export type OtherReference =
  /** Nothing is known: what was kept beside the photo has to do. */
  | { readonly kind: 'kept' }
  /** Courses to be found. */
  | { readonly kind: 'courses'; readonly course: CourseReference }
  /** Courses that were counted. */
  | {
      readonly kind: 'count';
      readonly course: CourseReference;
      readonly courses: number;
      readonly span: Span | null;
    }
  /** Lines of known length. */
  | { readonly kind: 'spans'; readonly spans: readonly KnownSpan[] }
  /** Lines over the depth of a rolled section, or along the faces of bricks. */
  | {
      readonly kind: 'section' | 'brick';
      readonly reference: Reference;
      readonly spans: readonly Span[];
    }
  /** Where the photo was taken from: an estimate. */
  | { readonly kind: 'distance'; readonly distance: StatedLength; readonly focal: RealMm | null };

/** Four corners of a rectangle, and what is known in its plane. */
export interface GivenCorners {
  /** Tells it from other references. */
  readonly kind: 'corners';
  /** In pixels of the photo, in any order. */
  readonly corners: readonly Point[];
  /** How large it is; or courses to be found; or lines of known length, perhaps all of one kind. */
  readonly known:
    | { readonly kind: 'size'; readonly size: Size<RealMm> }
    | { readonly kind: 'courses'; readonly course: CourseReference }
    | {
        readonly kind: 'spans';
        readonly spans: readonly KnownSpan[];
        readonly reference: Reference | null;
      };
}

/** The one way in which a photo is to be measured. */
export type GivenReference = OtherReference | GivenCorners;

/** Corners with a known size, or with lines of known length in their plane. */
export type MarkedCorners = GivenCorners & {
  /** Nothing that has to be looked for. */
  readonly known: Exclude<GivenCorners['known'], { kind: 'courses' }>;
};

/** A way that rests on places marked by hand. */
export type MarkedReference =
  Exclude<OtherReference, { kind: 'kept' | 'courses' | 'distance' }> | MarkedCorners;
