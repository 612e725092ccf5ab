import { joinOverlap, type JoinMethod } from './join-overlap.js';
import { createJudge, type JoinScore, type JudgeOptions } from './judge-join.js';
import type { Overlap } from './overlap.js';

/** One way to join the ends of a picture, and how well it does. */
export interface JudgedJoin extends JoinScore {
  /** Which. */
  readonly method: JoinMethod;
}

/** How two windows were joined. */
export interface ChosenJoin {
  /** What they became, colour by colour. */
  readonly joined: readonly Float32Array[];
  /** How, and what else was tried: the one taken first, the others from better to worse. */
  readonly tried: readonly JudgedJoin[];
}

/** What {@link chooseJoin} goes by. */
export interface JoinChoice extends JudgeOptions {
  /** Ways to try: one or more. */
  readonly methods: readonly JoinMethod[];
  /** Whether top meets bottom, so that the join must too. */
  readonly closed: boolean;
}

/**
 * Join two windows in the way that shows least.
 *
 * @param windows - The two.
 * @param choice - Ways to try.
 * @returns The join, and how each did.
 */
export function chooseJoin(windows: Overlap, choice: JoinChoice): ChosenJoin {
  const { methods, border, closed } = choice;
  const judge = createJudge(windows, choice);
  const made = methods.map((method) => {
    const joined = joinOverlap(windows, { method, border, closed });
    return { joined, judged: { method, ...judge(joined) } };
  });
  made.sort((one, other) => one.judged.score - other.judged.score);
  return { joined: made[0]!.joined, tried: made.map(({ judged }) => judged) };
}
