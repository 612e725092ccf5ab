import { fork } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ChildWord } from './child.js';
import { type Fault, limits } from './try-case.js';

/** How long a reader is tried, and with what. */
export interface FuzzOptions {
  /** Any integer: the same one makes the same cases. */
  readonly seed: number;
  /** In all. */
  readonly minutes: number;
  /** The first case. */
  readonly from: number;
}

/** A case that failed. */
export interface FoundFault {
  /** Which. */
  readonly index: number;
  /** In which way. */
  readonly fault: Fault;
  /** As small as it could be made, or null where it never came back. */
  readonly bytes: Buffer | null;
}

/** What came of it. */
export interface FuzzReport {
  /** Cases tried. */
  readonly cases: number;
  /** How long that took. */
  readonly seconds: number;
  /** What failed: each kind once, or once more after a process ended. */
  readonly faults: readonly FoundFault[];
  /** Held at the end. */
  readonly mebibytes: number;
}

interface Round {
  readonly faults: readonly FoundFault[];
  readonly next: number;
  readonly mebibytes: number;
}

const child = fileURLToPath(new URL('child.js', import.meta.url));

/**
 * Try a reader in processes of their own, which may hang or end without harm.
 *
 * @param name - Which of them.
 * @param options - How long, and with what.
 * @returns What came of it.
 */
export async function fuzzReader(name: string, options: FuzzOptions): Promise<FuzzReport> {
  const begun = performance.now();
  const elapsed = (): number => (performance.now() - begun) / 1000;
  const faults: FoundFault[] = [];
  let [next, mebibytes] = [options.from, 0];
  for (let left = options.minutes; left > 0.01; left = options.minutes - elapsed() / 60) {
    const round = await runChild([name, options.seed, next, left].map(String));
    faults.push(...round.faults);
    // Not even its seeds could be made.
    if (round.faults.some(({ index }) => index < 0)) break;
    ({ next, mebibytes } = round);
  }
  return { cases: next - options.from, seconds: elapsed(), faults, mebibytes };
}

async function runChild(words: readonly string[]): Promise<Round> {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-fuzz-'));
  const place = openSync(join(folder, 'place'), 'w+');
  const options = {
    stdio: ['ignore', 'ignore', 'pipe', place, 'ipc'],
    env: { ...process.env, TMPDIR: folder },
  } as const;
  const running = fork(child, words, { ...options, stdio: [...options.stdio] });
  const faults: FoundFault[] = [];
  const ends: Omit<Round, 'faults'>[] = [];
  let said = '';
  const hangs: number[] = [];
  running.stderr?.on('data', (text: Buffer) => (said = `${said}${text.toString()}`.slice(-2000)));
  running.on('message', (word: ChildWord) => {
    if (word.kind === 'done') ends.push(word);
    else faults.push({ ...word, bytes: Buffer.from(word.bytes, 'base64') });
  });
  let [last, since] = [-1, performance.now()];
  const watch = setInterval(() => {
    const index = indexAt(place);
    if (index !== last) [last, since] = [index, performance.now()];
    // Six times as long: what comes back late tells of it itself. The first one waits for seeds to be drawn.
    else if (performance.now() - since > 6000 * limits.seconds + (index < 0 ? 60_000 : 0)) {
      hangs.push(index);
      running.kill('SIGKILL');
    }
  }, 500);
  const code = await new Promise<number | null>((resolve) => running.on('exit', resolve));
  clearInterval(watch);
  const index = Math.floor(indexAt(place));
  closeSync(place);
  rmSync(folder, { recursive: true, force: true });
  const [end] = ends;
  if (end !== undefined) return { faults, next: end.next, mebibytes: end.mebibytes };
  const hung = hangs.length > 0;
  const what = hung ? 'did not come back' : `ended the process (${code ?? 'by a signal'}): ${said}`;
  const fault = { kind: hung ? 'slow' : 'ended', what };
  return { faults: [...faults, { index, fault, bytes: null }], next: index + 1, mebibytes: 0 };
}

function indexAt(place: number): number {
  const bytes = Buffer.alloc(8);
  return readSync(place, bytes, 0, 8, 0) === 8 ? bytes.readDoubleLE() : -1;
}
