import { Command as Parser, Option as Flag } from 'commander';
import type { Command } from './commands/command.js';
import { commands } from './commands/list.js';
import { debug } from './options/debug.js';
import { json, jsonLines } from './options/json.js';
import { longFlag } from './options/long-flag.js';
import { noConfig } from './options/no-config.js';
import type { Option, Options, Switch, Texts } from './options/option.js';
import { quiet } from './options/quiet.js';
import { UsageError } from './print/usage-error.js';

/** What the user asked for, as typed. */
export interface Request {
  /** What the user typed for it. */
  readonly name: string;
  /** The command. */
  readonly command: Command;
  /** Its positional arguments: none, one, or several where it takes them. */
  readonly given: readonly string[];
  /** Its options by name, unread. */
  readonly texts: Texts;
}

/**
 * Read a command line.
 *
 * @param words - All that stands after the program's name.
 * @param name - The one command to load, where one was named.
 * @returns What was asked for.
 * @throws CommanderError for a wrong command line, and, with exit code 0, once help was printed.
 * @throws UsageError when an option with a value is given twice, or standard input for a photo.
 */
export async function readRequest(
  words: readonly string[],
  name: string | undefined,
): Promise<Request> {
  const requests: Request[] = [];
  const program: Parser = strict(new Parser('gaugerod')).helpOption(false).helpCommand(false);
  for (const listed of commands) {
    const parser = strict(program.command(listed.name)).usage(
      [listed.argument, listed.needs, '[options]'].filter(Boolean).join(' '),
    );
    if (listed.name !== name) continue;
    const command = await listed.load();
    const print = listed.perLine === true ? jsonLines : json;
    describe(parser.argument(listed.argument, command.argumentHelp), command, print);
    parser.action((...handed: unknown[]) => {
      const [argument] = handed;
      const given = Array.isArray(argument) ? argument.map(String) : [argument].filter(isText);
      // What may be left out is left out by saying nothing: an empty name is one that got lost.
      if (given.includes('') && listed.argument === '[photo]') {
        throw new UsageError('expected the name of a file for [photo], got nothing');
      }
      if (given.includes('-') && listed.argument.includes('photo')) {
        throw fromStream(listed.argument);
      }
      requests.push({
        name: listed.name,
        command,
        given,
        texts: byName(command.options, parser.opts<Kept>()),
      });
    });
  }
  program.parse(words, { from: 'user' });
  const [request] = requests;
  return request ?? program.error('expected a command, got none');
}

// Elsewhere a dash means standard input; no file of that name is meant.
function fromStream(argument: string): UsageError {
  const message = `expected the name of a file for ${argument}, got -, and standard input is not read`;
  return new UsageError(message, { hint: 'save the photo first; a file called - is ./-' });
}

function isText(argument: unknown): argument is string {
  return typeof argument === 'string';
}

// Errors come back as exceptions and are worded in one place; only help is printed from here.
function strict(parser: Parser): Parser {
  return parser
    .exitOverride()
    .allowExcessArguments(false)
    .configureOutput({ writeErr: () => undefined });
}

// The last of two would count, and the first be ignored.
function once(option: Option): (text: string, before: unknown) => string {
  return (text, before) => {
    if (before === undefined) return text;
    const got = `${JSON.stringify(before)} and ${JSON.stringify(text)}`;
    throw new UsageError(`expected ${longFlag(option)} once, got ${got}`);
  };
}

function several(text: string, before: unknown): string[] {
  return [...(Array.isArray(before) ? before.map(String) : []), text];
}

// The parser keeps what came after `--span` under `span`; the command may call it `spans`.
// `--no-rectify` it keeps as a `rectify` that is true unless told.
function byName(options: Options, kept: Kept): Texts {
  return Object.fromEntries(
    Object.entries(options).map(([name, option]) => {
      const flag = new Flag(option.flag, option.help);
      const text = kept[flag.attributeName()];
      if (flag.negate) return [name, text === false ? true : undefined];
      return [name, text === false ? undefined : text];
    }),
  );
}

type Kept = Readonly<Record<string, Texts[string] | false>>;

function describe(parser: Parser, command: Command, print: Switch): void {
  parser.description(command.description).helpOption('-h, --help', 'print this help');
  for (const option of [...Object.values(command.options), noConfig, print, quiet, debug]) {
    const flag = new Flag(option.flag, option.help);
    // A switch has no text to parse, and one that says no is true before it is given.
    if ('parse' in option) flag.argParser('many' in option ? several : once(option));
    parser.addOption(flag);
  }
  const examples = command.examples.map(({ does, line }) => `  ${does}\n    $ gaugerod ${line}`);
  const caution = command.caution === undefined ? '' : `\n\n${command.caution}`;
  parser.addHelpText('after', `\nExamples:\n${examples.join('\n')}${caution}`);
}
