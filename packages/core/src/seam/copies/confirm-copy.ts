import type { Detail } from './sample-detail.js';

/** Shifted along, or turned round. */
export type Fold = 'shift' | 'mirror';

/** How much detail is alike where a picture is laid on itself. */
export interface LaidOnItself {
  /** The shift, or the sum of the two places that lie on each other, in samples. */
  readonly at: number;
  /** -1 to 1: correlation of what comes to lie on each other. */
  readonly alike: number;
}

/**
 * Lay a picture's detail on itself, at the part of a sample that suits it best.
 *
 * @param detail - Lines of the picture.
 * @param kind - How it is laid.
 * @param near - About where, in samples.
 * @returns Where exactly, and how well it lies.
 */
export function confirmCopy(detail: Detail, kind: Fold, near: number): LaidOnItself {
  let best = { at: near, alike: -1 };
  for (const [step, reach] of [
    [0.25, 4],
    [0.05, 4],
  ] as const) {
    const { at: middle } = best;
    for (let k = -reach; k <= reach; k++) {
      const at = middle + k * step;
      const alike = correlate(detail, kind, at);
      if (alike > best.alike) best = { at, alike };
    }
  }
  return best;
}

// Both sides are taken between samples, half of the part each, so that both are blurred alike.
function correlate({ count, length, samples }: Detail, kind: Fold, at: number): number {
  const whole = Math.round(at);
  const part = (at - whole) / 2;
  const side = part < 0 ? -1 : 1;
  const share = Math.abs(part);
  const turn = kind === 'mirror' ? -1 : 1;
  const [first, last] =
    kind === 'mirror'
      ? [Math.max(1, whole - length + 2), Math.ceil(whole / 2) - 1]
      : [1, length - whole - 2];
  // Shifted apart by the part, the one goes back and the other on; in a mirror both go on.
  const back = kind === 'mirror' ? side : -side;
  let product = 0;
  let before = 0;
  let after = 0;
  for (let line = 0; line < count; line++) {
    const start = line * length;
    for (let i = first; i <= last; i++) {
      const p = start + i;
      const q = start + whole + turn * i;
      const a = samples[p]! + share * (samples[p + back]! - samples[p]!);
      const b = samples[q]! + share * (samples[q + side]! - samples[q]!);
      product += a * b;
      before += a * a;
      after += b * b;
    }
  }
  return product / Math.sqrt(before * after + 1e-20);
}
