import { outOfRange } from '../../errors/out-of-range.js';
import type { Profile, ProfileId } from '../../finish/relief/profiles/profile.js';
import type { ReliefPlan } from '../../finish/relief/relief-plan.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { OutlineSource } from '../fill/read-outline.js';
import type { MakeReliefOptions } from './relief-options.js';

// Cut to shape they cast no shadow on anything that is printed.
const needsGround: readonly ProfileId[] = ['panel', 'frame', 'quoins'];
const mostPanes = 40;
const mostAround = 100;

/**
 * Settle what only boards, panels, doors and frames have.
 *
 * @param options - As the caller gave them.
 * @param profile - What the piece is.
 * @param onPaper - From real mm to mm of paper.
 * @returns The same, on paper.
 * @throws RangeError where the piece has no use for it.
 */
export function planFigure(
  options: MakeReliefOptions,
  profile: Profile,
  onPaper: (mm: number) => number,
): Pick<ReliefPlan, 'boardLength' | 'isUpright' | 'panes' | 'isSunk' | 'around'> {
  const { boardLength, isUpright = false, panes, isSunk = false, around = 0 } = options;
  const { id, name, figure } = profile;
  if (isSunk && id !== 'panel' && id !== 'door')
    throw outOfRange('a panel or a door', 'sunk', name);
  checkUpright(options, profile);
  if (panes !== undefined) checkPanes(panes, profile);
  checkAround(around, profile);
  if (figure !== undefined) refuseAsFigure(options, name);
  checkRise(options, profile);
  return {
    boardLength: boardLength === undefined ? null : onPaper(boardLength),
    isUpright,
    panes: panes ?? { x: id === 'frame' ? 2 : 1, y: 2 },
    isSunk,
    around,
  };
}

function checkUpright(
  { isUpright = false, along }: MakeReliefOptions,
  { id, name }: Profile,
): void {
  if (!isUpright) return;
  if (id !== 'planks') throw outOfRange('a row of planks', 'upright', name);
  if (along !== undefined)
    throw outOfRange('no path beside boards that stand,', 'along', along.path);
}

function checkRise({ rise, around = 0, isSunk = false }: MakeReliefOptions, { id }: Profile): void {
  if (rise === undefined || around > 0 || isSunk || !needsGround.includes(id)) return;
  const wanted = 'some of what is round it shown (around), on which its shadow falls,';
  throw outOfRange(wanted, 'rise', `${rise} mm`);
}

function checkAround(around: number, { name, figure }: Profile): void {
  if (around !== 0 && figure === undefined) {
    throw outOfRange('a panel, door, frame or quoins', 'around', name);
  }
  if (around >= 0 && around <= mostAround) return;
  throw outOfRange(`0 to ${mostAround} mm of paper`, 'around', `${around} mm`);
}

function checkPanes({ x, y }: PerAxis<number>, { id, name }: Profile): void {
  if (id !== 'door' && id !== 'frame') throw outOfRange('a door or a frame', 'panes', name);
  const isWhole = [x, y].every((n) => Number.isInteger(n) && n >= 1 && n <= mostPanes);
  if (!isWhole) throw outOfRange(`1 to ${mostPanes} each way`, 'panes', `${x}x${y}`);
}

function refuseAsFigure(options: MakeReliefOptions, name: string): void {
  const { rivets, stiffeners, splices, covers, along, boardLength } = options;
  const extra = Object.entries({ rivets, stiffeners, splices, covers, boardLength, along }).find(
    ([, value]) => value !== undefined,
  );
  if (extra !== undefined) throw outOfRange(`none on a ${name}`, extra[0], asTold(extra[1]));
}

function asTold(value: number | readonly number[] | OutlineSource | undefined): string {
  if (typeof value === 'object' && 'path' in value) return value.path;
  return `${[value].flat().join(' mm, ')} mm`;
}
