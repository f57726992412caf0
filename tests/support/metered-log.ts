/**
 * The log of a grower who logs the tank at each visit of a simulated season, truthfully, by meters that are off by some percent: what was
 * used is worked out plant by plant (plant-by-plant.ts), the conductivity visit by visit.
 */

import { normalQuantile } from '../../sim/engine/normal.js';
import { openStream } from '../../sim/engine/random.js';
import { isoOfDay } from '../../sim/models/dates.js';
import { ecAfter, ecBefore } from '../../sim/models/physical/conductivity.js';
import { lineMatter } from '../../sim/models/physical/line-matter.js';
import type { PhysicalPlan } from '../../sim/models/physical/plan.js';
import type { Plan } from '../../sim/models/plan.js';
import { changeVisits } from '../../sim/models/takes.js';
import { type LogRow, TANK_COLUMNS, type TankRow } from '../../sim/season/log/rows.js';
import { takenBy } from './plant-by-plant.js';
import { logText, simulatedLog } from './simulated-log.js';
import { recordSeason } from './stays.js';

/** What is true of the line, and how its grower measures. */
export interface Grower {
  readonly scale: number;
  readonly uptakeEc: number;
  /** Standard deviation of litres that are read, and of conductivities, over what is true; 0: to the last digit. */
  readonly litresOff: number;
  readonly ecOff: number;
  /** What is made of a row of the tank: null if it is forgotten. */
  readonly written?: (row: TankRow, visit: number, luck: () => number) => TankRow | null;
}

export function meteredLog(
  plan: Plan,
  seed: number,
  season: number,
  grower: Grower,
): { rows: LogRow[]; tank: TankRow[] } {
  const physical: PhysicalPlan = { ...plan.physical!, waterScale: grower.scale };
  const courses = lineMatter(plan)!.courses.map((course) => course!);
  const recorded = recordSeason(plan, seed, season);
  const { usedByVisit } = takenBy(recorded, physical, courses).litres;
  const { fullL, ec: newEc, topUpEc } = physical.tank!;
  const changes = changeVisits(physical.tank!, recorded.visits);
  const luck = openStream(seed, season, ['meters']);
  const off = (share: number): number => 1 + share * normalQuantile(luck());
  const rounded = (value: number, off: number, digits: number): number =>
    off === 0 ? value : Math.max(0, Number(value.toFixed(digits)));
  let ec = newEc!;
  const tank = recorded.visits.flatMap((day, i) => {
    const used = usedByVisit[i]!;
    const before = ecBefore(fullL, ec, grower.uptakeEc, used);
    const changed = changes[i] === 1;
    ec = changed ? newEc! : ecAfter(fullL, before, topUpEc!, used);
    const row: TankRow = {
      line: 0,
      date: isoOfDay(plan.start, day),
      action: 'tank',
      litres: changed ? fullL : rounded(used * off(grower.litresOff), grower.litresOff, 1),
      ec: rounded(before * off(grower.ecOff), grower.ecOff, 2),
      changed,
      note: changed ? 'changed' : null,
    };
    return (grower.written ?? ((same) => same))(row, i, luck) ?? [];
  });
  return { rows: simulatedLog(plan, seed, season), tank };
}

/** Both as the text of one log file: rows of the tank behind the others of their date. */
export function meteredText({
  rows,
  tank,
}: {
  readonly rows: readonly LogRow[];
  readonly tank: readonly TankRow[];
}): string {
  const [header, ...lines] = logText(rows).trimEnd().split('\r\n') as [string, ...string[]];
  const all = [
    ...rows.map(({ date }, i) => ({ date, text: `${lines[i]},,` })),
    ...tank.map(({ date, note, litres, ec }) => ({
      date,
      text: `${date},tank,,,,,,,${note ?? ''},${litres ?? ''},${ec ?? ''}`,
    })),
  ].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return `${[`${header},${TANK_COLUMNS.join(',')}`, ...all.map(({ text }) => text)].join('\n')}\n`;
}
