/** Where the light that is paid for fell, and what it saves that plants stand close while they are small. */

import type { HoleState } from '../../../sim/models/ledger.js';
import { type LightShares, lightShares } from '../../../sim/study/takes/light-shares.js';
import type { SpaceFigures } from '../../../sim/study/takes/staging.js';
import type { Takes } from '../../../sim/study/takes/takes.js';
import { LAMPS_CAUTION } from '../../words/cautions.js';
import { COUNT, figureText, fixed, listed, parted, SHARE } from '../../words/numbers.js';
import { STATE_WORDS } from '../../words/states.js';
import { type Block, bar, type Cell, figure, name, section, table } from '../section.js';

type Light = NonNullable<Takes['light']>;

/** One sentence and its bar, whose signs are told beside it: there is no line to spare. */
export function lightBlocks({ light }: Takes): Block[] {
  if (light === undefined) return [];
  const shares = lightShares(light.stages);
  return [
    lightText(light, shares),
    ...(shares === null || shares.leaves === null
      ? []
      : [table([['= leaves, - gaps', bar(shares.leaves, { upTo: shares.growing })]])]),
  ];
}

function lightText(light: Light, shares: LightShares | null): string {
  return [drawText(light), ...(shares === null ? [] : [fellText(shares)])].join(' ');
}

/** `The lamps draw 716 kWh, 2.36 a head.` */
function drawText({ kwh, kwh_per_head: aHead }: Light): string {
  if (kwh === null) return 'What the lamps draw is not told: efficacy, or watts, of every stage tells it.';
  const each = aHead === null ? '' : `, ${figureText(aHead.mean, fixed(2))} a head`;
  return `The lamps draw ${figureText(kwh.mean, COUNT)} kWh${each}.`;
}

/** Whole percents that add up to 100. */
function fellText({ leaves, gaps, growing, waiting, empty }: LightShares): string {
  const parts: (readonly [share: number, on: string])[] = [
    ...(leaves === null
      ? [[growing, 'growing plants (leaves are told from gaps where head_g is)'] as const]
      : [[leaves, 'leaves'] as const, [gaps!, 'gaps between them'] as const]),
    [waiting, 'waiting and dead plants'],
    [empty, 'empty holes'],
  ];
  const percents = parted(
    100,
    parts.map(([share]) => 100 * share),
  );
  return `Of their light fell ${listed(parts.map(([, on], i) => `${percents[i]} % on ${on}`))}.`;
}

/** By stage and by what it fell on. */
export function lightDetails({ light }: Takes): Block[] {
  if (light === undefined) return [];
  const shares = lightShares(light.stages);
  return [
    lightText(light, shares),
    ...(shares === null ? [] : [section('Where it fell', fellTable(light, shares))]),
    section('Of each stage', stageTable(light)),
    LAMPS_CAUTION,
  ];
}

function fellTable({ kwh }: Light, { leaves, gaps, growing, states }: LightShares): Block {
  const rows: (readonly [string, number])[] = [
    ...(leaves === null
      ? [['growing plants', growing] as const]
      : [['leaves', leaves] as const, ['gaps between leaves', gaps!] as const]),
    ...Object.entries(states).flatMap(([state, share]) =>
      share > 0 ? [[STATE_WORDS[state as HoleState].text, share] as const] : [],
    ),
  ];
  let from = 0;
  return table(
    rows.map(([what, share]) => {
      const piece = bar(from + share, { from });
      from += share;
      return [
        what,
        figure(share, SHARE),
        ...(kwh === null ? [] : [figure(share * kwh.mean, fixed(1), 'kWh')]),
        piece,
      ];
    }),
  );
}

function stageTable({ stages }: Light): Block {
  return table(
    stages.map(({ name: stage, kwh, mol }): Cell[] => {
      const parts = Object.values(mol ?? {}).map((part) => part?.mean ?? 0);
      const all = parts.reduce((sum, part) => sum + part, 0);
      const leaves = mol?.['leaves']?.mean;
      return [
        name(stage),
        figure(kwh?.mean, COUNT),
        mol === null ? null : figure(all, COUNT),
        figure(leaves === undefined || all === 0 ? null : leaves / all, SHARE),
      ];
    }),
    { head: ['', 'kWh', 'mol', 'on leaves'] },
  );
}

/** One line: what the same crop would take more at its widest spacing from its beginning on; of several crops the first. */
export function stagingBlocks({ staging = [] }: Takes): string[] {
  const [first, ...others] = staging;
  if (first === undefined) return [];
  const { crop, m2_days, kwh, cost, one_spacing: wide } = first;
  const more = [
    `${figureText(wide.m2_days - m2_days, fixed(2))} m2-days`,
    ...(kwh === null ? [] : [`${figureText(wide.kwh! - kwh, fixed(2))} kWh`]),
    ...(cost === null ? [] : [`${figureText(wide.cost! - cost, fixed(2))} in money`]),
  ];
  return [`Wide from the start: ${listed(more)} a head more${others.length === 0 ? '' : ` (${crop})`}.`];
}

export function stagingDetails({ staging = [] }: Takes): Block[] {
  if (staging.length === 0) return [];
  const drawn = staging.some(({ kwh }) => kwh !== null);
  const priced = staging.some(({ cost }) => cost !== null);
  const row = (what: string, { days, m2_days, kwh, cost }: SpaceFigures): Cell[] => [
    what,
    figure(days, fixed(1)),
    figure(m2_days, fixed(3)),
    ...(drawn ? [figure(kwh, fixed(2))] : []),
    ...(priced ? [figure(cost, fixed(2))] : []),
  ];
  return [
    table(
      staging.flatMap((crop) => [
        row(`${crop.crop}, as planned`, crop),
        row(`${crop.crop}, wide from the start`, crop.one_spacing),
      ]),
      { head: ['', 'days', 'm2-days', ...(drawn ? ['kWh'] : []), ...(priced ? ['light costs'] : [])] },
    ),
    'A head that nothing happens to: it neither waits nor dies. Wide from the start it stands in the widest stage, in its light, as efficient as in the last one.',
    ...staging.flatMap(({ crop, picks }) =>
      picks === undefined
        ? []
        : [`A plant of ${crop} gives ${picks} heads; each has an equal share of what it takes in all.`],
    ),
  ];
}
