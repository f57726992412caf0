/** The order in which test files are taken: those that take longest first, so that no processor ends with one of them alone. */

import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** They take some seconds of one processor. Of all others Vitest remembers what they took the last time. */
const LONGEST = [
  'cli/dashboard/terminal',
  'cli/docs',
  'season/fit/fit-recovers',
  'season/ahead/calibration',
  'cli/io/log-file',
  'cli/compare',
  'cli/report/report',
  'cli/alone',
  'theory/size-tandem',
  'fuzz/corpus',
  'cli/dashboard/panels',
  'cli/dashboard/thread/seasons-thread',
  'season/replay/costs',
  'cli/new/new',
  'cli/completion',
  'cli/search',
  'cli/fit',
  'fuzz/commands',
  'study/compare',
  'season/fit/fit',
  'theory/waiting',
  'cli/stopping',
  'cli/dashboard/state/state',
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
