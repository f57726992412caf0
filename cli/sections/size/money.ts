/** What more channels cost and bring in a year, in the grower's own money: nothing where no price is told. */

import type { SizeResult } from '../../../sim/study/size/size.js';
import type { Worth } from '../../../sim/study/size/worth.js';
import { changeParts } from '../../words/limits.js';
import { decimalsFor, listed, signed } from '../../words/numbers.js';
import { figure, interval, type Section, section, table, words } from '../section.js';

/** With few seasons, or where a tank is filled anew, which is looked at in one season of 81. */
const NO_INTERVAL = 'There is no interval from so few seasons; more of them (-n) give one.';

type Told = Worth & Required<Pick<Worth, 'money_a_year'>>;

export function moneyAYear({ worth: { stages }, assumes = [] }: SizeResult): Section[] {
  const told = stages.filter((stage): stage is Told => stage.money_a_year !== undefined);
  if (told.length === 0) return [];
  const sold = told.some(({ money_a_year: { margin } }) => margin !== null);
  const largest = Math.max(...told.flatMap(({ money_a_year: { cost } }) => [Math.abs(cost.mean)]));
  const form = signed(decimalsFor(largest));
  const rows = told.map(({ stage, channels, holes, money_a_year: { cost, margin } }) => [
    words(...changeParts({ kind: 'channel', stage, channels, holes })),
    figure(cost.mean, form),
    ...(sold ? [figure(margin?.mean, form)] : []),
    interval((sold ? margin : cost) ?? { low: null, high: null }, form),
  ]);
  return [
    section(
      sold
        ? 'What they bring in a year, in money (what they earn less what they cost; same luck)'
        : 'What they cost in a year, in money (same luck; no price of a head is told)',
      ...(sold ? [whatPays(told)] : []),
      table(rows, { head: ['changed', 'costs', ...(sold ? ['margin'] : []), '95 %\ninterval'] }),
      ...(told.some(({ money_a_year: { cost } }) => cost.low === null) ? [NO_INTERVAL] : []),
      ...assumes,
    ),
  ];
}

function whatPays(told: readonly Told[]): string {
  const pays = told.filter(({ money_a_year: { margin } }) => (margin?.low ?? 0) > 0);
  if (pays.length > 0) return `More channels pay in ${listed(pays.map(({ stage }) => stage))}.`;
  return told.every(({ money_a_year: { margin } }) => (margin?.high ?? 0) < 0)
    ? 'More channels pay in none of them.'
    : 'Whether more channels pay in any of them these seasons cannot tell; more seasons (-n) may.';
}
