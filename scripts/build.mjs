/**
 * Builds dist/: the program (one bundled file, because start-up time is felt at every call), the library (its
 * packages stay outside), the types, the JSON Schema of the scenario file, and the benchmark.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmod, mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { onePart } from './one-part.mjs';
import { quickWidths, WITHOUT_FETCH } from './quick-start.mjs';

const root = new URL('..', import.meta.url);
process.chdir(new URL(root).pathname);

await rm('dist', { recursive: true, force: true });
await mkdir('dist', { recursive: true });

const common = { bundle: true, platform: 'node', target: 'node20', format: 'esm', logLevel: 'warning' };
// Bundled packages in CommonJS form still ask for node's own modules by `require`.
const requireShim =
  "import { createRequire as __createRequire } from 'node:module';\nconst require = __createRequire(import.meta.url);";

// Most of the time of a build, so it begins first, on a processor of its own.
const types = once(
  spawn(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.types.json'], {
    stdio: 'inherit',
  }),
  'exit',
);

await Promise.all([
  build({
    ...common,
    entryPoints: { evensow: 'cli/bin.ts' },
    outdir: 'dist',
    // Names stay, for who reads a trace; keeping them by `keepNames` costs a call for each function at every start.
    minifyWhitespace: true,
    minifySyntax: true,
    // What is imported when it is needed (the dashboard, threads) lies in files of its own.
    splitting: true,
    chunkNames: 'part-[hash]',
    // The first finds files beside itself; the other is not there, and ink asks for it only if it is told to be debugged.
    external: ['tinypool', 'react-devtools-core'],
    // React's development build keeps a record of every frame, for ever.
    define: { 'process.env.NODE_ENV': '"production"', ...WITHOUT_FETCH },
    plugins: [quickWidths, onePart(resolve('cli/main.ts'))],
    banner: { js: `#!/usr/bin/env node\n${requireShim}` },
  }),
  // What the second thread of the dashboard runs.
  build({
    ...common,
    entryPoints: { 'seasons-thread': 'cli/dashboard/thread/seasons-thread.ts' },
    outdir: 'dist',
    banner: { js: requireShim },
  }),
  // What each thread runs, of a study or of looking ahead.
  build({
    ...common,
    entryPoints: { worker: 'sim/worker.ts' },
    outdir: 'dist',
    external: ['tinypool'],
    banner: { js: requireShim },
  }),
  build({ ...common, entryPoints: { index: 'sim/index.ts' }, outdir: 'dist', packages: 'external' }),
  build({
    ...common,
    entryPoints: { bench: 'tests/bench/bench.ts' },
    outdir: 'dist/bench',
    external: ['tinypool', 'ink', 'react', '@lydell/node-pty', '@xterm/headless'],
    banner: { js: requireShim },
  }),
]);
await chmod('dist/evensow.js', 0o755);

const [code] = await types;
if (code !== 0) process.exit(1);

const { scenarioJsonSchema } = await import(pathToFileURL('dist/index.js').href);
await writeFile('dist/scenario.schema.json.part', `${JSON.stringify(scenarioJsonSchema(), null, 2)}\n`);
await rename('dist/scenario.schema.json.part', 'dist/scenario.schema.json');
