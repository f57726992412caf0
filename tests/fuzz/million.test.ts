/**
 * As many seeds in one row as may be sown at once: what is told of them takes less than half a gigabyte. In .ci/run only, as a replay takes
 * a quarter of a minute of processor time; one of ten million, with IN_FULL, takes most of a minute.
 */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { isoOfDay } from '../../sim/models/dates.js';
import { SEEDS } from '../../sim/models/limits.js';
import { evensowAlone } from '../cli/program.js';
import { ownFolder } from '../support/folder.js';
import { IN_FULL } from '../support/repeats.js';
import { IS_LARGE } from './amount.js';
import { judge, judgeJson } from './said.js';

const FOLDER = ownFolder();
/** [kB] */
const MOST_MEMORY = 500_000;

writeFileSync(
  join(FOLDER, 'line.yaml'),
  `start: 2027-01-04
weeks: 6
stages: [{name: tray, channels: 1000, holes: 1000}, {name: bed, channels: 100, holes: 100}]
crops:
  - name: leaf
    germination: 0.9
    sow: {every: 60, seeds: 1000}
    stages: {tray: {days: 10, spread: 0.1, keeps: 4}, bed: {days: 20, spread: 0.1, keeps: 7}}
`,
);
writeFileSync(
  join(FOLDER, 'season.csv'),
  `date,action,crop,batch,stage,count\n2027-01-04,sow,leaf,B1,tray,${SEEDS.most}\n`,
);
// Sown and picked ten times: as many as a log may tell of, two batches at once.
writeFileSync(
  join(FOLDER, 'ten.csv'),
  Array.from({ length: 10 }, (_, b): [number, string][] => [
    [10 * b, `sow,leaf,B${b},tray,${SEEDS.most}`],
    [10 * b + 7, `move,leaf,B${b},bed,${SEEDS.most}`],
    [10 * b + 17, `pick,leaf,B${b},bed,${SEEDS.most}`],
  ])
    .flat()
    .sort(([a], [b]) => a - b)
    .reduce(
      (text, [day, row]) => `${text}${isoOfDay('2027-01-04', day)},${row}\n`,
      'date,action,crop,batch,stage,count\n',
    ),
);
// Said on standard error at the end: the most memory that the process has had [kB].
writeFileSync(
  join(FOLDER, 'memory.mjs'),
  `import { isMainThread } from 'node:worker_threads';
if (isMainThread) process.on('exit', () => process.stderr.write(\`memory \${process.resourceUsage().maxRSS}\\n\`));
`,
);

test
  .runIf(IS_LARGE)
  .each([
    'fit season.csv line.yaml',
    'replay season.csv',
    ...(IN_FULL ? ['replay ten.csv'] : []),
    'ahead line.yaml season.csv -n 2 --weeks 1 --workers 2',
    'chores line.yaml season.csv -n 2 --workers 1',
  ])('%s', async (words) => {
  const env = { NODE_OPTIONS: `--import=${join(FOLDER, 'memory.mjs')}` };
  const answer = await evensowAlone([...words.split(' '), '--json'], { cwd: FOLDER, env });
  const [, said, memory] = /^(.*)memory (\d+)\n$/s.exec(answer.err)!;
  judge({ ...answer, err: said! });
  expect(answer.code).toBe(0);
  judgeJson(answer.out);
  expect(Number(memory)).toBeLessThan(MOST_MEMORY);
});
