import { spawn } from 'node:child_process';
import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { createRandom, type Random, seedOf } from '@gaugerod/fixtures';
import type { Victim } from './victims.js';

/** How often a command is struck, and with what. */
export interface StrikeOptions {
  /** Strikes in all. */
  readonly times: number;
  /** Any integer: the same one chooses the same moments, counted from the beginning. */
  readonly seed: number;
  /** What ends the command. */
  readonly signal: 'SIGKILL' | 'SIGINT' | 'SIGTERM';
}

/** What came of it. */
export interface StrikeReport {
  /** Strikes that came while the command ran. */
  readonly struck: number;
  /** Those that left a file that was being written. */
  readonly midway: number;
  /** Those after which files were as before. */
  readonly old: number;
  /** Those after which they were as they should become. */
  readonly whole: number;
  /** Those after which some were old and some new. */
  readonly mixed: number;
  /** What should not be, with the strike it was met at. */
  readonly faults: readonly string[];
}

type Files = ReadonlyMap<string, Buffer>;

const bin = fileURLToPath(new URL('../../../../packages/cli/bin/gaugerod.js', import.meta.url));
// As it was built, from sources too.
const stopAt = new URL('../../dist/kills/stop-at.js', import.meta.url).href;
// A lock, too: whoever is ended at work has it in hand.
const unfinished = /(^|[\\/])\.gaugerod(?:-[^\\/]*\.tmp|\.lock[^\\/]*)$/;
// What is kept to be quicker: whether it is of use, the next build shows.
const isKept = (name: string): boolean => /^\.gaugerod[\\/]/.test(name);
const codes = { SIGKILL: 137, SIGINT: 130, SIGTERM: 143 } as const;

/**
 * End a command at moments that chance chooses, and look each time at what it left.
 *
 * @param victim - Which.
 * @param options - How often, and with what.
 * @returns What came of it.
 */
export async function strike(victim: Victim, options: StrikeOptions): Promise<StrikeReport> {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-kills-'));
  try {
    return await strikeIn(folder, victim, options);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function strikeIn(
  folder: string,
  victim: Victim,
  { times, seed, signal }: StrikeOptions,
): Promise<StrikeReport> {
  const { make, before, words } = victim;
  await make(folder);
  const bare = look(folder);
  for (const line of before.lines) await runWhole(line, folder);
  before.change?.(folder);
  const old = look(folder);
  let usual = await usualOf(words, folder);
  const whole = look(folder);
  const faults: string[] = [];
  const count = { struck: 0, midway: 0, old: 0, whole: 0, mixed: 0 };
  // A build is gone on with each time: what it kept must be of use.
  const isKeeping = [...whole.keys()].some(isKept);
  for (let index = 0; index < times; index++) {
    // A third of them where nothing lies yet.
    const start = index % 3 === 2 ? bareOf(bare, old, before.change !== undefined) : old;
    restore(folder, start);
    const moment = momentOf(createRandom(seedOf(seed, index)), usual, signal);
    const ended = await run(words, folder, moment);
    const left = look(folder);
    const begun = [...left.keys()].filter((name) => unfinished.test(name));
    const end = endOf(left, start, whole);
    const found = [
      ...faultsOf(ended, begun, signal),
      ...faultsIn(left, start, whole),
      ...(end === 'mixed' ? faultsOfMixture(victim, signal) : []),
    ];
    if (ended.code !== 0) count.struck++;
    if (begun.length > 0) count.midway++;
    count[end]++;
    const isToClear = begun.length > 0 && !(victim.isOnce === true && end === 'whole');
    if (isToClear || isKeeping) {
      const since = performance.now();
      found.push(...faultsAgain(await run(words, folder, null), look(folder), whole));
      usual = { ...usual, ms: performance.now() - since };
    }
    faults.push(...found.map((what) => `strike ${index}: ${what}`));
  }
  return { ...count, faults };
}

function faultsOf(
  { code, said, isAlive }: Ended,
  begun: readonly string[],
  signal: StrikeOptions['signal'],
): readonly string[] {
  const isMeant = code === 0 || code === codes[signal];
  return [
    ...(isMeant ? [] : [`exit ${code}: ${said}`]),
    ...(isAlive ? ['a process it had begun lives on'] : []),
    ...(signal === 'SIGKILL' ? [] : begun.map((name) => `left ${name}`)),
  ];
}

// Who is killed has no say in it.
function faultsOfMixture({ isApart }: Victim, signal: StrikeOptions['signal']): readonly string[] {
  return isApart === true || signal === 'SIGKILL' ? [] : ['some files are old, some new'];
}

function endOf(left: Files, start: Files, whole: Files): 'whole' | 'old' | 'mixed' {
  if (isSame(left, whole)) return 'whole';
  return isSame(left, start) ? 'old' : 'mixed';
}

// What was left must not stand in the way of the next run, which clears it away.
function faultsAgain({ code, said }: Ended, after: Files, whole: Files): readonly string[] {
  const still = [...after.keys()].filter((name) => unfinished.test(name));
  return [
    ...(code === 0 ? [] : [`the next run failed: ${said}`]),
    ...(isSame(after, whole) ? [] : ['the next run gave something else']),
    ...still.map((name) => `the next run left ${name}`),
  ];
}

// What is changed for the struck run is changed there, too.
function bareOf(bare: Files, old: Files, isChanged: boolean): Files {
  return isChanged ? new Map([...old].filter(([name]) => bare.has(name))) : bare;
}

function faultsIn(left: Files, start: Files, whole: Files): readonly string[] {
  const lost = [...start.keys()].filter((name) => !left.has(name) && !isKept(name));
  const odd = [...left].filter(([name, bytes]) => {
    if (unfinished.test(name) || isKept(name)) return false;
    return ![start, whole].some((files) => files.get(name)?.equals(bytes) === true);
  });
  return [
    ...lost.map((name) => `lost ${name}`),
    ...odd.map(([name, { length }]) => `${name} is neither old nor new: ${length} bytes`),
  ];
}

const outputsOf = (files: Files): readonly (readonly [string, Buffer])[] =>
  [...files].filter(([name]) => !isKept(name) && !unfinished.test(name));

function isSame(files: Files, others: Files): boolean {
  const [own, other] = [outputsOf(files), outputsOf(others)];
  return (
    own.length === other.length && own.every(([name, bytes]) => others.get(name)?.equals(bytes))
  );
}

function look(folder: string): Files {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  const files = names.filter((name) => lstatSync(join(folder, name)).isFile());
  return new Map(files.toSorted().map((name) => [name, readFileSync(join(folder, name))]));
}

// Old times, so that what is written later is newer.
function restore(folder: string, files: Files): void {
  for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true });
  for (const [name, bytes] of files) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), bytes);
    utimesSync(join(folder, name), 1e9, 1e9);
  }
}

// At any time after the beginning, in milliseconds; or at a step of writing.
type Moment = { readonly signal: NodeJS.Signals } & (
  { readonly delay: number } | { readonly step: number }
);

// Half of them at any time, half while a file is written, which takes little of it.
function momentOf(random: Random, usual: Usual, signal: NodeJS.Signals): Moment {
  if (random.next() < 0.5) return { signal, delay: random.next() * usual.ms };
  return { signal, step: 1 + Math.floor(random.next() * usual.steps) };
}

interface Usual {
  readonly ms: number;
  readonly steps: number;
}

async function usualOf(words: readonly string[], folder: string): Promise<Usual> {
  const count = join(tmpdir(), `gaugerod-steps-${process.pid}`);
  const since = performance.now();
  const { code, said } = await run(words, folder, null, count);
  if (code !== 0) throw new Error(`gaugerod ${words.join(' ')} failed: ${said}`);
  const steps = Number(readFileSync(count, 'utf8'));
  rmSync(count);
  return { ms: performance.now() - since, steps };
}

async function runWhole(words: readonly string[], folder: string): Promise<void> {
  const { code, said } = await run(words, folder, null);
  if (code !== 0) throw new Error(`gaugerod ${words.join(' ')} failed: ${said}`);
}

interface Ended {
  readonly code: number;
  readonly said: string;
  readonly isAlive: boolean;
}

async function run(
  words: readonly string[],
  folder: string,
  moment: Moment | null,
  count?: string,
): Promise<Ended> {
  const isStepped = count !== undefined || (moment !== null && 'step' in moment);
  // A group of its own tells afterwards whether anything of it is left.
  const child = spawn(
    process.execPath,
    [...(isStepped ? ['--import', stopAt] : []), bin, ...words],
    {
      cwd: folder,
      detached: true,
      stdio: ['ignore', 'ignore', 'pipe'],
      env: {
        ...process.env,
        HOME: folder,
        XDG_CONFIG_HOME: join(folder, '.config'),
        ...(moment !== null && 'step' in moment && { KILL_AT: String(moment.step) }),
        ...(moment !== null && { KILL_SIGNAL: moment.signal }),
        ...(count !== undefined && { KILL_COUNT: count }),
      },
    },
  );
  let said = '';
  child.stderr.on('data', (text: Buffer) => (said = `${said}${text.toString()}`.slice(-500)));
  const over = new Promise<number>((resolve) => {
    child.on('close', (code, signal) => {
      resolve(code ?? codes[signal as keyof typeof codes]);
    });
  });
  if (moment !== null && 'delay' in moment) {
    await Promise.race([wait(moment.delay), over]);
    child.kill(moment.signal);
  }
  const code = await over;
  return { code, said, isAlive: isGroupAlive(child.pid ?? 0) };
}

function isGroupAlive(pid: number): boolean {
  try {
    process.kill(-pid, 0);
    return true;
  } catch {
    return false;
  }
}
