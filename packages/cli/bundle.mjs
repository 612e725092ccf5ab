// Puts what the command is made of into a few files, out of the modules that tsc made and beside them:
// hundreds of small files take longer to load than a finished tile takes to fill a page. Other people's
// packages stay outside, with their licences.
import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import standaloneCode from 'ajv/dist/standalone/index.js';
import { rolldown } from 'rolldown';
import { formCompiler } from '../core/dist/job/build/compile-form.js';
import { jobSchema } from '../core/dist/job/build/job-schema.js';
import { configSchema } from '../core/dist/job/settings/config-form.js';
import { referenceSchema } from '../core/dist/job/settings/reference-form.js';

// A group is a file, with all that its members import; the first that wants a module gets it.
const bundles = [
  {
    folder: '../core/dist/',
    // Threads and processes begin with files of their own.
    entries: {
      jobs: 'jobs',
      'step-worker': 'job/build/step-worker',
      'weather-worker': 'job/weather/weather-worker',
      'decode-child': 'read/decode-child',
    },
    groups: {
      start: ['jobs'],
      fill: ['job/fill/fill-photo', 'job/fill/fill-surface', 'job/surface/make-surface'],
      measure: ['job/measure/find-measurement'],
      mend: ['job/surface/mend-surface'],
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

const formsCompiled = {
  name: 'forms compiled',
  load: (id) => (inDist(id, 'job/build/compile-form') ? compileForms() : null),
};

for (const { folder, entries, groups } of bundles) {
  const path = (name) => fileURLToPath(new URL(`${folder}${name}`, import.meta.url));
  const bundle = await rolldown({
    input: Object.fromEntries(
      Object.entries(entries).map(([name, member]) => [name, path(`${member}.js`)]),
    ),
    platform: 'node',
    external: /^(?![./]|[a-z]:)/i,
    // What some load late, others have loaded: that holds for each command on its own.
    checks: { ineffectiveDynamicImport: false },
    plugins: [formsCompiled],
  });
  await bundle.write({
    dir: path('bundle'),
    cleanDir: true,
    entryFileNames: '[name].js',
    chunkFileNames: '[name].js',
    minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
    paths: { '@gaugerod/core/jobs': '@gaugerod/core/bundle' },
    codeSplitting: {
      groups: Object.entries(groups).map(([name, members], place) => ({
        name,
        priority: 9 - place,
        test: (id) => members.some((member) => inDist(id, member)),
      })),
    },
  });
}

// The page that is pointed at, as one file that asks for no other: its script with all of the library that
// it uses, its style, and a policy under which a browser runs those two and nothing else.
const core = new URL('../core/', import.meta.url);
const script = await bundleScript(new URL('dist/pointer/main.js', core));
const style = await readFile(new URL('pointer/page.css', core), 'utf8');
const page = await readFile(new URL('pointer/page.html', core), 'utf8');
const hash = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
const policy = [
  `default-src 'none'; img-src data:; style-src ${hash(style)}; script-src ${hash(script)}`,
  "base-uri 'none'; form-action 'none'",
].join('; ');
const parts = {
  policy: `<meta http-equiv="Content-Security-Policy" content="${policy}" />`,
  style: `<style>${style}</style>`,
  script: `<script>${script}</script>`,
};
await writeFile(
  new URL('dist/pointer.html', core),
  page.replace(/<!--(policy|style|script)-->/g, (_, part) => parts[part]),
);

async function bundleScript(entry) {
  const bundle = await rolldown({ input: fileURLToPath(entry), platform: 'browser' });
  const { output } = await bundle.generate({ format: 'iife', minify: true });
  const { code, imports } = output[0];
  if (output.length > 1 || imports.length > 0) throw new Error('the page is more than one script');
  // Nothing in it ends the element that it stands in.
  return code.replace(/<\/(?=script)/gi, '<\\/').replace(/<!--/g, '<\\!--');
}

function inDist(id, member) {
  return id.replaceAll('\\', '/').endsWith(`/dist/${member}.js`);
}

// What ajv makes of all forms, by their ids, in place of the module that loads ajv and asks it.
function compileForms() {
  const compiler = formCompiler();
  const ids = [jobSchema, configSchema, referenceSchema].map((schema) => {
    compiler.addSchema(schema);
    return schema.$id;
  });
  const names = Object.fromEntries(ids.map((id, at) => [`form${at}`, id]));
  const imports = [];
  // It asks for parts of ajv as other modules do.
  const code = standaloneCode
    .default(compiler, names)
    .replace(/require\(("[^"]+)"\)/g, (_, path) => {
      imports.push(`import part${imports.length} from ${path}.js";`);
      return `part${imports.length - 1}`;
    });
  const forms = ids.map((id, at) => `${JSON.stringify(id)}: form${at}`).join(', ');
  return `${imports.join('\n')}\n${code}\nexport const compileForm = ({ $id }) => ({ ${forms} })[$id];\n`;
}
