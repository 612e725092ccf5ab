// Puts what the command is made of into a few files, out of the modules that tsc made and beside them:
// hundreds of small files take longer to load than a finished tile takes to fill a page. Other people's
// packages stay outside, with their licences.
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

// A group is a file, with all that its members import; the first that wants a module gets it.
const bundles = [
  {
    folder: '../core/dist/',
    // A thread of a build begins with a file of its own.
    entries: { jobs: 'jobs', 'step-worker': 'job/build/step-worker' },
    groups: {
      start: ['jobs'],
      fill: ['job/fill-photo', 'job/fill-surface'],
      measure: ['job/find-measurement'],
      mend: ['job/mend-surface'],
    },
  },
  {
    folder: 'dist/',
    entries: { main: 'main' },
    groups: {
      // Apart from what reads options, which help does without.
      help: ['commands/list', 'print/overview', 'print/notice-line'],
      run: ['run-command', 'commands/fill'],
    },
  },
];

for (const { folder, entries, groups } of bundles) {
  const path = (name) => fileURLToPath(new URL(`${folder}${name}`, import.meta.url));
  const bundle = await rolldown({
    input: Object.fromEntries(
      Object.entries(entries).map(([name, member]) => [name, path(`${member}.js`)]),
    ),
    platform: 'node',
    external: /^(?![./]|[a-z]:)/i,
  });
  await bundle.write({
    dir: path('bundle'),
    cleanDir: true,
    entryFileNames: '[name].js',
    chunkFileNames: '[name].js',
    paths: { '@gaugerod/core/jobs': '@gaugerod/core/bundle' },
    codeSplitting: {
      groups: Object.entries(groups).map(([name, members], place) => ({
        name,
        priority: 9 - place,
        test: (id) =>
          members.some((member) => id.replaceAll('\\', '/').endsWith(`/dist/${member}.js`)),
      })),
    },
  });
}
