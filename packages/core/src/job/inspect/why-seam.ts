import type { InspectedSeam } from '../../seam/inspect/inspected-seam.js';

// A difference of light this small between two ends is no reason to give.
const leastLight = 1;
const leastPixels = 0.75;
const leastColour = 1;
const mostReasons = 2;

/**
 * Say why a seam shows, worst first.
 *
 * @param seam - As inspected.
 * @param axis - Along which it was.
 * @returns A few words, or null where none shows.
 */
export function whySeam(seam: InspectedSeam, axis: 'x' | 'y'): string | null {
  if (seam.seamScore <= 1) return null;
  const reasons: readonly (readonly [score: number, words: string])[] = [
    [seam.light, lightInWords(seam, axis)],
    [seam.colour, colourInWords(seam)],
    [seam.joints, jointsInWords(seam)],
    [seam.steps, 'what meets there does not belong together'],
  ];
  const worstFirst = reasons.toSorted(([one], [other]) => other - one);
  // Several that nobody would see alone show together: then the worst is told.
  const alone = worstFirst.filter(([score]) => score > 1).length;
  return worstFirst
    .slice(0, Math.max(1, Math.min(alone, mostReasons)))
    .map(([, words]) => words)
    .join('; ');
}

function lightInWords({ lightStep }: InspectedSeam, axis: 'x' | 'y'): string {
  if (Math.abs(lightStep) < leastLight) return 'its lightness steps there';
  const [start, end] = axis === 'x' ? ['left', 'right'] : ['top', 'foot'];
  const [lighter, darker] = lightStep > 0 ? [start, end] : [end, start];
  const by = figure(Math.abs(lightStep));
  return `lighter at the ${lighter} than at the ${darker} by ${by} of 100`;
}

function colourInWords({ colourStep }: InspectedSeam): string {
  if (colourStep < leastColour) return 'its colour steps there';
  return `its colour differs by ${figure(colourStep)} from one end to the other`;
}

function jointsInWords({ brokenBy, courseOff }: InspectedSeam): string {
  if (brokenBy !== null && Math.abs(brokenBy) >= leastPixels) {
    return `lines that cross it are broken by ${figure(Math.abs(brokenBy))} px`;
  }
  if (courseOff !== null && Math.abs(courseOff) >= leastPixels) {
    return `joints lie ${figure(Math.abs(courseOff))} px too ${courseOff < 0 ? 'close' : 'far apart'} there`;
  }
  return 'joints do not go on';
}

function figure(value: number): string {
  return value.toFixed(1);
}
