import type { Switch } from './option.js';

/** Say what would be done. */
export const dryRun: Switch = {
  flag: '--dry-run',
  help: 'say what would be built and why, and build nothing',
};

/** Build again on every change. */
export const watch: Switch = {
  flag: '--watch',
  help: 'build, and build again whenever the job, a photo or a drawing changes, until Ctrl-C',
};

/** Throw away what was kept. */
export const clean: Switch = {
  flag: '--clean',
  help: 'throw away what is kept beside the job for later builds, and build nothing',
};

/** Let a job name any file. */
export const anywhere: Switch = {
  flag: '--anywhere',
  help: "let paths lead out of the job's folder, where you trust who wrote the job",
};
