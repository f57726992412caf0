/** The answer: what a usual and a bad week bring, what holds the line back, and what would bring more. */

import type { Trial } from '../../../sim/study/bottleneck.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { dateText } from '../../words/dates.js';
import { changeText, effectsForm, heldBackBy, ranked } from '../../words/limits.js';
import { counted, figureText, intervalText, listed, orFewer, percentText } from '../../words/numbers.js';
import type { EffectsChart, Fact } from '../page.js';

/** Remedies that the first sentence names. */
const MOST_NAMED = 3;

/** One sentence or two. */
export function answerOf({ running, limits }: RunResult): string {
  if (running === null) return 'There is no usual week yet: the line does not run before the season ends.';
  const heads = `${counted(running.p50, 'head')} in a usual week, ${counted(running.p10, 'head')}${orFewer(running.p10)} in a bad one`;
  if (limits === null) return `${heads}.`;
  const remedies = remediesOf(limits.trials).slice(0, MOST_NAMED);
  const form = effectsForm(limits.trials);
  const more = remedies.map(({ change, gain }) => `${changeText(change)} ${figureText(gain, form)}`);
  const most = more.length === 0 ? '' : ` Would bring more, in heads a week: ${more.join('; ')}.`;
  return `${heads}; held back by ${heldBackBy(limits)}.${most}`;
}

/** The changes that are worth it, what brings most first. */
function remediesOf(trials: readonly Trial[]): Trial[] {
  return ranked(trials).filter(({ brings }) => brings);
}

export function factsOf({ running, limits, first_pick, stages }: RunResult): Fact[] {
  const holeDays = stages.reduce((sum, stage) => sum + stage.hole_days, 0);
  const empty = stages.map(({ figures }) => figures.idle!.mean);
  const share = stages.reduce((sum, stage, s) => sum + empty[s]! * stage.hole_days, 0) / holeDays;
  const parts = stages.map(({ name }, s) => `${name} ${percentText(empty[s]!)}`);
  return [
    ...(running === null
      ? []
      : [
          {
            label: 'In a usual week',
            value: counted(running.p50, 'head'),
            note: 'half of all weeks bring at least this',
          },
          {
            label: 'In a bad week',
            value: `${counted(running.p10, 'head')}${orFewer(running.p10)}`,
            note:
              running.without_absence === null
                ? '1 week in 10'
                : `1 week in 10; if nobody were away ${counted(running.without_absence.p10, 'head')}${orFewer(running.without_absence.p10)}`,
          },
          ...(running.wanted === null
            ? []
            : [
                {
                  label: 'Missing of what is wanted',
                  value: percentText(running.missing! / running.wanted),
                  note: `${counted(running.missing!, 'head')} of ${counted(running.wanted, 'head')}`,
                },
              ]),
        ]),
    { label: 'Held back by', value: heldBackBy(limits), note: '' },
    {
      label: 'Holes that stand empty',
      value: percentText(share),
      note: `of all hole-days: ${listed(parts)}`,
    },
    ...(first_pick.p50 === null
      ? []
      : [{ label: 'First pick', value: dateText(first_pick.p50), note: 'in the middle one of all seasons' }]),
  ];
}

/** What each small change brings; nothing where none was tried. */
export function effectsChart({ limits }: RunResult): EffectsChart[] {
  if (limits === null) return [];
  const { trials, seasons } = limits;
  const form = effectsForm(trials);
  const remedies = remediesOf(trials);
  const told = remedies.map(
    ({ change, gain, low, high }) =>
      `${changeText(change)} ${figureText(gain, form)} (${intervalText({ low, high }, form)})`,
  );
  return [
    {
      kind: 'effects',
      title: 'What one change more would bring, heads a week',
      text: `${told.length === 0 ? 'Nothing that was tried brings heads worth the name.' : `Worth it: ${told.join('; ')}.`} The line through each point is its 95 % interval (${seasons} seasons with the same luck).`,
      unit: 'heads a week',
      form,
      rows: [...trials]
        .sort((a, b) => b.gain - a.gain)
        .map(({ change, gain, low, high, brings }) => ({
          name: changeText(change),
          mean: gain,
          low,
          high,
          brings,
        })),
    },
  ];
}
