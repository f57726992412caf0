/**
 * The arrow check: data flows one way, cli -> sim/{study,season} -> sim/seasons -> sim/models -> sim/engine. Rooms of one floor do not
 * know each other.
 */
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
      name: 'what-it-takes-knows-no-line',
      comment: 'Numbers in, numbers out: only plans and plain types.',
      severity: 'error',
      from: { path: '^sim/models/physical/' },
      to: { path: '^sim/(?!engine/|models/(physical/|(plan|route|result)\\.))' },
    },
    {
      name: 'a-scenario-runs-nothing',
      comment: 'Reading a scenario runs nothing; a study takes a plan, wherever it comes from.',
      severity: 'error',
      from: { path: '^sim/scenario/' },
      to: { path: '^sim/(?!engine/|models/|scenario/)' },
    },
    {
      name: 'seasons-lie-below-studies',
      comment: 'Many seasons are run in one way, for studies and for the weeks to come alike.',
      severity: 'error',
      from: { path: '^sim/seasons/' },
      to: { path: '^sim/(?!engine/|models/|seasons/)' },
    },
    {
      name: 'studies-and-real-seasons-are-neighbours',
      severity: 'error',
      from: { path: '^sim/(study|season)/' },
      to: { path: '^sim/(?!engine/|models/|seasons/|$1/)' },
    },
    {
      name: 'kinds-of-study-are-neighbours',
      severity: 'error',
      from: { path: '^sim/study/(search|size|film)/' },
      // The table of figures is read by all of them.
      to: { path: '^sim/study/(?!$1/|figures/)[^/]+/' },
    },
    {
      name: 'a-log-knows-no-more-than-itself',
      severity: 'error',
      from: { path: '^sim/season/log/' },
      to: { path: '^sim/season/(?!log/)' },
    },
    {
      name: 'history-knows-the-log-only',
      severity: 'error',
      from: { path: '^sim/season/history/' },
      to: { path: '^sim/season/(?!log/|history/)' },
    },
    {
      name: 'what-is-told-of-a-season-are-neighbours',
      severity: 'error',
      from: { path: '^sim/season/(replay|fit|ahead)/' },
      to: { path: '^sim/season/(?!log/|history/|$1/)' },
    },
    {
      name: 'sections-say-what',
      comment: 'What a result says: pure, and without any layout.',
      severity: 'error',
      from: { path: '^cli/sections/' },
      to: { path: '^cli/(?!sections/|words/)|^sim/(engine|models/line)' },
    },
    {
      name: 'renderers-know-how',
      comment: 'A renderer knows sections, and no result.',
      severity: 'error',
      from: { path: '^cli/render/' },
      to: { path: '^cli/(?!render/|words/|sections/(section|page)\\.)|^sim/' },
    },
    {
      name: 'words-are-for-all',
      severity: 'error',
      from: { path: '^cli/words/' },
      to: { path: '^cli/(?!words/)|^sim/(engine|models/line)' },
    },
    {
      name: 'io-options-inputs-studies-commands',
      comment: 'The rooms of the program, from the ground up.',
      severity: 'error',
      from: { path: '^cli/io/' },
      to: { path: '^cli/(?!io/|sections/|render/|words/|problem)' },
    },
    {
      name: 'options-know-no-studies',
      severity: 'error',
      from: { path: '^cli/options/' },
      to: { path: '^cli/(?!options/|io/|sections/|render/|words/|problem)' },
    },
    {
      name: 'inputs-know-no-studies',
      severity: 'error',
      from: { path: '^cli/inputs/' },
      to: { path: '^cli/(?!inputs/|options/|io/|sections/|render/|words/|problem)' },
    },
    {
      name: 'studies-know-no-commands',
      severity: 'error',
      from: { path: '^cli/studies/' },
      to: { path: '^cli/(?!studies/|inputs/|options/|io/|sections/|render/|words/|problem)' },
    },
    {
      name: 'the-screen-thread-draws-nothing',
      comment: 'The dashboard, from the ground up: thread; state, knobs and keys; rows; panels.',
      severity: 'error',
      from: { path: '^cli/dashboard/thread/' },
      to: { path: '^cli/dashboard/(?!thread/)' },
    },
    {
      name: 'the-screen-state-draws-nothing',
      severity: 'error',
      from: { path: '^cli/dashboard/state/' },
      to: { path: '^cli/dashboard/(?!state/|thread/)' },
    },
    {
      name: 'rows-are-text',
      severity: 'error',
      from: { path: '^cli/dashboard/rows/' },
      to: { path: '^cli/dashboard/(?!rows/|state/|thread/|theme)|node_modules/(ink|react)/' },
    },
    {
      name: 'panels-draw-rows',
      severity: 'error',
      from: { path: '^cli/dashboard/panels/' },
      to: { path: '^cli/dashboard/(?!panels/|rows/|state/|theme|terminal/)' },
    },
    {
      name: 'one-reader-of-the-process',
      severity: 'error',
      from: { path: '^cli/(?!io/|bin|dashboard/terminal/)' },
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
