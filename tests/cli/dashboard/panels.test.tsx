import { Box, renderToString, Text } from 'ink';
import { describe, expect, test } from 'vitest';
import { Screen } from '../../../cli/dashboard/dashboard.js';
import { painted } from '../../../cli/dashboard/panels/paint.js';
import { Rows } from '../../../cli/dashboard/panels/rows.js';
import { sameButFor } from '../../../cli/dashboard/panels/same.js';
import { span } from '../../../cli/dashboard/rows/rows.js';
import type { State } from '../../../cli/dashboard/state/state.js';
import {
  type Colours,
  DRAWN,
  PLAIN,
  type Signs,
  signsFor,
  TEXT_STYLES,
} from '../../../cli/dashboard/theme.js';
import { widthOf } from '../../../cli/render/width.js';
import { type HoleState, STATES } from '../../../sim/models/ledger.js';
import type { Film } from '../../../sim/study/film/film.js';
import { CONSOLE_SIGNS } from './fonts.js';
import {
  acted,
  answered,
  askedOver,
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
    { ...known, cover: askedOver('line.yaml') },
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
        expect(lines.filter((line) => widthOf(line) > size.columns)).toEqual([]);
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
      /10 → germ\S+ .* 5 → +nursery .* 6 → +finishing ◄.* 4 →/,
      'Heads a week',
      /finishing \S*\s?channel +\+1\.9 .*most/,
      'The plan ─',
      /› sow +every 3 d/,
      /visits +mon thu sat/,
      '? help  q leave',
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
    expect(text).toMatch(/finishing, 4 Jan to 13 Apr: \S/);
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
    expect(lines.at(-1)).toMatch(/^ {1,2}up down choose .* {2}q leave$/);
  });
});

test('nothing jumps when a plan is kept or changed, something is typed or told, or when the strip is about something else', () => {
  for (const size of SIZES) {
    const before = answered(start(CELLAR, size), RESULT);
    const film = filmFor(CELLAR);
    const place = (state: State): number[] => {
      const lines = screen(state, film);
      return ['day 0 of', 'Heads a week', 'The plan'].map((words) =>
        lines.findIndex((line) => line.includes(words)),
      );
    };
    const at = place(before);
    expect(at.every((row) => row > 0)).toBe(true);
    const keys = [
      'k',
      '\t',
      'u',
      '?|?',
      's',
      '7',
      '0\r',
      '12\r',
      '\rmon tue wed fri sat\r',
      'k|+|k|q',
      '--',
      'x',
      '^|\rmon\r',
      '^|+',
    ];
    for (const typed of keys) {
      const presses = typed
        .split('|')
        .map((key) => (key === '^' ? { upArrow: true } : key === '\t' ? { tab: true } : key));
      expect(place(pressing(before, ...presses)), typed).toEqual(at);
    }
    for (let state = before, i = 0; i < 6; i++, state = pressing(state, 'c')) {
      expect(place(state)).toEqual(at);
    }
  }
});

/** What tells a row of the screen, whatever else stands in it. */
const ROWS = [
  /heads/,
  /^ *(Sow|Kept|Seeds|Channels|Visits|Days|germ|nurs|fini)/,
  /day 0 of/,
  /^ *[\d·]+ → germ/,
  /Heads a week/,
  /┼Jan/,
];

test('rows stay where they are: when the film comes, the figures, the strip, a message, another plan that is kept', () => {
  const film = filmFor(CELLAR);
  for (const size of [{ columns: 60, rows: 16 }, ...SIZES]) {
    const first = answered(start(CELLAR, size), RESULT);
    const place = (state: State, shown: Film | null = film): number[] => {
      const lines = screen(state, shown);
      // The last row has a question, a message or the keys.
      return [...ROWS.map((row) => lines.findIndex((line) => row.test(line))), lines.length];
    };
    const at = place(first);
    expect(at.every((row) => row >= 0)).toBe(true);
    // Before the film the line has a message in place of its stages; before the figures there is no headline.
    expect(place(start(CELLAR, size), null).filter((_, i) => i !== 0 && i !== 3)).toEqual(
      at.filter((_, i) => i !== 0 && i !== 3),
    );
    const kept = pressing(first, 'k');
    const states = [kept, pressing(kept, '+', 'k'), { ...first, note: 'A message.' }, pressing(first, '+')];
    for (let state = kept, i = 0; i < 6; i++, state = pressing(state, 'c')) states.push(state);
    for (const state of states) expect(place(state).slice(1)).toEqual(at.slice(1));
  }
});

describe('long names', () => {
  // As long as a scenario may have them, the last letters apart, narrow and wide.
  const LONG = 'butterhead lettuce on the tall shelf by the window, no. ';
  const line = (names: readonly string[]): State['scenario'] =>
    lineOf(names.map((name) => ({ name, channels: 2, holesPerChannel: 12 })));

  test.each([
    ['Latin', [`${LONG}one`, `${LONG}two`, 'c']],
    ['wide', [`${'育苗室の棚'.repeat(6)}上`, `${'育苗室の棚'.repeat(6)}下`, 'c']],
    ['emoji', [`a${'🌱🥬'.repeat(12)}🌞`, `a${'🌱🥬'.repeat(12)}🌚`, 'c']],
  ])(
    'lose their middle, two that differ at their end stay different, and nothing is too wide: %s',
    (_, names) => {
      const [one, two] = names as [string, string, string];
      const limits = { ...HELD_BY_FINISHING, stages: [one] };
      for (const size of [{ columns: 60, rows: 16 }, ...SIZES]) {
        const scenario = { ...line(names), title: one };
        const lines = screen(answered(start(scenario, size), { ...RESULT, limits }), filmFor(scenario));
        for (const text of lines) expect(widthOf(text)).toBeLessThanOrEqual(size.columns);
        const streams = lines.find((text) => / → /.test(text))!;
        const [first, second] = streams.split('→').slice(1, 3);
        if (!first!.includes(one)) expect(first).toMatch(/\S…\S/);
        if (!second!.includes(two)) expect(second).toMatch(/\S…\S/);
        // The last letter tells them apart.
        expect(first).toContain([...one].at(-1));
        expect(second).toContain([...two].at(-1));
      }
    },
  );
});

test('on the Linux console nothing is written but what its fonts have, whatever is shown', () => {
  const signs = signsFor({ TERM: 'linux', LANG: 'C.UTF-8' }, 'linux');
  const states: readonly HoleState[] = STATES;
  const film = filmFor(CELLAR, (_, __, hole) => states[hole % states.length]!);
  const letters = new Set<string>();
  for (const size of [{ columns: 60, rows: 16 }, ...SIZES]) {
    for (const [i, state] of everything(CELLAR, size).entries()) {
      // Only in the first of them the season is not there yet.
      for (const shown of i === 0 ? [null, film] : [film]) {
        const text = screen(state, shown, signs, 16).join('');
        // biome-ignore lint/suspicious/noControlCharactersInRegex: escape codes begin with one
        for (const letter of text.replace(/\u001b\[[0-9;]*m/g, '')) letters.add(letter);
      }
    }
  }
  expect([...letters].filter((letter) => !/[ -~]/.test(letter) && !CONSOLE_SIGNS.includes(letter))).toEqual(
    [],
  );
});

test('a text is as wide for us as for ink', () => {
  const letters = [
    'a',
    'é',
    'e\u0301',
    '菜',
    'ｶﾞ',
    '상',
    '🌱',
    '👩\u200d🌾',
    '🇨🇭',
    '●',
    '…',
    '☀\ufe0f',
    'Ω',
    'Ж',
  ];
  for (const letter of letters) {
    const [shown] = renderToString(
      <Box width={12}>
        <Text>{letter}</Text>
        <Box flexGrow={1} />
        <Text>|</Text>
      </Box>,
      { columns: 12 },
    ).split('\n');
    expect([letter, shown!.split(' ').length - 1]).toEqual([letter, 11 - widthOf(letter)]);
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
