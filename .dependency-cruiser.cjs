/** The arrow check: data flows one way, cli -> sim/{study,season,scenario} -> sim/models -> sim/engine. */
module.exports = {
  forbidden: [
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'sim-knows-no-program',
      comment: 'The library neither prints nor draws nor reads files.',
      severity: 'error',
      from: { path: '^sim/' },
      to: {
        path: '^cli/|node_modules/(ink|react|commander)/|^(node:)?(fs|process|tty|readline|child_process)',
      },
    },
    {
      name: 'engine-knows-no-plants',
      severity: 'error',
      from: { path: '^sim/engine/' },
      to: { path: '^sim/(?!engine/)' },
    },
    {
      name: 'models-know-no-files',
      severity: 'error',
      from: { path: '^sim/models/' },
      to: { path: '^sim/(?!engine/|models/)' },
    },
    {
      name: 'scenario-and-studies-are-neighbours',
      comment: 'Reading a scenario runs nothing; a study takes a plan, wherever it comes from.',
      severity: 'error',
      from: { path: '^sim/(scenario|study|season)/' },
      to: { path: '^sim/(?!engine/|models/|$1/)' },
    },
    {
      name: 'views-are-pure',
      comment: 'A view turns a result into text: no commands, no streams.',
      severity: 'error',
      from: { path: '^cli/views/' },
      to: { path: '^cli/(?!views/)|^sim/(engine|models/line)' },
    },
    {
      name: 'one-reader-of-the-process',
      severity: 'error',
      from: { path: '^cli/(?!streams|text-file|write-file|log-file|bin|dashboard/terminal)' },
      to: { path: '^(node:)?(fs|fs/promises|process|tty)$' },
    },
    { name: 'resolvable', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
};
