const core = '^packages/core/src';
const foundations = 'units|catalogue|raster|numeric|colour|surface|page|errors|limits';
const stages = 'measure|rectify|even|overlay|scale|seam|finish|fill|drawing|sheet|report';
const ends = 'read|write';
const never = (name, from, to) => ({ name, severity: 'error', from, to });

export default {
  forbidden: [
    never(
      'stages-never-import-one-another',
      { path: `${core}/(${stages}|${ends})/` },
      { path: `${core}/`, pathNot: `${core}/($1|${foundations})/` },
    ),
    never(
      'foundations-import-foundations',
      { path: `${core}/(${foundations})/` },
      { path: `${core}/`, pathNot: `${core}/(${foundations})/` },
    ),
    never(
      'only-the-ends-touch-sharp-and-files',
      // What starts the command asks which of its builds is newer; what bundles it, or makes its kernels, writes them.
      {
        path: '^packages/',
        pathNot: `${core}/(${ends})/|^packages/cli/bin/|^packages/(cli/bundle|core/wat)[.]mjs$`,
      },
      { path: '(^|/)node_modules/(sharp|exifr)/|^(node:)?fs(/promises)?$' },
    ),
    never(
      'stages-run-in-a-browser',
      { path: `${core}/(${foundations}|${stages})/` },
      { dependencyTypes: ['core'] },
    ),
    never(
      'pure-stays-pure',
      { path: `${core}/pure[.]ts$` },
      { path: `${core}/(${ends}|job)/`, reachable: true },
    ),
    never(
      'cli-uses-the-front-door',
      { path: '^packages/cli/' },
      { path: '^packages/core/', pathNot: '^packages/core/(src|dist)/(index|jobs)[.]' },
    ),
    never(
      'the-page-uses-the-pure-part',
      { path: '^packages/core/pointer/' },
      {
        path: '^packages/core/src/|node_modules|^(node:)?fs',
        pathNot: '^packages/core/src/pure[.]',
      },
    ),
    never('no-cycles', {}, { circular: true }),
    never('nothing-unresolved', {}, { couldNotResolve: true }),
  ],
  options: {
    tsPreCompilationDeps: true,
    doNotFollow: { path: ['node_modules', 'dist'] },
    exclude: { path: ['(^|/)dist/'] },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default'],
    },
  },
};
