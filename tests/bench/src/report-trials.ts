import { printReliability } from './print-reliability.js';
import { type FoundAnswer, isOctave, isRight, type Trial } from './try-picture.js';

const percent = (share: number, digits = 3): string => `${(100 * share).toFixed(digits)} %`;

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}

const spreadOf = (values: readonly number[], show: (value: number) => string): string =>
  `median ${show(quantile(values, 0.5))}, 95th percentile ${show(quantile(values, 0.95))}, ` +
  `largest ${show(quantile(values, 1))}`;

/**
 * Print what was made of each picture, one line each.
 *
 * @param trials - In the order they were drawn.
 */
export function listTrials(trials: readonly Trial[]): void {
  for (const { index, name, found } of trials) {
    const got =
      found === null
        ? 'refused'
        : `across ${percent(found.across)} along ${percent(found.along)} spread ${percent(found.spread)} ` +
          `turn ${found.turn.toFixed(3)} confidence ${found.confidence.toFixed(3)} ` +
          `claims ${percent(found.uncertainty)} bond ${found.bond ?? '-'}`;
    console.log(`    ${index} ${name}: ${got}`);
  }
}

/**
 * Print how well a set of pictures was measured: scale, spread, turn, refusals, confidence, bonds.
 *
 * @param title - What the set is.
 * @param trials - All of it, those without courses too.
 */
export function reportTrials(title: string, trials: readonly Trial[]): void {
  console.log(`\n${title}`);
  const coursed = trials.filter(({ truth }) => truth.coursePx !== null);
  const bare = trials.filter(({ truth }) => truth.coursePx === null);
  if (coursed.length > 0) reportCoursed(coursed);
  if (bare.length > 0) reportBare(bare);
  printReliability(
    trials.flatMap((trial) =>
      trial.found === null ? [] : [{ confidence: trial.found.confidence, right: isRight(trial) }],
    ),
  );
}

function reportBare(bare: readonly Trial[]): void {
  const accepted = bare.filter(({ found }) => found !== null);
  console.log(
    `  without courses ${bare.length}, accepted ${accepted.length} (${percent(accepted.length / bare.length, 1)})`,
  );
  for (const { index, name, found } of accepted) {
    console.log(
      `    accepted ${index} ${name}: ${found?.coursePx.toFixed(2) ?? ''} px, confidence ${found?.confidence.toFixed(2) ?? ''}`,
    );
  }
}

function reportCoursed(coursed: readonly Trial[]): void {
  const answers = coursed.flatMap(({ found }) => (found === null ? [] : [found]));
  const octaves = coursed.filter(isOctave).length;
  const right = coursed.filter(isRight).length;
  const refused = coursed.length - answers.length;
  const size = (pick: (answer: FoundAnswer) => number): number[] =>
    answers.map((answer) => Math.abs(pick(answer)));
  console.log(
    `  coursed ${coursed.length}, refused ${refused} (${percent(refused / coursed.length, 1)}), ` +
      `within 1 % ${right} (${percent(right / coursed.length, 1)}), octave errors ${octaves}`,
  );
  console.log(
    `  scale, across courses   ${spreadOf(
      size((a) => a.across),
      percent,
    )}`,
  );
  console.log(
    `  scale, along courses    ${spreadOf(
      size((a) => a.along),
      percent,
    )}`,
  );
  console.log(
    `  scale, of areas (root)  ${spreadOf(
      size((a) => a.area),
      percent,
    )}`,
  );
  console.log(
    `  spread over the picture ${spreadOf(
      size((a) => a.spread),
      percent,
    )}`,
  );
  const degrees = (turn: number): string => `${turn.toFixed(3)} deg`;
  console.log(
    `  rotation left over      ${spreadOf(
      size((a) => a.turn),
      degrees,
    )}`,
  );
  const within = (answer: FoundAnswer, error: number): boolean =>
    Math.abs(error) <= answer.uncertainty;
  const held = answers.filter((answer) => within(answer, answer.across)).length;
  const both = answers.filter((answer) => within(answer, answer.along)).length;
  const claimed = quantile(
    answers.map(({ uncertainty }) => uncertainty),
    0.5,
  );
  console.log(
    `  inside the expanded uncertainty: across ${percent(held / answers.length, 1)}, along ` +
      `${percent(both / answers.length, 1)}; it claims ${percent(claimed)} (median)`,
  );
  reportBonds(coursed);
  reportFormats(coursed);
  const times = coursed.map(({ ms }) => ms);
  console.log(`  time                    ${spreadOf(times, (ms) => `${ms.toFixed(0)} ms`)}`);
  listWorst(coursed);
  listOutliers(coursed);
}

// Header bond and stretcher bond of short bricks have the same joints.
const sameJoints = (bond: string | null): string | null => (bond === 'header' ? 'stretcher' : bond);

function reportBonds(coursed: readonly Trial[]): void {
  const walls = coursed.filter(({ truth, found }) => truth.bond !== null && found !== null);
  if (walls.length === 0) return;
  const named = walls.filter(({ found }) => found?.bond != null);
  const right = named.filter(
    ({ truth, found }) => sameJoints(found?.bond ?? null) === sameJoints(truth.bond),
  );
  const exactly = named.filter(({ truth, found }) => found?.bond === truth.bond);
  const bricks = walls.flatMap(({ found }) => (found?.brick == null ? [] : [found.brick]));
  console.log(
    `  bond named on ${named.length} of ${walls.length}, rightly ${right.length} ` +
      `(${percent(right.length / named.length, 1)} of named, ${percent(right.length / walls.length, 1)} of all), ${exactly.length} where headers are told from short stretchers; ` +
      `brick found ${bricks.length}, within 2 % ${bricks.filter((error) => Math.abs(error) <= 0.02).length}`,
  );
}

function reportFormats(coursed: readonly Trial[]): void {
  const walls = coursed.filter(({ truth, found }) => truth.format !== null && found !== null);
  if (walls.length === 0) return;
  const hit = walls.filter(({ truth, found }) => found?.formats.includes(truth.format ?? ''));
  const alone = hit.filter(({ found }) => found?.formats.length === 1).length;
  const silent = walls.filter(({ found }) => found?.formats.length === 0).length;
  console.log(
    `  format named rightly ${alone}, in an honest tie ${hit.length - alone}, not named ${silent}, ` +
      `wrongly ${walls.length - hit.length - silent} (right or tied ${percent(hit.length / walls.length, 1)} of all)`,
  );
}

const mostListed = 40;

// Right in the middle, and yet off at the rim or along: by what, and which.
function listOutliers(coursed: readonly Trial[]): void {
  const by = { along: 0.01, spread: 0.02, turn: 0.15 } as const;
  for (const what of ['along', 'spread', 'turn'] as const) {
    const worst = coursed
      .filter((trial) => isRight(trial) && Math.abs(trial.found?.[what] ?? 0) > by[what])
      .sort((a, b) => Math.abs(b.found?.[what] ?? 0) - Math.abs(a.found?.[what] ?? 0));
    if (worst.length === 0) continue;
    const shown = worst.slice(0, 8).map(({ index, found }) => {
      const value = found?.[what] ?? 0;
      return `${index} (${what === 'turn' ? `${value.toFixed(2)} deg` : percent(value, 1)})`;
    });
    console.log(
      `    right, but worst ${what}: ${shown.join(', ')}${worst.length > 8 ? ', …' : ''}`,
    );
  }
}

function listWorst(coursed: readonly Trial[]): void {
  const off = (trial: Trial): number => (trial.found ? Math.abs(trial.found.across) : Infinity);
  const worst = coursed.filter((trial) => !isRight(trial)).sort((a, b) => off(b) - off(a));
  for (const { index, name, found, truth } of worst.slice(0, mostListed)) {
    const got =
      found === null
        ? 'refused'
        : `${(found.across * 100).toFixed(2)} % off (${found.coursePx.toFixed(2)} px), confidence ${found.confidence.toFixed(2)}`;
    console.log(`    ${index} ${name}: true ${truth.coursePx?.toFixed(2) ?? ''} px, ${got}`);
  }
  if (worst.length > mostListed) console.log(`    and ${worst.length - mostListed} more`);
}
