import { course } from './course.js';
import { courseAxis } from './course-axis.js';
import { courses } from './courses.js';
import { lengths } from './lengths.js';
import { spans } from './spans.js';

/** All that says how big the thing in a photo is; every command that measures takes it. */
export const reference: {
  readonly course: typeof course;
  readonly courses: typeof courses;
  readonly axis: typeof courseAxis;
  readonly spans: typeof spans;
  readonly lengths: typeof lengths;
} = { course, courses, axis: courseAxis, spans, lengths };
