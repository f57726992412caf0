/** What holds a line back, and what was changed to find out, in a grower's words. */

import type { Change } from '../../sim/seasons/changes.js';
import type { Bottleneck } from '../../sim/study/bottleneck.js';
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

/** How the gains of changes that are told together are written: all with as many decimals. */
export function effectsForm(
  effects: readonly { readonly low: number | null; readonly high: number | null }[],
): Form {
  return signed(
    decimalsFor(Math.max(...effects.flatMap(({ low, high }) => [low ?? 0, high ?? 0].map(Math.abs)))),
  );
}
