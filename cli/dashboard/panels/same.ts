/** When a part need not be drawn again: it is handed the whole state, but shows a few fields of it only. */

import type { State } from '../state/state.js';

/** @returns whether two sets of props are the same but for fields of `state` other than these */
export function sameButFor<Field extends keyof State>(...fields: readonly Field[]) {
  return <Props extends { readonly state: Pick<State, Field> }>(before: Props, after: Props): boolean => {
    const names = Object.keys(after) as (keyof Props)[];
    return (
      fields.every((field) => before.state[field] === after.state[field]) &&
      names.every((name) => name === 'state' || before[name] === after[name])
    );
  };
}
