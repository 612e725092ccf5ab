import type { BuildEvent } from '@gaugerod/core';

/** Where a build is followed. */
export interface BuildBoard {
  /** Show what a surface, part or sheet is busy with. */
  readonly tell: (event: BuildEvent) => void;
  /** Wipe what is shown of the work at hand. */
  readonly clear: () => void;
}

/** What a board is shown on. */
export interface BoardOptions {
  /** Usually standard error. */
  readonly stream: NodeJS.WriteStream;
  /** Whether the user, or whoever runs tests unattended, wants none of it. */
  readonly quiet: boolean;
  /** Tells the time, ms. */
  readonly clock: () => number;
}

const ends = ['done', 'kept', 'failed'];
const nothing: BuildBoard = { tell: () => undefined, clear: () => undefined };

/**
 * Follow a build: on a terminal a line for each thing at work, with what it is busy with and for how long;
 * in a pipe a plain line for each that is done.
 *
 * @param options - Where.
 * @returns What to tell of it.
 */
export async function buildBoard(options: BoardOptions): Promise<BuildBoard> {
  const { stream, quiet, clock } = options;
  if (quiet) return nothing;
  return stream.isTTY ? liveBoard(options) : plainBoard(stream, clock);
}

interface Work {
  readonly label: string;
  readonly since: number;
  step: string;
}

function labelOf({ name, kind, scale }: BuildEvent): string {
  const what = kind === 'surface' || kind === 'report' ? `${kind} ` : '';
  return scale === null ? `${what}${name}` : `${what}${name}, ${scale}`;
}

function follow(atWork: Map<string, Work>, event: BuildEvent, now: number): Work {
  const label = labelOf(event);
  const work = atWork.get(label) ?? { label, since: now, step: event.step };
  work.step = event.step;
  if (ends.includes(event.step)) atWork.delete(label);
  else atWork.set(label, work);
  return work;
}

function lineOf({ label, since, step }: Work, now: number): string {
  return `${label}: ${step}, ${((now - since) / 1000).toFixed(1)} s`;
}

function plainBoard(stream: NodeJS.WriteStream, clock: () => number): BuildBoard {
  const atWork = new Map<string, Work>();
  return {
    tell: (event) => {
      const work = follow(atWork, event, clock());
      if (event.step === 'done') stream.write(`${lineOf(work, clock())}\n`);
    },
    clear: () => undefined,
  };
}

// What writes over lines of a terminal is loaded where there is one.
async function liveBoard({ stream, clock }: BoardOptions): Promise<BuildBoard> {
  const { createLogUpdate } = await import('log-update');
  const lines = createLogUpdate(stream);
  const atWork = new Map<string, Work>();
  const show = (): void => {
    lines([...atWork.values()].map((work) => `${lineOf(work, clock())} ...`).join('\n'));
  };
  let timer: NodeJS.Timeout | undefined;
  return {
    tell: (event) => {
      const work = follow(atWork, event, clock());
      timer ??= setInterval(show, 250).unref();
      if (event.step === 'done') lines.persist(lineOf(work, clock()));
      show();
    },
    clear: () => {
      clearInterval(timer);
      timer = undefined;
      lines.clear();
    },
  };
}
