import { defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/support/longest-first.js';
import { plainModules } from './tests/support/plain-modules.js';

// No test is timed: the limits end what hangs, and are wide enough for a machine that has much else to do.
const LIMIT = 1_800_000;

export default defineConfig({
  // While it watches, Vitest has to see the simulator's own files.
  plugins: process.argv.includes('run') ? [plainModules(import.meta.dirname)] : [],
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    // On every processor; and each process loads the program once, for all the files that it runs.
    maxWorkers: '100%',
    isolate: false,
    sequence: { sequencer: LongestFirst },
    execArgv: ['--enable-source-maps'],
    testTimeout: LIMIT,
    hookTimeout: LIMIT,
    env: { TZ: 'UTC', FORCE_COLOR: '0' },
  },
});
