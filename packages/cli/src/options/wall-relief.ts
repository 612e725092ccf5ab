import type { Core, ListOption, Switch, TextOption } from './option.js';
import { light } from './light.js';
import { rise } from './rise.js';
import { strength } from './strength.js';

type Relief = NonNullable<Parameters<Core['fillPhoto']>[1]['relief']>;
type Course = NonNullable<Relief['stringCourses']>[number];

const stringCourses: ListOption<Course> = {
  flag: '--string-course <y,height>',
  help: 'a course that stands out from end to end, lit, with its shadow: how far its top lies below the datum, and how high it is, in mm of paper; give it again for more',
  parse: (text, { name, core }) => core.parseStringCourse(text, name),
  many: true,
};

const openings: Switch = {
  flag: '--openings',
  help: 'with --outline: light the edges of windows and doors, the head dark, the sill light',
};

/** What of a wall is lit. */
export const wallRelief: {
  readonly stringCourses: ListOption<Course>;
  readonly rise: typeof rise;
  readonly openings: Switch;
  readonly lightFrom: typeof light;
  readonly strength: TextOption<number>;
} = {
  stringCourses,
  rise: { ...rise, help: 'how far string courses stand out in reality (default: 50mm)' },
  openings,
  lightFrom: light,
  strength,
};

interface WallValues {
  readonly stringCourses?: readonly Course[] | undefined;
  readonly rise?: Relief['rise'];
  readonly openings?: boolean | undefined;
  readonly lightFrom?: Relief['light'];
  readonly strength?: number | undefined;
}

/**
 * Gather what of a wall is lit.
 *
 * @param values - Of all options.
 * @returns As the library takes it; empty where nothing is asked for.
 */
export function wallReliefOf(values: WallValues): Relief {
  const { stringCourses: courses, rise: out, openings: lit, lightFrom, strength: how } = values;
  return {
    ...(courses !== undefined && courses.length > 0 && { stringCourses: courses }),
    ...(out !== undefined && { rise: out }),
    ...(lit === true && { isOpeningsLit: true }),
    ...(lightFrom !== undefined && { light: lightFrom }),
    ...(how !== undefined && { strength: how }),
  };
}
