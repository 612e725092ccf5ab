import { drawingLimits, limitsOf } from '../options/limits.js';
import type { BuiltJob, BuiltStep, CleanedJob, Outcome } from '@gaugerod/core';
import { anywhere, clean, dryRun, watch } from '../options/build-switches.js';
import { jobs } from '../options/jobs.js';
import { keepLimit } from '../options/keep-limit.js';
import { only } from '../options/only.js';
import { reportPage } from '../options/report-page.js';
import { inBytes } from '../print/in-bytes.js';
import { inColumns } from '../print/in-columns.js';
import { inSize } from '../print/in-size.js';
import { scaleInWords } from '../print/scale-in-words.js';
import { settingLines } from '../print/setting-lines.js';
import { UsageError } from '../print/usage-error.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod build`. */
export const build: Command = defineCommand({
  argumentHelp: 'a job file (.yaml): surfaces, parts and sheets',
  description:
    'Make all of a model from one file: its surfaces from photos, its parts from those, its sheets from parts, at one scale or several. What was built before and follows from the same photos, drawings and options is left as it is; whatever else changed is built again.',
  examples: [
    { line: 'build works.yaml', does: 'All that changed since the last time:' },
    { line: 'build works.yaml --only gable --only page', does: 'One part and one sheet:' },
    { line: 'build works.yaml --dry-run', does: 'What would be built, and why:' },
    { line: 'build works.yaml --report record.html', does: 'And a page that shows all of it:' },
    { line: 'build works.yaml --watch', does: 'Again, whenever something is saved:' },
  ],
  caution: [
    'Print at 100 %, not fitted to the page, and measure the bars before you cut.',
    'Cutting out: sharp knives, a cutting mat, and open windows for spray adhesive.',
    'Check that the terms of the photos allow printing, and selling, the model.',
  ].join('\n'),
  options: {
    only,
    report: reportPage,
    dryRun,
    watch,
    jobs,
    keepLimit,
    clean,
    anywhere,
    ...drawingLimits,
  },
  run: async (path, values, { core, onBuild, show, settings, readSettings }): Promise<Built> => {
    const { only: names, dryRun: dry, watch: again, jobs: threads, keepLimit: keepBytes } = values;
    const limits = limitsOf(values);
    refuseTogether(values);
    if (values.clean) return { ok: true, value: await core.cleanJob(path), warnings: [] };
    const wish = {
      settings,
      ...(names && { only: names }),
      ...(values.report !== undefined && { report: values.report }),
      ...(values.anywhere && { anywhere: true }),
      ...(dry && { dryRun: true }),
      ...(threads !== undefined && { jobs: threads }),
      ...(keepBytes !== undefined && { keepBytes }),
      ...limits,
      onBuild,
    };
    if (!again) return core.buildJob(path, wish);
    let set = settings;
    for (let seen = await core.lookAtJob(path, wish); ;) {
      set = await readSettings().catch(() => set);
      const before = await core.lookAtJob(path, { ...wish, settings: set }, seen);
      seen = before;
      await show(async () => {
        const outcome = await core.buildJob(path, { ...wish, settings: await readSettings() });
        return outcome.ok ? { ...outcome, lines: describe(outcome.value) } : outcome;
      });
      await core.waitForChange(before);
    }
  },
  describe,
});

type Built = Outcome<BuiltJob | CleanedJob, string>;

interface Switches {
  readonly clean?: true;
  readonly watch?: true;
  readonly dryRun?: true;
  readonly only?: readonly string[];
  readonly report?: string;
}

function refuseTogether({
  clean: isClean,
  watch: isWatch,
  dryRun: isDry,
  only: names,
  report,
}: Switches): void {
  const page = report !== undefined && '--report';
  const others = [isWatch && '--watch', isDry && '--dry-run', names && '--only', page].filter(
    Boolean,
  );
  if (isClean && others.length > 0) {
    throw new UsageError(`expected --clean alone, got it with ${others.join(' and ')}`);
  }
  if (isWatch && isDry) throw new UsageError('expected --watch or --dry-run, got both');
  if (page && isDry) throw new UsageError('expected --report or --dry-run, got both');
}

function describe(report: BuiltJob | CleanedJob): readonly string[] {
  if ('freedBytes' in report) {
    return [`${report.job}, ${inBytes(report.freedBytes)} freed; what was built stays`];
  }
  const { job, steps, settings = [], report: page } = report;
  const count = (state: BuiltStep['state'], word: string): string[] => {
    const many = steps.filter((step) => step.state === state).length;
    return many === 0 ? [] : [`${many} ${word}`];
  };
  const counts = [
    ...count('built', 'built'),
    ...count('planned', 'to be built'),
    ...count('kept', 'as they were'),
  ];
  const many = new Set(steps.map(({ scale }) => scale.ratio)).size > 1;
  const told = steps.filter(({ state }) => state !== 'kept');
  return [
    `${job}: ${counts.join(', ')}`,
    ...inColumns(
      told.map((step) => [
        many ? `${step.name}, ${scaleInWords(step.scale)}` : step.name,
        stepInWords(step),
      ]),
    ),
    ...(page === null ? [] : [`report: ${page}`]),
    ...settingLines(settings, (name) => name),
  ];
}

function stepInWords(step: BuiltStep): string {
  const { files, widthMm, heightMm, pages, state, why, nextWall } = step;
  const [first = ''] = files;
  const file = files.length > 1 ? `${first} and ${files.length - 1} more` : first;
  const size =
    widthMm === null || heightMm === null ? [] : [inSize({ width: widthMm, height: heightMm })];
  const paper = pages === null ? [] : [pages === 1 ? '1 page' : `${pages} pages`];
  const because = why === null ? [] : [state === 'planned' ? `because ${why}` : why];
  const next =
    nextWall === null
      ? []
      : [
          `next wall round the ${nextWall.corner} corner: datum [${nextWall.datumXMm}, ${nextWall.datumYMm}]`,
        ];
  return [file, ...paper, ...size, ...because, ...next].join(', ');
}
