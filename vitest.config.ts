import { defineConfig } from 'vitest/config';

// No test is timed: the limits end what hangs, and are wide enough for a machine that has much else to do.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    testTimeout: 600_000,
    hookTimeout: 600_000,
    env: { TZ: 'UTC', FORCE_COLOR: '0' },
  },
});
