import { CommanderError } from 'commander';
import type { Refusal } from '../commands/command.js';
import { UsageError } from './usage-error.js';

/** A failure as it is told to people and programs. */
export interface Failure {
  /** For programs. */
  readonly code: string;
  /** For people, one line. */
  readonly message: string;
  /** What would work, or null. */
  readonly hint: string | null;
  /** The limit that a file is over, where an option lifts it. */
  readonly limit?: string;
  /** What else failed, where several things were to be done. */
  readonly others?: readonly Pick<Failure, 'message' | 'hint' | 'limit'>[];
  /** 1: the picture or file does not allow it; 2: the command was wrong. */
  readonly exit: 1 | 2;
}

/**
 * Put whatever went wrong into its one form.
 *
 * @param error - Whatever was thrown.
 * @param name - The command that was run, where it got that far.
 * @returns What to tell, and how to exit.
 */
export function toFailure(error: unknown, name: string | undefined): Failure {
  if (error instanceof CommanderError) return fromCommander(error, name);
  if (error instanceof UsageError) {
    return { code: 'usage', message: error.message, hint: error.hint ?? helpOf(name), exit: 2 };
  }
  if (isTextureError(error)) {
    const { code, message, hint = null, limit } = error;
    // What a file may be called is known before any is looked at: the command was wrong.
    const exit = code === 'unsupported-output' ? 2 : 1;
    return { code, message, hint, ...(limit !== undefined && { limit }), exit };
  }
  // The library words every caller's mistake this way; the engine's own RangeErrors are our bugs.
  if (error instanceof RangeError && error.message.startsWith('expected ')) {
    return { code: 'usage', message: error.message, hint: helpOf(name), exit: 2 };
  }
  const [reason = ''] = (error instanceof Error ? error.message : String(error)).split('\n', 1);
  return {
    code: 'bug',
    message: `gaugerod failed in a way it should not: ${reason}`,
    hint: 'run it again with --debug and report what that prints',
    exit: 1,
  };
}

function helpOf(name: string | undefined): string {
  if (name === undefined) return 'gaugerod --help lists the commands';
  return `gaugerod ${name} --help shows what can be given`;
}

/**
 * The same for a picture that does not allow what was asked.
 *
 * @param refusal - As a job returned it.
 * @returns What to tell, and how to exit.
 */
export function fromRefusal(refusal: Refusal): Failure {
  const { code, others } = refusal;
  const rest = others?.map(wordsOf);
  return { code, ...wordsOf(refusal), ...(rest && { others: rest }), exit: 1 };
}

function wordsOf(
  failing: Pick<Refusal, 'message' | 'hint' | 'limit'>,
): Pick<Failure, 'message' | 'hint' | 'limit'> {
  const { message, hint, limit } = failing;
  return { message, hint: hint ?? null, ...(limit !== undefined && { limit }) };
}

const suggestion = /\n\(Did you mean (?:one of )?([^\n]*)\?\)$/;

function fromCommander(error: CommanderError, name: string | undefined): Failure {
  const meant = suggestion.exec(error.message)?.[1];
  const message = error.message
    .replace(suggestion, '')
    .replace(/^error: /, '')
    .replace(/\. Expected (.*)\.$/, ': expected $1')
    .replace(/^missing required argument '(.*)'$/, 'expected <$1>, got none')
    .replace(/^option '(.*)' argument missing$/, 'expected a value for $1, got none');
  return {
    code: 'usage',
    message,
    hint: meant === undefined ? helpOf(name) : `did you mean ${meant}?`,
    exit: 2,
  };
}

/**
 * Tell whether a file did not allow it: by shape and not by class, for this module is loaded before the library is.
 *
 * @param error - Whatever was thrown.
 * @returns Whether it is one of the library's.
 */
export function isTextureError(
  error: unknown,
): error is Error & { code: string; hint?: string; limit?: string } {
  return error instanceof Error && error.name === 'TextureError' && 'code' in error;
}
