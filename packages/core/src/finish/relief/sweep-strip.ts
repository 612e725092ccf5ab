import type { ReliefShape } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Bend, type BendPlace, placesOf } from './bend.js';
import type { Light } from './light-side.js';
import type { LitStrip, ReliefStrip } from './relief-strip.js';
import { unseen } from './pens.js';
import { shadePieces, type Station } from './shade-pieces.js';

// What changes from top to foot is drawn in steps of about a dot.
const step = 0.05;
const mostSteps = 8;

/**
 * Find where something that lies on a bent piece is on the page.
 *
 * @param place - Along the bend.
 * @param below - How far it lies below the section's top.
 * @param depth - Of the section: its middle lies on the bend.
 * @returns The point.
 */
export function onBend(place: BendPlace, below: number, depth: number): PerAxis<number> {
  const { x, y, down } = place;
  const off = below - depth / 2;
  return { x: x + off * down.x, y: y + off * down.y };
}

/** A bent piece, as far as what lies along it asks. */
interface BentPiece {
  readonly bend: Bend;
  readonly depth: number;
}

/**
 * Draw a strip of a bent piece: every bit of it lit as it lies.
 *
 * @param strip - What to draw.
 * @param piece - What it is bent along, and how deep it is.
 * @param light - Towards the light.
 * @returns A shape, or none where nothing is seen of it.
 */
export function sweepStrip(strip: ReliefStrip, piece: BentPiece, light: Light): ReliefShape[] {
  const { bend, depth } = piece;
  const places = placesOf(bend, strip);
  const seen = places.map((place) => strip.lit(asItLies(light, place)));
  const height = Math.max(...seen.map(({ y0, y1 }) => y1 - y0));
  if (!(height > 0)) return [];
  const isEven = seen.every(({ top, foot }) => Math.abs(top - foot) < unseen);
  const count = isEven ? 1 : Math.min(mostSteps, Math.max(2, Math.ceil(height / step)));
  const pieces = Array.from({ length: count }, (_, i) => {
    const [from, middle, to] = [i / count, (i + 0.5) / count, (i + 1) / count];
    const stations = places.map((place, k): Station => {
      const lit = seen[k] ?? nothing;
      const { x, y } = onBend(place, heightAt(lit, middle), depth);
      return {
        above: onBend(place, heightAt(lit, from), depth),
        below: onBend(place, heightAt(lit, to), depth),
        at: x * light.x + y * light.y,
        shade: lit.top + middle * (lit.foot - lit.top),
      };
    });
    return shadePieces(stations, light);
  }).flat();
  const shown = pieces.filter(({ stops }) => stops.some(({ shade }) => Math.abs(shade) >= unseen));
  const face = strip.isFace === true && { isFace: true };
  return shown.length === 0 ? [] : [{ kind: 'shape', ...face, pieces: shown, clip: null }];
}

const nothing: LitStrip = { y0: 0, y1: 0, top: 0, foot: 0 };

function heightAt({ y0, y1 }: LitStrip, share: number): number {
  return y0 + share * (y1 - y0);
}

function asItLies(light: Light, { down }: BendPlace): Light {
  return {
    fall: light.fall,
    x: light.x * down.y - light.y * down.x,
    y: light.x * down.x + light.y * down.y,
  };
}
