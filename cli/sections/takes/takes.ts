/** What a plan takes: light, water, weight, minutes and money; only what the scenario asks for. In few lines, or with all of it. */

import { TAKES_CAUTION } from '../../../sim/models/physical/cautions.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { type Block, type Section, section } from '../section.js';
import { growthDetails, massText } from './growth.js';
import { lightBlocks, lightDetails, stagingBlocks, stagingDetails } from './light.js';
import { loadDetails } from './load.js';
import { moneyDetails, moneyText } from './money.js';
import { waterBlocks, waterDetails } from './water.js';
import { workDetails, workText } from './work.js';

const WEEK = 7;

/** In at most 12 lines of 80 columns. */
export function takesInBrief(result: RunResult): Section[] {
  const weeks = result.weeks.length;
  const work = workText(result, weeks, result.counts.picked.mean);
  const sentences = [massText(result, weeks), work && `Work: ${work}`, moneyText(result)].filter(
    (text) => text !== null,
  );
  const blocks: Block[] = [
    ...lightBlocks(result),
    ...stagingBlocks(result),
    ...waterBlocks(result, weeks * WEEK),
    ...(sentences.length === 0 ? [] : [sentences.join(' ')]),
  ];
  if (blocks.length === 0 && result.load === undefined) return [];
  return [section('What it takes (mean of a season; all of it: --all)', ...blocks, TAKES_CAUTION)];
}

/** Group by group. */
export function takesInFull(result: RunResult): Section[] {
  const weeks = result.weeks.length;
  const heads = result.counts.picked.mean;
  const stages = result.stages.map(({ name }) => name);
  const groups: [title: string, blocks: Block[]][] = [
    ['Light that is paid for (mean of a season)', lightDetails(result)],
    ['What it saves that small plants stand close', stagingDetails(result)],
    ['Growth', growthDetails(result, weeks)],
    ['Water (mean of a season)', waterDetails(result, weeks * WEEK)],
    ['Load of each tier', loadDetails(result)],
    ['Work', workDetails(result, weeks, heads)],
    ['Money (mean of a season, in the money of your prices)', moneyDetails(result, heads, stages)],
  ];
  const told = groups.filter(([, blocks]) => blocks.length > 0);
  if (told.length === 0) return [];
  return [...told.map(([title, blocks]) => section(title, ...blocks)), section('Take care', TAKES_CAUTION)];
}
