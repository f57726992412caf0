/** What reads well in a scenario but is probably not meant. */

import { WEEKDAYS, weekdayOfDay } from '../models/dates.js';
import { holesOf, type Plan } from '../models/plan.js';
import * as route from '../models/route.js';
import type { WarningDraft } from './faults.js';
import { physicalWarnings } from './physical/warnings.js';
import type { Scenario } from './schema.js';
import { sideOf, spanOutside } from './season-dates.js';

/** Warnings about a scenario and the plan that it became. */
export function warningsOf(scenario: Scenario, plan: Plan): WarningDraft[] {
  return [
    ...scenario.away.flatMap((span, i) => spanOutside(span, ['away', i], scenario.start, scenario.weeks)),
    ...unattendedWants(scenario, plan),
    ...datesOutside(scenario),
    ...seedsBeyondCells(plan),
    ...shortSeasons(plan),
    ...physicalWarnings(scenario, plan),
  ];
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
          const side = sideOf(date, start, weeks);
          if (side === null) return [];
          return [
            { path: ['crops', i, 'sow', 'dates', k], message: `${date} is ${side} of the season: not sown.` },
          ];
        }),
  );
}

/** Crops of which more seeds are sown at a time than the first stage has cells. */
function seedsBeyondCells(plan: Plan): WarningDraft[] {
  const first = plan.stages[route.first(plan)]!;
  const cells = holesOf(first);
  return plan.crops.flatMap(({ name, sowing }, i) =>
    sowing.kind === 'refill' || sowing.seeds <= cells
      ? []
      : [
          {
            path: ['crops', i, 'sow', 'seeds'],
            message: `${sowing.seeds} seeds of ${name} are sown at a time, and ${first.name} has ${cells} cells: ${sowing.seeds - cells} or more of them cannot be sown.`,
          },
        ],
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
