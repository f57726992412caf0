/** Waiting for what a program shows: as long as it takes on a machine that has much else to do, no longer than needed on one at rest. */

import { vi } from 'vitest';

/** How long to wait for what must come [ms]. It comes within a second or two on a machine at rest. */
const PATIENCE = 120_000;
/** How often to look whether it has come [ms]. */
const GLANCE = 10;

/**
 * Wait until something holds.
 * @param what what is waited for, and `seen` what there was to be seen last: both are named if it never comes
 * @param glance how often to look [ms]
 * @throws Error if it has not come after two minutes
 */
export async function until(
  done: () => boolean,
  what: string,
  seen: () => string,
  glance = GLANCE,
): Promise<void> {
  const end = Date.now() + PATIENCE;
  while (!done()) {
    if (Date.now() > end) throw new Error(`waited in vain for ${what}; seen last:\n${seen()}`);
    await new Promise((resolve) => setTimeout(resolve, glance));
  }
}

/** Wait until a check holds. @throws what it threw last, if it still throws after two minutes */
export async function eventually(check: () => void): Promise<void> {
  await vi.waitFor(check, { timeout: PATIENCE, interval: GLANCE });
}
