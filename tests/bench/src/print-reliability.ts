/** An answer, and whether it was right. */
export interface SureAnswer {
  /** As stated, 0 to 1. */
  readonly confidence: number;
  /** Within 1 % of the truth. */
  readonly right: boolean;
}

const bounds = [0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 0.99, 1.0001] as const;
const barLength = 40;

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

/**
 * Print a reliability diagram: how sure answers were, and how often they were right. A bar is the
 * share that was right; `|` marks the confidence that was stated, where the bar should end.
 *
 * @param answers - Those that were given, wrong ones on pictures without courses too.
 * @see Brier (1950), Verification of forecasts expressed in terms of probability: the mean square
 * of stated less happened. Expected calibration error: the mean of |stated - happened| over bins.
 */
export function printReliability(answers: readonly SureAnswer[]): void {
  if (answers.length === 0) return;
  console.log('  confidence       answers  stated  right');
  let gap = 0;
  for (let i = 0; i + 1 < bounds.length; i++) {
    const [from, to] = [bounds[i] ?? 0, bounds[i + 1] ?? 1];
    const some = answers.filter(({ confidence }) => confidence >= from && confidence < to);
    if (some.length === 0) continue;
    const stated = mean(some.map(({ confidence }) => confidence));
    const right = mean(some.map((answer) => (answer.right ? 1 : 0)));
    gap += (Math.abs(stated - right) * some.length) / answers.length;
    const range = `${from.toFixed(2)} to ${Math.min(1, to).toFixed(2)}`;
    console.log(
      `  ${range}  ${String(some.length).padStart(10)}   ${stated.toFixed(3)}  ${right.toFixed(3)}  ${drawBar(right, stated)}`,
    );
  }
  const brier = mean(answers.map(({ confidence, right }) => (confidence - (right ? 1 : 0)) ** 2));
  const sure = answers.filter(({ confidence }) => confidence >= 0.9);
  const sureRight = sure.filter(({ right }) => right).length;
  console.log(
    `  of ${sure.length} answers given at 0.9 or more, right ${sureRight} ` +
      `(${((100 * sureRight) / Math.max(1, sure.length)).toFixed(1)} %); ` +
      `Brier score ${brier.toFixed(4)}, expected calibration error ${gap.toFixed(4)}`,
  );
}

function drawBar(right: number, stated: number): string {
  const at = Math.min(barLength - 1, Math.round(stated * barLength));
  const bar = '='.repeat(Math.round(right * barLength)).padEnd(barLength);
  return `${bar.slice(0, at)}|${bar.slice(at + 1)}`;
}
