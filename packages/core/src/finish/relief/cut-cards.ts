import { type BoundedArea, faceLoops } from './face-loops.js';
import type { Figure, StandingArea, StandingStrip } from './profiles/profile.js';
import type { ReliefPlan } from './relief-plan.js';

/** A layer of card upon the whole of a piece. */
export interface CutCard {
  /** What it is, in words: `flanges and stiffeners`. */
  readonly name: string;
  /** How many cards lie one on another, so that it stands out as far as it should; the topmost is printed. */
  readonly cards: number;
  /** How many pieces it falls into. */
  readonly pieces: number;
  /** How many openings are cut out of them. */
  readonly openings: number;
  /** What its print covers, the plan's bleed included, mm of paper from the top left corner of what is drawn. */
  readonly area: BoundedArea;
}

// Something that a layer is cut for.
type Standing = Pick<StandingStrip, 'name' | 'level' | 'out'>;

/** A layer, before it is known where it is cut. */
export interface NamedCard extends Omit<CutCard, 'area' | 'pieces' | 'openings'> {
  /** Of those, which. */
  readonly level: number;
}

/**
 * Tell which layers of card a piece comes to.
 *
 * @param plan - The piece.
 * @returns From the back to the front; none where nothing stands out, or no layers are asked for.
 */
export function nameCards(plan: ReliefPlan): readonly NamedCard[] {
  const { card } = plan;
  if (card === null) return [];
  const standing = listStanding(plan);
  const levels = [...new Set(standing.map(({ level }) => level))].sort((a, b) => a - b);
  let under = 0;
  return levels.map((level) => {
    const here = standing.filter((one) => one.level === level);
    const out = Math.max(...here.map((one) => one.out));
    const cards = Math.max(1, Math.round(out / card) - under);
    under += cards;
    return { level, name: [...new Set(here.map(({ name }) => name))].join(' and '), cards };
  });
}

/**
 * List what stands out of a figure: all of it does where something round it is shown.
 *
 * @param figure - What is seen of the piece.
 * @param plan - The piece.
 * @returns From the back to the front.
 */
export function listShown(figure: Figure, plan: ReliefPlan): readonly StandingArea[] {
  return figure.stands.filter(({ isWhole }) => !isWhole || plan.around > 0);
}

// Each kind of it, whatever its outline.
function listStanding(plan: ReliefPlan): readonly Standing[] {
  const { profile, stiffeners, splices } = plan;
  const figure = profile.figure?.(plan);
  if (figure !== undefined) {
    let out = 0;
    return listShown(figure, plan).map((area, i) => {
      out += area.out;
      return { name: area.name, level: i + 1, out };
    });
  }
  const { stands = [] } = profile.shape(plan.sizes);
  const top = topLevel(stands);
  return [
    ...stands,
    ...(splices === null ? [] : [{ name: 'splices', level: 1, out: 0 }]),
    ...(stiffeners === null ? [] : [{ name: 'stiffeners', level: top, out: 0 }]),
  ];
}

/**
 * Tell which of what lies one over another lies foremost: stiffeners reach as far.
 *
 * @param stands - What stands out of a section.
 * @returns Its level, 1 or more.
 */
export function topLevel(stands: readonly { readonly level: number }[]): number {
  return Math.max(1, ...stands.map(({ level }) => level));
}

/**
 * Say what a layer is cut to.
 *
 * @param named - The layer.
 * @param area - What bounds it.
 * @returns Both, and how many pieces that is.
 */
export function toCard(named: NamedCard, area: BoundedArea): CutCard {
  const { name, cards } = named;
  const holes = faceLoops(area).filter(({ isHole }) => isHole).length;
  return { name, cards, pieces: faceLoops(area).length - holes, openings: holes, area };
}
