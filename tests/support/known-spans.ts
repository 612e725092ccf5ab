import { type KnownSpan, type MeasuredSpans, measureSpans, realMm } from '@gaugerod/core';

export const size = { width: 4000, height: 3000 };

// A level line of 1000 px, and what it is in reality.
export function across(mm: number, uncertainty: number, y = 1500): KnownSpan {
  return {
    from: { x: 1500, y },
    to: { x: 2500, y },
    length: realMm(mm),
    markUncertainty: 0,
    lengthUncertainty: uncertainty / mm,
  };
}

export const down = (mm: number, x = 2000): KnownSpan => ({
  from: { x, y: 1000 },
  to: { x, y: 2000 },
  length: realMm(mm),
});

interface Measured {
  readonly value: MeasuredSpans;
  readonly messages: readonly string[];
  readonly codes: readonly string[];
}

export function measured(
  ...[spans, options]: readonly [KnownSpan[], { slant?: number }?]
): Measured {
  const outcome = measureSpans(size, spans, options);
  if (!outcome.ok) throw new Error(outcome.message);
  const { value, warnings } = outcome;
  return {
    value,
    messages: warnings.map(({ message }) => message),
    codes: warnings.map(({ code }) => code),
  };
}
