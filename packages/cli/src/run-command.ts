import { dirname } from 'node:path';
import { CommanderError } from 'commander';
import type { Settings } from '@gaugerod/core';
import type { Refusal, Report, ShownOutcome, Surroundings } from './commands/command.js';
import { commands } from './commands/list.js';
import { limitsAmong } from './options/limits.js';
import { readOptions } from './options/read-options.js';
import { blameSetting, flagOf, usualTexts } from './options/usual-texts.js';
import type { BuildBoard } from './print/build-board.js';
import { type Failure, fromRefusal, toFailure } from './print/to-failure.js';
import { type NoticeKind, noticeLine } from './print/notice-line.js';
import { progressLine } from './print/progress-line.js';
import { reportText } from './print/report-text.js';
import { settingLines } from './print/setting-lines.js';
import { UsageError } from './print/usage-error.js';
import { toJson } from './print/to-json.js';
import { readRequest, type Request } from './program.js';

// What decides how a failure is told must be known even where the command line cannot be read.
interface Manner {
  readonly json: boolean;
  readonly quiet: boolean;
  readonly debug: boolean;
  readonly noConfig: boolean;
  readonly perLine: boolean;
}

/**
 * Run one command, from its words to the last line printed.
 *
 * @param words - What stands after the program's name.
 * @returns The exit code: 0 done, 1 the picture or file does not allow it, 2 the command was wrong.
 */
export async function runCommand(words: readonly string[]): Promise<number> {
  const listed = commands.find((one) => one.name === words[0]);
  const manner = {
    json: words.includes('--json'),
    quiet: words.includes('--quiet'),
    debug: words.includes('--debug'),
    noConfig: words.includes('--no-config'),
    perLine: listed?.perLine === true,
  };
  const name = listed?.name;
  try {
    if (words[0] === undefined) throw noCommand();
    const request = await readRequest(words, name);
    const result = await execute(request, manner);
    return await (result.ok
      ? printReport(result, manner)
      : printFailure(fromRefusal(result), manner));
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) return 0; // help was printed
    const code = await printFailure(toFailure(error, name), manner);
    if (manner.debug && error instanceof Error) process.stderr.write(`${traces(error)}\n`);
    return code;
  }
}

function noCommand(): UsageError {
  return new UsageError('expected a command, got none', {
    hint: 'gaugerod --help lists the commands',
  });
}

async function execute(request: Request, manner: Manner): Promise<Report | Refusal> {
  const core = await import('@gaugerod/core/jobs');
  const { given, name, command, texts } = request;
  // A job is the same from wherever it is built.
  const folder = name === 'build' ? dirname(given[0] ?? '') : '.';
  const readSettings = async (): Promise<Settings> =>
    manner.noConfig ? core.noSettings : core.openSettings(folder, limits);
  const [options, typed] = limitsAmong(command.options, texts);
  const limits = readOptions(options, typed, { core, settings: core.noSettings });
  const progress = progressLine(process.stderr, manner.quiet);
  const board = await boardOf(request, manner);
  const clear = (): void => {
    progress.clear();
    board.clear();
  };
  let isRead = true;
  const notRead = (): void => {
    isRead = false;
  };
  process.stdout.on('error', notRead);
  try {
    const settings = await readSettings();
    return await executeWith(request, {
      core,
      settings,
      references: settings.references,
      readSettings,
      onProgress: progress.show,
      onBuild: board.tell,
      show: (work, photo) => show(work, request.name, { ...manner, clear, photo }),
      isRead: () => isRead,
    });
  } finally {
    process.stdout.off('error', notRead);
    clear();
  }
}

// What is set and counts is told with the result.
async function executeWith(
  { command, given, texts: typed }: Request,
  surroundings: Surroundings,
): Promise<Report | Refusal> {
  const { texts, used } = usualTexts(command, typed, surroundings);
  try {
    const result = await command.execute(given, texts, surroundings);
    if (!result.ok || used.length === 0) return result;
    const lines = settingLines(used, (option) => flagOf(command, option));
    const { json } = result;
    const all = [...result.lines, ...lines];
    return { ...result, lines: all, json: json && { ...json, settings: used } };
  } catch (error) {
    throw blameSetting(error, command, used);
  }
}

// What follows a build is loaded for builds. Who runs tests unattended keeps what is printed.
async function boardOf({ name }: Request, { quiet }: Manner): Promise<BuildBoard> {
  if (name !== 'build') return { tell: () => undefined, clear: () => undefined };
  const { buildBoard } = await import('./print/build-board.js');
  const { CI = '' } = process.env;
  const isUnattended = CI !== '' && CI !== 'false' && CI !== '0';
  return buildBoard({
    stream: process.stderr,
    quiet: quiet || isUnattended,
    clock: () => performance.now(),
  });
}

interface Showing extends Manner {
  readonly clear: () => void;
  readonly photo: string | undefined;
}

async function show(
  work: () => Promise<ShownOutcome>,
  name: string,
  { clear, ...manner }: Showing,
): Promise<void> {
  try {
    const outcome = await work();
    clear();
    if (!outcome.ok) {
      await printFailure(fromRefusal(outcome), manner);
      return;
    }
    const { value, lines, warnings } = outcome;
    await printReport({ ok: true, lines, json: { ...value, warnings }, warnings }, manner);
  } catch (error) {
    clear();
    await printFailure(toFailure(error, name), manner);
  }
}

// Of one photo among many, or of all there is.
type Printing = Manner & Partial<Pick<Showing, 'photo'>>;

async function printReport(report: Report, manner: Printing): Promise<0 | 1> {
  const { showPath } = await import('@gaugerod/core/jobs');
  process.stdout.write(reportText(report, { ...manner, show: showPath }));
  // A program finds the warnings in the object.
  if (!manner.quiet && !manner.json) {
    for (const { message } of report.warnings) await say('warning', message, manner.photo);
  }
  return report.exit ?? 0;
}

async function printFailure(failure: Failure, manner: Printing): Promise<number> {
  const { exit, ...error } = failure;
  const { photo: path } = manner;
  const told = path === undefined ? { error } : { photo: { path }, error };
  if (manner.json) process.stdout.write(`${toJson(told, manner)}\n`);
  for (const { message, hint } of [failure, ...(failure.others ?? [])]) {
    await say('error', message, path);
    if (hint !== null) await say('hint', hint);
  }
  return exit;
}

// The library knows what a terminal must not be shown, and is loaded by now or soon enough: only
// help has to be quick.
async function say(kind: NoticeKind, message: string, photo?: string): Promise<void> {
  const { showPath } = await import('@gaugerod/core/jobs');
  const isNamed = photo === undefined || names(message, showPath(photo));
  const line = isNamed ? message : `${photo}: ${message}`;
  const { NO_COLOR, TERM } = process.env;
  const colour = process.stderr.isTTY && !NO_COLOR && TERM !== 'dumb';
  process.stderr.write(noticeLine(kind, showPath(line), colour));
}

// "a brick is longer" says nothing of a photo called `a`, "a is damaged" does; a name with a dot is no word.
function names(message: string, path: string): boolean {
  if (!message.startsWith(path)) return false;
  return /[./\\]/.test(path) || /^(?::| is | does )/.test(message.slice(path.length));
}

// Newest first: what failed, and what had failed underneath.
function traces(error: Error): string {
  const own = error.stack ?? error.message;
  return error.cause instanceof Error ? `${own}\ncaused by ${traces(error.cause)}` : own;
}
