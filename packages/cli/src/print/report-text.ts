import type { Report } from '../commands/command.js';
import { escape } from './escape.js';
import { toJson } from './to-json.js';

/**
 * Word a result for standard output.
 *
 * @param report - Lines for people, an object for programs.
 * @param json - Which of the two.
 * @returns The text, with its line ends.
 */
export function reportText(report: Report, json: boolean): string {
  if (json) return `${toJson(report.json)}\n`;
  return report.lines.map((line) => `${escape(line)}\n`).join('');
}
