/** What reads well in a scenario but is probably not meant. */

import { dayFrom, WEEKDAYS, weekdayOfDay } from '../models/dates.js';
import type { Plan } from '../models/plan.js';
import type { Path } from './faults.js';
import type { Scenario } from './schema.js';

/** A warning before its line is known. */
export interface WarningDraft {
  path: Path;
  message: string;
}

/** Warnings about a scenario and the plan that it became. */
export function warningsOf(scenario: Scenario, plan: Plan): WarningDraft[] {
  return [...unattendedWants(scenario, plan), ...datesOutside(scenario), ...shortSeasons(plan)];
}

/** Weekdays of `want.on` on which nobody ever comes. */
function unattendedWants({ want, start }: Scenario, { visits }: Plan): WarningDraft[] {
  if (want === undefined || visits.kind === 'always') return [];
  const visited = new Set(visits.days.map((day) => WEEKDAYS[weekdayOfDay(start, day)]));
  return want.on.flatMap((weekday, i) =>
    visited.has(weekday)
      ? []
      : [
          {
            path: ['want', 'on', i],
            message: `There is never a visit on ${weekday}: nobody is there to pick, so all heads wanted that day are short.`,
          },
        ],
  );
}

/** Dates of sowing before the start or after the end of the season. */
function datesOutside({ crops, start, weeks }: Scenario): WarningDraft[] {
  return crops.flatMap(({ sow }, i) =>
    !('dates' in sow)
      ? []
      : sow.dates.flatMap((date, k) => {
          const day = dayFrom(start, date);
          if (day >= 0 && day < weeks * 7) return [];
          const side = day < 0 ? 'before the start' : 'after the end';
          return [
            { path: ['crops', i, 'sow', 'dates', k], message: `${date} is ${side} of the season: not sown.` },
          ];
        }),
  );
}

/** Crops that on average are not ready before the season ends, even if sown on its first day. */
function shortSeasons({ crops, weeks }: Plan): WarningDraft[] {
  return crops.flatMap(({ name, stages }, i) => {
    const days = stages.reduce((sum, { time }) => sum + time.days, 0);
    if (days < weeks * 7) return [];
    const rounded = Number(days.toPrecision(6));
    const message = `${name} needs ${rounded} days on average, the season has ${weeks * 7}: hardly anything will be picked before its end.`;
    return [{ path: ['crops', i, 'stages'], message }];
  });
}
