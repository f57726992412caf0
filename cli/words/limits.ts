/** What holds a line back, and what was changed to find out, in a grower's words. */

import type { Change } from '../../sim/seasons/changes.js';
import type { Limits } from '../../sim/study/limits.js';
import { counted, listed } from './numbers.js';

/** @param limits null if nothing was tried */
export function heldBackBy(limits: Limits | null): string {
  if (limits === null) return 'not tried';
  switch (limits.by) {
    case 'stage':
      return listed(limits.stages);
    case 'sowing':
      return 'what is sown';
    case 'visits':
      return 'the visits';
    case 'want':
      return 'nothing: what is wanted is picked';
    case 'nothing':
      return 'nothing that was tried';
  }
}

/** What was changed; the name of a stage stands by itself. */
export function changeParts(change: Change): (string | { readonly name: string })[] {
  switch (change.kind) {
    case 'channel':
      return ['+1 channel of ', { name: change.stage }, ` (${counted(change.holes, 'hole')})`];
    case 'seeds':
      return [`${change.percent} % more seeds`];
    case 'visits':
      return ['a visit every day'];
  }
}

export function changeText(change: Change): string {
  return changeParts(change)
    .map((part) => (typeof part === 'string' ? part : part.name))
    .join('');
}
