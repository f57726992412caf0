import { defineConfig } from 'vitest/config';

// Simulation tests run thousands of seasons: the slowest takes about 8 s on a busy 2-core machine.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    env: { TZ: 'UTC', FORCE_COLOR: '0' },
  },
});
