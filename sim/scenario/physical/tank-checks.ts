/** Whether the levels of a tank, and what runs in the channels, fit each other. */

import { type FaultDraft, foundText } from '../faults.js';
import { isMap } from '../values.js';

/** Levels out of their order. */
export function tankFaults({ litres, full_l: full, low_l: low }: Record<string, unknown>): FaultDraft[] {
  const drafts: FaultDraft[] = [];
  if (isAmount(full) && isAmount(litres) && full > litres) {
    drafts.push({
      path: ['tank', 'full_l'],
      at: 'value',
      found: foundText(full),
      expected: `at most what the tank can hold (litres: ${litres})`,
      advice: 'full_l is the level after topping up, with the pump running.',
    });
  }
  if (isAmount(low) && isAmount(full) && low >= full) {
    drafts.push({
      path: ['tank', 'low_l'],
      at: 'value',
      found: foundText(low),
      expected: `less than full_l (${full})`,
      advice: 'low_l is the level below which the pump draws air.',
    });
  }
  return drafts;
}

/** More water under way than the tank has. */
export function filmFaults(tank: Record<string, unknown>, stages: readonly unknown[]): FaultDraft[] {
  const { full_l: full, pipes_l: pipes = 0 } = tank;
  if (!(isAmount(full) && isAmount(pipes))) return [];
  const away = stages.reduce((sum: number, stage) => sum + filmOf(stage), pipes);
  if (!(away >= full)) return [];
  return [
    {
      path: ['tank', 'full_l'],
      at: 'value',
      found: `${full}, and ${Number(away.toPrecision(3))} litres in channels and pipes`,
      expected: 'more litres than run in channels and pipes',
      advice: 'Look at film_mm (mm) and the sizes of the channels (cm), and at pipes_l.',
    },
  ];
}

/** Litres that run in the channels of a stage; 0 where something of it is not told, or told wrongly. */
function filmOf(stage: unknown): number {
  if (!isMap(stage) || !isMap(stage['channel_size'])) return 0;
  const { channels } = stage;
  const { length_cm: length, width_cm: width, film_mm: film = 2 } = stage['channel_size'];
  const all = [channels, length, width, film];
  return all.every(isAmount) ? (all.reduce((product, amount) => product * amount, 1) as number) / 1e4 : 0;
}

function isAmount(value: unknown): value is number {
  return typeof value === 'number' && value >= 0;
}
