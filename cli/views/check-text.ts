/** A plan in a few lines, so that its owner sees whether it is the one that was meant. */

import type { CropPlan, Plan } from '../../sim/models/plan.js';
import { dateText } from '../words/dates.js';
import { counted } from '../words/numbers.js';
import { WIDTH, wrap } from './format.js';

/** @param name of the file @param plan what it says @param holes of each stage */
export function checkText(name: string, plan: Plan, holes: readonly number[]): string {
  const visits =
    plan.visits.kind === 'always' ? 'somebody always there' : counted(plan.visits.days.length, 'visit');
  const lines = [
    `${plan.title}: ${counted(plan.weeks, 'week')} from ${dateText(plan.start)}, ${visits}`,
    ...plan.stages.map(
      (stage, s) =>
        `${stage.name}: ${counted(stage.channels, 'channel')} of ${counted(stage.holesPerChannel, 'hole')}, ${counted(holes[s]!, 'hole')}`,
    ),
    ...plan.crops.map((crop) => `${crop.name}: ${sowingText(crop)}`),
  ];
  if (plan.want !== null) {
    lines.push(
      `wanted: ${counted(plan.want.heads, 'head')} on each of ${counted(plan.want.days.length, 'day')}`,
    );
  }
  // The file's name is not broken: somebody may copy it.
  return `${[`${name}: no faults.`, ...lines.map(lineText)].join('\n')}\n`;
}

/** What is too long goes on further to the right. */
function lineText(line: string): string {
  return wrap(line, WIDTH, '    ').replace(/^ {4}/, '  ');
}

function sowingText(crop: CropPlan): string {
  if (crop.sowing.kind === 'refill') return 'sown at each visit, what the line will miss';
  const { days, seeds } = crop.sowing;
  return `${counted(days.length, 'sowing')} of ${counted(seeds, 'seed')}, ${counted(days.length * seeds, 'seed')}`;
}
