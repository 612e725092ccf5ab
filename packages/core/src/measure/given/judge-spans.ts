import type { Warning } from '../../errors/warning.js';
import { type Apart, compareSpans, type SpanScale } from './fit-spans.js';

/** A line's scale, and where it lies. */
export interface PlacedSpan extends SpanScale {
  /** As the user counts them, from 1. */
  readonly number: number;
  /** Right of where it begins, px. */
  readonly dx: number;
  /** Below it. */
  readonly dy: number;
}

/** Whether several lines agree. */
export interface SpansVerdict {
  /** Numbers of those whose scale counts. */
  readonly used: readonly number[];
  /** 0 to 1: that these are the lines that were meant. */
  readonly confidence: number;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** Under this nobody need be told, as a fraction: pixels are marked by hand, things are not exact. */
const slight = 0.005;

/** Past this something else was marked than was meant, as a fraction. */
const senseless = 0.2;

// Marked by hand: whoever marks it may take the wrong edge, which a second line would show.
const confidences = { alone: 0.99, agree: 0.995, outvoted: 0.9, disagree: 0.3, senseless: 0.1 };

const disagree = ({ difference, ratio }: Apart): boolean =>
  ratio > 2 && Math.abs(difference) > slight;

const inPercent = (difference: number): string =>
  `${Number((100 * Math.abs(difference)).toPrecision(2))} %`;

/**
 * Hold each line against all the others. Where one alone stands out of three or more that otherwise
 * agree, it is left out; where nobody can say which is wrong, all count and the scale is doubted.
 *
 * @param spans - One or more.
 * @returns Which count, how sure the scale is, and what to say.
 */
export function judgeSpans(spans: readonly PlacedSpan[]): SpansVerdict {
  const used = spans.map(({ number }) => number);
  if (spans.length === 1) return { used, confidence: confidences.alone, warnings: [] };
  const odd = findOdd(spans);
  const [worst] = odd;
  if (worst === undefined) return { used, confidence: confidences.agree, warnings: [] };
  const ways = compareWays(spans);
  if (ways !== null) return { used, ...doubt(ways.difference), warnings: [tellWays(spans, ways)] };
  if (spans.length === 2) {
    const { difference } = worst.apart;
    return { used, ...doubt(difference), warnings: [tellTwo(spans, difference)] };
  }
  const others = spans.filter((span) => span !== worst.span);
  if (findOdd(others).length > 0) {
    return { used, ...doubt(worst.apart.difference), warnings: [tellSeveral(odd)] };
  }
  return {
    used: others.map(({ number }) => number),
    confidence: confidences.outvoted,
    warnings: [tellOne(worst)],
  };
}

interface OddSpan {
  readonly span: PlacedSpan;
  readonly apart: Apart;
}

// Those that disagree with all the others together, the farthest out first.
function findOdd(spans: readonly PlacedSpan[]): OddSpan[] {
  if (spans.length < 2) return [];
  return spans
    .map((span) => {
      const others = spans.filter((other) => other !== span);
      return { span, apart: compareSpans([span], others) };
    })
    .filter(({ apart }) => disagree(apart))
    .sort((a, b) => b.apart.ratio - a.apart.ratio);
}

// The larger over the smaller, less 1, whichever of the two was held against the other.
const either = (difference: number): number => Math.max(1 + difference, 1 / (1 + difference)) - 1;

function doubt(difference: number): Pick<SpansVerdict, 'confidence'> {
  const far = either(difference) > senseless;
  return { confidence: far ? confidences.senseless : confidences.disagree };
}

const across = ({ dx, dy }: PlacedSpan): boolean => Math.abs(dx) >= 2 * Math.abs(dy);
const down = ({ dx, dy }: PlacedSpan): boolean => Math.abs(dy) >= 2 * Math.abs(dx);

// Null unless lines across agree with one another, lines down do, and across does not with down.
function compareWays(spans: readonly PlacedSpan[]): Apart | null {
  const [level, upright] = [spans.filter(across), spans.filter(down)];
  if (level.length === 0 || upright.length === 0) return null;
  if (level.length + upright.length < spans.length) return null;
  if ([level, upright].some((group) => findOdd(group).length > 0)) return null;
  const apart = compareSpans(level, upright);
  return disagree(apart) ? apart : null;
}

function tellWays(spans: readonly PlacedSpan[], { difference }: Apart): Warning {
  const named = (group: readonly PlacedSpan[]): string =>
    `span${group.length > 1 ? 's' : ''} ${inWords(group.map(({ number }) => number))}`;
  const message = `${named(spans.filter(across))} across and ${named(spans.filter(down))} down disagree by ${inPercent(difference)}: are they in the same plane, or is the photo slanted or stretched?`;
  return { code: 'spans-disagree', message };
}

function tellTwo(spans: readonly PlacedSpan[], difference: number): Warning {
  const message = `spans ${inWords(spans.map(({ number }) => number))} disagree by ${inPercent(either(difference))}: one of them is wrong, or they are not in the same plane; mark a third to tell which`;
  return { code: 'spans-disagree', message };
}

function tellOne({ span, apart }: OddSpan): Warning {
  const message = `span ${span.number} disagrees by ${inPercent(apart.difference)} with the others and is left out: is it in the same plane?`;
  return { code: 'spans-disagree', message };
}

function tellSeveral(odd: readonly OddSpan[]): Warning {
  const each = odd.map(
    ({ span, apart }) => `span ${span.number} by ${inPercent(apart.difference)}`,
  );
  const message = `the spans disagree with one another, ${each.join(', ')}: are they in the same plane, and is the photo square on?`;
  return { code: 'spans-disagree', message };
}

function inWords(numbers: readonly number[]): string {
  const last = numbers.at(-1) ?? '';
  return numbers.length < 2 ? `${last}` : `${numbers.slice(0, -1).join(', ')} and ${last}`;
}
