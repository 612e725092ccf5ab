import { changeColours, drawStrip, learnPrinter, measureStrip } from '@gaugerod/core';
import {
  cameraKinds,
  decodePhoto,
  drawCamera,
  type DrawnCamera,
  drawPrinter,
  drawWorkColours,
  encodePhoto,
  judgePrint,
  nearestPrint,
  type PrintTaking,
  type Rgb,
  steepen,
  takePrint,
} from '@gaugerod/fixtures';

/** A printer, taken one way. */
interface Trial {
  readonly name: string;
  /** CIEDE2000 of each colour that it can print, as it is. */
  readonly before: readonly number[];
  /** The same by its profile. */
  readonly after: readonly number[];
}

const byCamera = (camera: DrawnCamera): Omit<PrintTaking, 'seed'> => ({ by: 'camera', camera });
const takings: readonly (readonly [
  name: string,
  taking: (seed: number) => Omit<PrintTaking, 'seed'>,
])[] = [
  ['scan', () => ({ by: 'scanner' })],
  ['photo', () => ({ by: 'camera' })],
  ['photo of a camera that adds contrast', () => byCamera({ curve: steepen(0.1) })],
  ...cameraKinds.map(
    (kind) =>
      [`photo, curve: ${kind}`, (seed: number) => byCamera(drawCamera(kind, seed))] as const,
  ),
];
// What a printer can print it comes as near to as nobody sees.
const reached = 0.5;

/**
 * Report how true drawn printers print colours of walls and steel that they can print, before and after they were
 * learnt from their test strips, scanned and photographed.
 *
 * @param words - How many printers, 8 unless told; and the seed to count from.
 */
export async function benchPrint(words: readonly string[]): Promise<void> {
  const count = Number(words[0] ?? 8);
  const first = Number(words[1] ?? 1);
  const strip = drawStrip();
  const trials: Trial[] = [];
  for (let seed = first; seed < first + count; seed++) {
    const printer = drawPrinter(seed);
    const colours = drawWorkColours(seed).filter(
      (colour) => nearestPrint(printer, colour) < reached,
    );
    const before = colours.map((colour) => judgePrint(printer, colour, colour));
    for (const [name, taking] of takings) {
      const file = await encodePhoto(takePrint(strip, printer, { ...taking(seed), seed }));
      const read = measureStrip(await decodePhoto(file));
      if (!read.ok) {
        console.log(`printer ${seed}, ${name}: ${read.message}`);
        continue;
      }
      const { table } = learnPrinter(read.value);
      const after = colours.map((colour) => {
        const sent = Float32Array.from(colour);
        changeColours(table, sent);
        // As bytes go to it.
        const [r = 0, g = 0, b = 0] = Array.from(sent, (level) => Math.round(255 * level) / 255);
        return judgePrint(printer, colour, [r, g, b] satisfies Rgb);
      });
      trials.push({ name, before, after });
      console.log(
        `printer ${seed}, ${name}: ${colours.length} colours, ${line({ name, before, after })}; curve ${read.value.curve.much.toFixed(1)} ± ${read.value.curve.unsure.toFixed(1)}`,
      );
    }
  }
  for (const [name] of takings) {
    const same = trials.filter((trial) => trial.name === name);
    const all = {
      name,
      before: same.flatMap(({ before }) => before),
      after: same.flatMap(({ after }) => after),
    };
    const worst = Math.max(...same.map(({ after }) => mean(after)));
    console.log(
      `${name}, ${same.length} printers: ${line(all)}, worst printer ${worst.toFixed(2)}`,
    );
  }
}

function line({ before, after }: Trial): string {
  const of = (values: readonly number[]): string =>
    `${mean(values).toFixed(2)} (95 % within ${within(values).toFixed(2)})`;
  return `off by ${of(before)}, with the profile ${of(after)}`;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function within(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(0.95 * values.length)] ?? NaN;
}
