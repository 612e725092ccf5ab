import type { Report } from '../commands/command.js';
import { toJson, type ToJsonOptions } from './to-json.js';

/** How a result is to be worded. */
export interface ReportTextOptions extends ToJsonOptions {
  /** As one object, for programs. */
  readonly json: boolean;
  /** Makes a line, which may hold a file's name and with it anything, fit for a terminal. */
  readonly show: (line: string) => string;
}

/**
 * Word a result for standard output.
 *
 * @param report - Lines for people, an object for programs.
 * @param options - Which of the two.
 * @returns The text, with its line ends.
 */
export function reportText(report: Report, options: ReportTextOptions): string {
  const { json, show } = options;
  if (json) return report.json === null ? '' : `${toJson(report.json, options)}\n`;
  return report.lines.map((line) => `${show(line)}\n`).join('');
}
