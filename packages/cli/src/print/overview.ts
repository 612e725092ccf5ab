import type { ListedCommand } from '../commands/list.js';
import { inColumns } from './in-columns.js';

/**
 * Word the first help that anybody sees: what this is, its commands, the whole job in one line.
 *
 * @param commands - In the order of the journey.
 * @returns At most 80 columns wide, with its line ends, but for the example.
 */
export function overview(commands: readonly ListedCommand[]): string {
  const shown = commands.map(({ name, argument, needs = '', summary }) => {
    return [`${name} ${argument} ${needs}`.trimEnd(), summary] as const;
  });
  return `Usage: gaugerod COMMAND [options]

Turn a photograph of a wall into an exactly sized, seamless picture at model
scale.

Commands:
${inColumns(shown).join('\n')}

Options:
${inColumns([
  ['-h, --help', 'print this help; after a command, explain that, with examples'],
  ['--no-config', 'leave out files of defaults, and references of your own'],
  ['--version', 'print the version'],
]).join('\n')}

Example, the whole job in one line:
  $ gaugerod fill wall.jpg --course uk-metric --scale N-UK --size 120x80mm -o front.png

Lengths take mm, cm, m, in, ft (120mm, 4.7in, 8ft6in); a bare number is
millimetres.

What no option says comes from the job file, for build; then from
gaugerod.config.yaml in the working folder or above it, for build in that of the
job; then from config.yaml in your own folder (~/.config/gaugerod); then it is
the default that help tells.
`;
}
