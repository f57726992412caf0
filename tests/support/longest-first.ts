/** The order in which test files are taken: those that take longest first, so that no processor ends with one of them alone. */

import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** They take ten seconds and more. Of all others Vitest remembers what they took the last time. */
const LONGEST = [
  'season/fit/fit-recovers',
  'season/ahead/calibration',
  'cli/dashboard/terminal',
  'theory/size-tandem',
  'cli/io/log-file',
  'cli/report/report',
  'cli/docs',
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
