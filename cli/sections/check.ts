/** A plan in a few lines, so that its owner sees whether it is the one that was meant. */

import type { CropPlan, Plan } from '../../sim/models/plan.js';
import { standingOf } from '../../sim/study/takes/standing.js';
import { dateText } from '../words/dates.js';
import { counted } from '../words/numbers.js';
import { unlocks } from '../words/unlocks.js';
import { type Section, section, whole } from './section.js';
import { spellTexts } from './takes/growth.js';

/** @param name of the file @param plan what it says @param holes of each stage */
export function checkSections(name: string, plan: Plan, holes: readonly number[]): Section[] {
  const more = unlocks(plan);
  const spelled = (plan.physical?.climate?.dated.length ?? 0) > 0;
  const visits =
    plan.visits.kind === 'always' ? 'somebody always there' : counted(plan.visits.days.length, 'visit');
  return [
    section(
      whole(`${name}: no faults.`),
      `${plan.title}: ${counted(plan.weeks, 'week')} from ${dateText(plan.start)}, ${visits}`,
      ...plan.stages.map(
        (stage, s) =>
          `${stage.name}: ${counted(stage.channels, 'channel')} of ${counted(stage.holesPerChannel, 'hole')}, ${counted(holes[s]!, 'hole')}`,
      ),
      ...plan.crops.map((crop) => `${crop.name}: ${sowingText(crop)}`),
      ...(plan.want === null
        ? []
        : [
            `wanted: ${counted(plan.want.heads, 'head')} on each of ${counted(plan.want.days.length, 'day')}`,
          ]),
      ...(spelled ? spellTexts(standingOf(plan)?.growth ?? []) : []),
    ),
    ...(more.length === 0 ? [] : [section('More keys would tell more (docs/keys.md)', ...more)]),
  ];
}

function sowingText({ sowing }: CropPlan): string {
  if (sowing.kind === 'refill') return 'sown at each visit, what the line will miss';
  const { days, seeds } = sowing;
  return `${counted(days.length, 'sowing')} of ${counted(seeds, 'seed')}, ${counted(days.length * seeds, 'seed')}`;
}
