/** The order in which test files are taken: those that take longest first, so that no processor ends with one of them alone. */

import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** They take some seconds of one processor. Of all others Vitest remembers what they took the last time. */
const LONGEST = [
  'cli/docs',
  'cli/dashboard/terminal',
  'season/fit/fit-recovers',
  'cli/io/log-file',
  'cli/alone',
  'cli/new/new',
  'cli/fit',
  'cli/compare',
  'cli/search',
  'cli/dashboard/thread/seasons-thread',
  'season/ahead/calibration',
  'fuzz/corpus',
  'cli/dashboard/panels',
  'cli/report/report',
  'season/replay/costs',
  'fuzz/commands',
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
