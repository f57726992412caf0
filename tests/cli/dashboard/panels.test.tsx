import { Box, renderToString, Text } from 'ink';
import { describe, expect, test } from 'vitest';
import { Screen } from '../../../cli/dashboard/dashboard.js';
import { painted } from '../../../cli/dashboard/panels/paint.js';
import { Rows } from '../../../cli/dashboard/panels/rows.js';
import { sameButFor } from '../../../cli/dashboard/panels/same.js';
import { span } from '../../../cli/dashboard/rows/rows.js';
import type { State } from '../../../cli/dashboard/state/state.js';
import { type Colours, DRAWN, PLAIN, type Signs, TEXT_STYLES } from '../../../cli/dashboard/theme.js';
import { widthOf } from '../../../cli/render/width.js';
import type { HoleState } from '../../../sim/models/ledger.js';
import type { Film } from '../../../sim/study/film/film.js';
import {
  acted,
  answered,
  CELLAR,
  example,
  figures,
  filmBy,
  HELD_BY_FINISHING,
  KITCHEN,
  lineOf,
  pressing,
  start,
} from './given.js';

const SIZES = [
  { columns: 80, rows: 24 },
  { columns: 120, rows: 40 },
  { columns: 200, rows: 60 },
];
const RESULT = figures({ weeks: Array(26).fill([10, 16, 20]), limits: HELD_BY_FINISHING });
const SPELLS = [{ stage: 'finishing', from: 0, to: 100, holes: 6, cause: 'nobody came' }];

function filmFor(
  { stages }: State['scenario'],
  stateOf: (day: number, stage: number, hole: number) => HoleState = (day, _, hole) =>
    hole < day ? 'growing' : 'filling',
): Film {
  return filmBy({
    stages: stages.map(({ name, channels, holes }) => ({ name, channels, holesPerChannel: holes })),
    // Long enough for whatever is looked at; beyond it the last picture stands.
    days: 60,
    stateOf,
    dealt: () => [10, 4, ...stages.slice(1).map((_, s) => 5 + s)],
  });
}

function screen(state: State, film: Film | null, signs: Signs = DRAWN, colour: Colours = 0): string[] {
  const shown = (
    <Screen state={state} film={film} spells={SPELLS} realPicks={[0, 8, 9]} signs={signs} colour={colour} />
  );
  return renderToString(shown, { columns: state.columns }).split('\n');
}

/** Everything that can be on the screen, at one size. */
function everything(scenario: State['scenario'], size: { columns: number; rows: number }): State[] {
  const first = answered(start(scenario, size, true), RESULT);
  const changed = pressing(first, 'l', '+', 'k', { downArrow: true }, '+');
  const differences = {
    heads_a_week: { mean: 1.3, low: 1, high: 1.6, verdict: 'more' },
    bad_week: { mean: 0, low: -1, high: 1, verdict: 'none' },
  } as const;
  const known = acted(changed, {
    type: 'figures',
    id: changed.asked,
    figures: { result: RESULT, differences },
  });
  return [
    start(scenario, size),
    first,
    acted(first, { type: 'go', to: 'end' }),
    changed,
    known,
    pressing(known, 'k', '+', 'k', '+', 'k', '+', 'k', '+', 'k'),
    pressing(known, '?'),
    pressing(known, 's', 'a file name that is longer than the screen is wide, by far: '.repeat(4)),
    { ...known, cover: { kind: 'over', text: 'line.yaml' } },
    { ...known, note: 'A message.' },
  ];
}

describe.each(SIZES)('on a screen of $columns x $rows', (size) => {
  const wide = lineOf([
    { name: '育苗室の棚', channels: 4, holesPerChannel: 20 },
    { name: 'finishing 🌱', channels: 30, holesPerChannel: 40 },
  ]);

  test('nothing exceeds it, whatever is shown', () => {
    for (const scenario of [CELLAR, KITCHEN, wide, example('market-farm')]) {
      const film = filmFor(scenario);
      for (const state of everything(scenario, size)) {
        const lines = screen(state, film);
        // The last row of the screen stays free.
        expect(lines.length).toBeLessThanOrEqual(size.rows - 1);
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(size.columns);
      }
    }
  });

  test('with signs of plain ASCII all is as wide and as high as with drawn ones', () => {
    const film = filmFor(CELLAR);
    const widths = (state: State, signs: Signs): number[] => screen(state, film, signs).map(widthOf);
    for (const state of everything(CELLAR, size)) expect(widths(state, PLAIN)).toEqual(widths(state, DRAWN));
  });

  test('all parts are in sight: the answer, the strip, the day, the stages, the chart, the remedies, the plan, the keys', () => {
    const state = acted(answered(start(CELLAR, size), RESULT), { type: 'step', days: 49 });
    const text = screen(state, filmFor(CELLAR)).join('\n');
    for (const words of [
      'Cellar line',
      '22 heads in a usual week, 14 in a bad one; held back by finishing',
      /Sow every +usual +bad +heads/,
      /► 3 d now/,
      /Mon 22 Feb 2027 {2}day 49 of 182 {2}sown 10, moved 11/,
      /10 → germin\S+ .* 5 → +nursery .* 6 → +finishing ◄.* 4 →/,
      'Heads a week',
      /finishing \S*\s?channel +\+1\.9 .*most/,
      'The plan ─',
      /› sow +every 3 d/,
      /visits +mon thu sat/,
      '? help   q Ctrl-C leave',
    ]) {
      expect(text).toMatch(words);
    }
  });

  test('every hole of the cellar is drawn, each with the sign of its state', () => {
    const film = filmFor(CELLAR, (_, s) => (s === 0 ? 'blocked' : s === 1 ? 'unattended' : 'held'));
    const text = screen(answered(start(CELLAR, size), RESULT), film).join('\n');
    const legend = size.rows > 24 ? 1 : 0;
    expect(text.split('■').length - 1).toBe(40 + legend);
    expect(text.split('◆').length - 1).toBe(48 + legend);
    expect(text.split('▲').length - 1).toBe(72 + legend);
  });

  test('a line that is too large is drawn as shares', () => {
    const hall = example('hall-150000');
    const stages = hall.stages.map(({ name }) => ({ name, channels: 1, holesPerChannel: 4 }));
    // As many holes as the hall would take long to film by hand; that it keeps counts only is what matters.
    const film = filmBy({
      stages,
      days: 7,
      stateOf: (_, __, hole) => (hole < 3 ? 'growing' : 'unsupplied'),
      onlyCounts: true,
    });
    const text = screen(answered(start(hall, size), RESULT), film).join('\n');
    expect(text.match(/●+ 75\.0 %/g)).toHaveLength(3);
    expect(text.match(/○+ 25\.0 %/g)).toHaveLength(3);
  });

  test('the season of a log is shown with its causes', () => {
    const text = screen(answered(start(CELLAR, size, true), RESULT), filmFor(CELLAR)).join('\n');
    expect(text).toMatch(/the (season of the )?log · at rest/);
    expect(text).toMatch(/finishing: up to 6 holes empty, Mon 4 Jan 2027 to Tue 13 Apr 2027:/);
    expect(text).toMatch(/╋ really picked/);
  });

  test('before anything is known it is said what is being done', () => {
    const text = screen(start(CELLAR, size), null).join('\n');
    expect(text).toMatch(/The season is being simulated\./);
    expect(text).toMatch(/running 200 seasons/);
  });

  test('the keys stand in its last row but one', () => {
    const lines = screen(answered(start(CELLAR, size), RESULT), filmFor(CELLAR));
    expect(lines).toHaveLength(size.rows - 1);
    expect(lines.at(-1)).toMatch(/^ {1,2}space run/);
  });
});

test('nothing jumps when a plan is kept, or when the strip is about something else', () => {
  for (const size of SIZES) {
    const before = answered(start(CELLAR, size), RESULT);
    const film = filmFor(CELLAR);
    const place = (state: State): number[] =>
      ['day 0 of', 'Heads a week', 'The plan'].map((words) =>
        screen(state, film).findIndex((line) => line.includes(words)),
      );
    expect(place(pressing(before, 'k'))).toEqual(place(before));
    for (let state = before, i = 0; i < 6; i++, state = pressing(state, 'c')) {
      expect(place(state)).toEqual(place(before));
    }
  }
});

describe('colours', () => {
  test('are there if they may be, and the text is the same without', () => {
    const state = answered(start(), RESULT);
    const film = filmFor(CELLAR);
    const plain = screen(state, film, DRAWN, 0);
    const coloured = screen(state, film, DRAWN, 256);
    expect(plain.join('')).not.toContain('\u001b');
    expect(coloured.join('')).toContain('\u001b[');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escape codes begin with one
    expect(coloured.map((line) => line.replace(/\u001b\[[0-9;]*m/g, '').trimEnd())).toEqual(plain);
  });

  test('end where their piece ends, blanks have none, and none stand at the end', () => {
    expect(painted([span('a', 'dead'), span('b')], 256)).toBe('\u001b[38;5;131ma\u001b[0mb');
    expect(painted([span('a', 'dead'), span('  '), span('b', 'dead')], 16)).toBe('\u001b[91ma  b\u001b[0m');
    expect(painted([span('a', 'dead'), span('  ')], 16)).toBe('\u001b[91ma\u001b[0m');
    expect(painted([span('  ', 'dead')], 256)).toBe('');
    expect(painted([span('a', 'warn'), span('b', 'blocked')], 16)).toBe('\u001b[1ma\u001b[0;35mb\u001b[0m');
    expect(painted([span('a', 'dead')], 0)).toBe('a');
  });

  test('what is chosen is turned round, and nothing behind it', () => {
    expect(TEXT_STYLES.chosen).toEqual({ inverse: true });
    expect(painted([span('a', 'chosen'), span(' '), span('b')], 256)).toBe('\u001b[7ma\u001b[0m b');
  });
});

describe('rows', () => {
  const above = (rows: Parameters<typeof Rows>[0]['rows'], height: number): string[] =>
    renderToString(
      <Box flexDirection="column">
        <Rows rows={rows} height={height} width={10} colour={0} />
        <Text>below</Text>
      </Box>,
      { columns: 20 },
    ).split('\n');

  test('take up their height, whatever is in them', () => {
    expect(above([[span('one')]], 3)).toEqual(['one', '', '', 'below']);
    expect(above([[span('one')], [span('two')]], 1)).toEqual(['one', 'below']);
    expect(above([[span('one')]], 0)).toEqual(['below']);
  });

  test('are cut to their width', () => {
    expect(above([[span('a row that is too long')]], 1)).toEqual(['a row that', 'below']);
  });
});

describe('a part is drawn again', () => {
  const same = sameButFor('scenario', 'knob');
  const state = start();

  test('not if what it does not show has changed', () => {
    expect(same({ state, width: 80 }, { state: pressing(state, { rightArrow: true }), width: 80 })).toBe(
      true,
    );
  });

  test('if what it shows has changed, or its room', () => {
    expect(same({ state, width: 80 }, { state: pressing(state, { downArrow: true }), width: 80 })).toBe(
      false,
    );
    expect(same({ state, width: 80 }, { state, width: 90 })).toBe(false);
  });
});
