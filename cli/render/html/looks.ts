/** How states of holes look: each in its own shade and pattern, so that they can be told apart without colour too. */

import type { Element, Elements } from './elements.js';

/** A state by its name; what is not here looks like an empty hole. */
const PATTERNED = ['dead', 'unattended', 'blocked', 'held', 'cleaning', 'filling', 'untended'] as const;

/** What an area of a state is filled with. */
export function fillOf(state: string): string {
  if (state === 'growing') return 'var(--growing)';
  return (PATTERNED as readonly string[]).includes(state) ? `url(#p-${state})` : 'var(--empty)';
}

/** The patterns, to be put into the page once. */
export function patterns(make: Elements): Element {
  const tile = (state: (typeof PATTERNED)[number], ...shapes: Element[]): Element =>
    make.svg(
      'pattern',
      { id: `p-${state}`, width: 6, height: 6, patternUnits: 'userSpaceOnUse' },
      make.svg('rect', { width: 6, height: 6, fill: `var(--${state})` }),
      ...shapes,
    );
  const lines = (d: string, width = 1): Element =>
    make.svg('path', { d, stroke: 'var(--mark)', 'stroke-width': width, fill: 'none' });
  const dots = (radius: number): Element =>
    make.svg('circle', { cx: 3, cy: 3, r: radius, fill: 'var(--mark)' });
  const [rising, falling] = ['M-1,1 1,-1M0,6 6,0M5,7 7,5', 'M-1,5 1,7M0,0 6,6M5,-1 7,1'];
  return make.svg(
    'svg',
    { class: 'patterns', width: 0, height: 0, 'aria-hidden': 'true', focusable: 'false' },
    make.svg(
      'defs',
      {},
      tile('dead', lines(rising + falling)),
      tile('unattended', lines(rising)),
      tile('blocked', lines(falling, 2)),
      tile('held', dots(1.5)),
      tile('cleaning', lines('M0,3 6,3')),
      tile('filling', dots(0.8)),
      tile('untended', lines('M3,0 3,6')),
    ),
  );
}

/** What each of these states looks like. */
export function legend(
  make: Elements,
  states: readonly { readonly state: string; readonly text: string }[],
): Element {
  return make.of(
    'ul',
    { class: 'legend' },
    ...states.map(({ state, text }) =>
      make.of(
        'li',
        {},
        make.svg(
          'svg',
          { width: 22, height: 14, 'aria-hidden': 'true', focusable: 'false' },
          make.svg('rect', {
            x: 0.5,
            y: 0.5,
            width: 21,
            height: 13,
            fill: fillOf(state),
            stroke: 'var(--ink)',
          }),
        ),
        ` ${text}`,
      ),
    ),
  );
}
