import { outOfRange } from '../../errors/out-of-range.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import type { CourseAxis } from '../../surface/measurement.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';
import { type RealMm, realMm } from '../../units/units.js';
import type { GivenCorners, OtherReference } from '../../measure/given/given-reference.js';

interface CornersOptions {
  readonly axis?: CourseAxis;
  readonly straighten?: Straighten;
  readonly rectangleSize?: Size<RealMm>;
}

/**
 * Tell what is known beside four corners.
 *
 * @param corners - As the caller gave them.
 * @param options - The others.
 * @param beside - The reference that would be given without corners.
 * @returns Both.
 * @throws RangeError when nothing is known, or two things are.
 */
export function givenCorners(
  corners: readonly Point[],
  options: CornersOptions,
  beside: OtherReference,
): GivenCorners {
  const { straighten = 'full', rectangleSize, axis } = options;
  if (straighten !== 'full') {
    throw outOfRange(
      'a photo that may be straightened wholly',
      'corners',
      `straighten ${straighten}`,
    );
  }
  const known = knownInPlane(beside, rectangleSize);
  if (axis === undefined || known.kind === 'courses') return { kind: 'corners', corners, known };
  throw outOfRange('courses to be found between the corners', 'axis', axis);
}

function knownInPlane(
  beside: OtherReference,
  size: Size<RealMm> | undefined,
): GivenCorners['known'] {
  if (size !== undefined) {
    // From a distance the size is only checked.
    if (beside.kind === 'kept' || beside.kind === 'distance') return { kind: 'size', size };
    throw outOfRange('no other reference beside a rectangle of known size', 'corners', beside.kind);
  }
  switch (beside.kind) {
    case 'courses':
      return beside;
    case 'spans':
      return { ...beside, reference: null };
    case 'count': {
      const { span, courses, course } = beside;
      if (span === null) throw outOfRange('the span they were counted on', 'courses', courses);
      const [from, to] = span;
      const length = realMm(courses * course.size);
      return { kind: 'spans', spans: [{ from, to, length }], reference: course };
    }
    case 'section':
    case 'brick': {
      const { spans, reference } = beside;
      const known = spans.map(([from, to]) => ({ from, to, length: reference.size }));
      return { kind: 'spans', spans: known, reference };
    }
    case 'distance':
    case 'kept':
      throw outOfRange(
        'what is known in their plane (a real size, a course, or a span and its length)',
        'corners',
        undefined,
      );
  }
}
