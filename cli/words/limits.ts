/** What holds a line back, and what was changed to find out, in a grower's words. */

import type { Change } from '../../sim/seasons/changes.js';
import type { Bottleneck, Trial } from '../../sim/study/bottleneck.js';
import { counted, decimalsFor, type Form, listed, signed } from './numbers.js';

/** Where it is no stage. */
const NO_STAGE: Readonly<Record<Exclude<Bottleneck['by'], 'stage'>, string>> = {
  sowing: 'what is sown',
  visits: 'the visits',
  away: 'the absence',
  want: 'nothing: what is wanted is picked',
  nothing: 'nothing that was tried',
};

/** @param limits null if nothing was tried */
export function heldBackBy(limits: Bottleneck | null): string {
  if (limits === null) return 'not tried';
  return limits.by === 'stage' ? listed(limits.stages) : NO_STAGE[limits.by];
}

/** The changes that were tried: those that bring heads before the others, and of each of the two the one that brings most first. */
export function ranked<Of extends Pick<Trial, 'brings' | 'gain'>>(trials: readonly Of[]): Of[] {
  return [...trials].sort((a, b) => Number(b.brings) - Number(a.brings) || b.gain - a.gain);
}

/** What is worth more than what holds the line back, the most first. */
export interface BringsMore {
  readonly changes: readonly Change[];
  /** Each of them brings more for what it adds; else some bring more in all only. */
  readonly forWhatItAdds: boolean;
}

/** All that brings more than what holds the line back would: for what it adds, or in all; null where nothing does. */
export function bringsMore({ by, trials, better }: Bottleneck): BringsMore | null {
  if (by !== 'stage' && by !== 'sowing') return null;
  const kind = by === 'stage' ? 'channel' : 'seeds';
  const least = Math.max(...trials.flatMap(({ change, gain }) => (change.kind === kind ? [gain] : [])));
  const isBetter = (change: Change): boolean => better.some((one) => one.kind === change.kind);
  const changes = ranked(trials)
    .filter(({ change }) => change.kind !== 'channel' && change.kind !== kind)
    .filter(({ change, brings, low }) => isBetter(change) || (brings && low !== null && low > least))
    .map(({ change }) => change);
  return changes.length === 0 ? null : { changes, forWhatItAdds: changes.every(isBetter) };
}

/** `finishing; nobody away would bring more`: what holds the line back, and what is worth more than that. */
export function heldBackAndMore(limits: Bottleneck): string {
  const more = bringsMore(limits)?.changes.map(changeText) ?? [];
  const end = more.length === 0 ? '' : `; ${listed(more)} would bring more`;
  return `${heldBackBy(limits)}${end}`;
}

/** The same in fewer words, what brings most alone: `finishing; more: nobody away`. */
export function heldBackAndMost(limits: Bottleneck): string {
  const [most] = bringsMore(limits)?.changes ?? [];
  return `${heldBackBy(limits)}${most === undefined ? '' : `; more: ${remedyWords(most).short}`}`;
}

/** What was changed; the name of a stage stands by itself. */
export function changeParts(change: Change): (string | { readonly name: string })[] {
  switch (change.kind) {
    case 'channel':
      return [
        `+${counted(change.channels, 'channel')} of `,
        { name: change.stage },
        ` (${counted(change.holes, 'hole')})`,
      ];
    case 'seeds':
      return [`${change.percent} % more seeds`];
    case 'visits':
      return ['a visit every day'];
    case 'away':
      return ['nobody away'];
    case 'growing':
      return [`all growing takes ${change.percent} % longer`];
  }
}

export function changeText(change: Change): string {
  return changeParts(change)
    .map((part) => (typeof part === 'string' ? part : part.name))
    .join('');
}

/** What was changed where room is scarce: `one more nursery channel`, and shorter `nursery +1 channel`. */
export function remedyWords(change: Change): { readonly label: string; readonly short: string } {
  switch (change.kind) {
    case 'channel': {
      const { channels, stage } = change;
      const one = channels === 1;
      return {
        label: one ? `one more ${stage} channel` : `${channels} more ${stage} channels`,
        short: `${stage} +${channels} ${one ? 'channel' : 'channels'}`,
      };
    }
    case 'seeds':
      return { label: `${change.percent} % more seeds`, short: `seeds +${change.percent} %` };
    case 'visits':
      return { label: 'a visit every day', short: 'a visit a day' };
    case 'away':
      return { label: 'nobody away', short: 'nobody away' };
    case 'growing':
      return { label: `growing ${change.percent} % slower`, short: `if ${change.percent} % slower` };
  }
}

/** How the gains of changes that are told together are written: all with as many decimals. */
export function effectsForm(
  effects: readonly { readonly low: number | null; readonly high: number | null }[],
): Form {
  return signed(
    decimalsFor(Math.max(...effects.flatMap(({ low, high }) => [low ?? 0, high ?? 0].map(Math.abs)))),
  );
}
