/** The order in which test files are taken: those that take longest first, so that no processor ends with one of them alone. */

import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** They take some seconds of one processor. Of all others Vitest remembers what they took the last time. */
const LONGEST = [
  'cli/dashboard/terminal',
  'cli/docs',
  'season/fit/fit-recovers',
  'cli/new/new',
  'cli/compare',
  'fuzz/corpus',
  'cli/alone',
  'cli/fit',
  'cli/dashboard/panels',
  'cli/dashboard/thread/seasons-thread',
  'fuzz/commands',
  'season/replay/costs',
  'cli/io/log-file',
  'cli/search',
  'season/ahead/calibration',
  'cli/report/report',
  'cli/dashboard/state/state',
  'theory/size-tandem',
  'cli/sections/width',
];

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification): number => {
      const found = LONGEST.findIndex((name) => moduleId.includes(`/tests/${name}.test.`));
      return found < 0 ? LONGEST.length : found;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}
