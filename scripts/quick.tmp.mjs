import { build } from 'esbuild';
const requireShim = "import { createRequire as __createRequire } from 'node:module';\nconst require = __createRequire(import.meta.url);";
await build({ bundle: true, platform: 'node', target: 'node20', format: 'esm', logLevel: 'warning', entryPoints: { evensow: 'cli/bin.ts' }, outdir: 'dist', keepNames: true, minify: true, splitting: true, chunkNames: 'part-[hash]', external: ['tinypool','ink','react'], banner: {js: `#!/usr/bin/env node\n${requireShim}`} });
await build({ bundle: true, platform: 'node', target: 'node20', format: 'esm', logLevel: 'warning', entryPoints: { worker: 'sim/worker.ts' }, outdir: 'dist', external: ['tinypool'], banner: {js: requireShim} });
