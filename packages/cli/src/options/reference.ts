import { brick } from './brick.js';
import { corners } from './corners.js';
import { course } from './course.js';
import { courseAxis } from './course-axis.js';
import { courses } from './courses.js';
import { distance } from './distance.js';
import { focal } from './focal.js';
import { lengths } from './lengths.js';
import { section } from './section.js';
import { levelOnly } from './level-only.js';
import { noRectify } from './no-rectify.js';
import { spans } from './spans.js';

/** All that says how big the thing in a photo is; every command that measures takes it. */
export const reference: {
  readonly course: typeof course;
  readonly courses: typeof courses;
  readonly axis: typeof courseAxis;
  readonly spans: typeof spans;
  readonly lengths: typeof lengths;
  readonly section: typeof section;
  readonly brick: typeof brick;
  readonly distance: typeof distance;
  readonly focal: typeof focal;
  readonly corners: typeof corners;
  readonly levelOnly: typeof levelOnly;
  readonly noRectify: typeof noRectify;
} = {
  course,
  courses,
  axis: courseAxis,
  spans,
  lengths,
  section,
  brick,
  distance,
  focal,
  corners,
  levelOnly,
  noRectify,
};
