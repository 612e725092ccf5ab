import type {
  BuildEvent,
  Outcome,
  OwnReference,
  ToldSetting,
  Settings,
  Warning,
} from '@gaugerod/core';
import type { Core, Options, Texts } from '../options/option.js';

/** A line to type, and what it does. */
interface Example {
  /** After `gaugerod `. */
  readonly line: string;
  /** What it does, a few words. */
  readonly does: string;
}

/** What the help of a command says. */
export interface Words {
  /** What the positional argument is. */
  readonly argumentHelp: string;
  /** A paragraph under the usage line. */
  readonly description: string;
  /** Under the options: at least one. */
  readonly examples: readonly Example[];
  /** Under the examples, where the user should be warned of something. */
  readonly caution?: string;
}

/** What a command is given beside its own words. */
export interface Surroundings {
  /** The library. */
  readonly core: Core;
  /** What is set for all commands. */
  readonly settings: Settings;
  /** References of the user's own, for whatever measures. */
  readonly references: readonly OwnReference[];
  /** The same read anew: for work that never ends. */
  readonly readSettings: () => Promise<Settings>;
  /** Told of every step of long work. */
  readonly onProgress: (step: string) => void;
  /** Told of every part of a build. */
  readonly onBuild: (event: BuildEvent) => void;
  /** Does some of the work and prints what comes of it, whatever that is: for work of many pieces, or that never ends. */
  readonly show: (work: () => Promise<ShownOutcome>, photo?: string) => Promise<void>;
  /** Whether what is printed still reaches anybody. */
  readonly isRead: () => boolean;
}

/** What some of the work came to, in words. */
export type ShownOutcome =
  | Refusal
  | {
      /** Tells it from a refusal. */
      readonly ok: true;
      /** For programs. */
      readonly value: object;
      /** For people. */
      readonly lines: readonly string[];
      /** For both. */
      readonly warnings: readonly Warning[];
    };

/** Why nothing could be done. */
export type Refusal = Extract<
  Outcome<unknown, string>,
  {
    /** Tells it from a result. */
    readonly ok: false;
  }
>;

/** A result that is ready to print. */
export interface Report {
  /** Tells it from a refusal. */
  readonly ok: true;
  /** For people. */
  readonly lines: readonly string[];
  /** For programs; null where they were shown all of it. */
  readonly json: object | null;
  /** For both. */
  readonly warnings: readonly Warning[];
  /** Where something of what was shown failed. */
  readonly exit?: 1;
}

/** One command, ready to be shown and run. */
export interface Command extends Words {
  /** By the name the values go under, in the order the help shows them. */
  readonly options: Options;
  /** Which of them may be set for all commands, by what was typed; none where left out. */
  readonly usual?: (texts: Texts) => readonly ToldSetting[];
  /**
   * Read the options, call the job, put the result in words.
   *
   * @param given - The positional argument, and more where it takes several; none where it may be
   * left out.
   * @param texts - The options as typed.
   * @param surroundings - The library and what to tell the user with.
   * @returns What to print, or why nothing could be done.
   */
  readonly execute: (
    given: readonly string[],
    texts: Texts,
    surroundings: Surroundings,
  ) => Promise<Report | Refusal>;
}
