/** The whole dashboard: the parts in their places, and the one place where keys come in. */

import { Box, Text, useInput, useIsScreenReaderEnabled, useStdout } from 'ink';
import { useCallback, useMemo, useRef } from 'react';
import type { Film } from '../../sim/study/film/film.js';
import {
  AnswerPanel,
  DayPanel,
  FootPanel,
  HeadPanel,
  HelpPanel,
  LinePanel,
  PlanPanel,
  StripPanel,
  TakesPanel,
} from './panels/panels.js';
import { Spoken } from './panels/spoken.js';
import { actionsFor } from './rows/actions.js';
import { lineAnswer } from './rows/answer.js';
import { isTooSmall, layoutOf, SMALLEST_SCREEN } from './rows/layout.js';
import { lossOf } from './state/saving.js';
import { type Action, reduce, type State } from './state/state.js';
import type { Colours, Signs } from './theme.js';
import type { Spell } from './thread/real-season.js';

export interface DashboardProps {
  readonly state: State;
  /** Must stay the same function from one drawing to the next. */
  readonly dispatch: (action: Action) => void;
  /** The simulated season; null until it is there. */
  readonly film: Film | null;
  /** The logged one; null without a log. */
  readonly realFilm: Film | null;
  /** Why holes stood empty in the logged season. */
  readonly spells: readonly Spell[];
  /** Picks of each week of the log; null without a log. */
  readonly realPicks: readonly number[] | null;
  readonly signs: Signs;
}

export function Dashboard({ state, dispatch, film, realFilm, spells, realPicks, signs }: DashboardProps) {
  useKeys(state, dispatch);
  const colour = useColour();
  const listening = useIsScreenReaderEnabled();
  const shown = state.real ? realFilm : film;
  if (listening) return <Spoken state={state} film={shown} spells={spells} />;
  if (isTooSmall(state)) {
    const { columns, rows } = SMALLEST_SCREEN;
    const loss = state.cover.kind === 'leave' ? lossOf(state) : null;
    return (
      <Text>
        {loss === null
          ? `This needs a window of ${columns} x ${rows}. q: leave`
          : `${loss} Leave? y: yes n: no`}
      </Text>
    );
  }
  return (
    <Screen state={state} film={shown} spells={spells} realPicks={realPicks} signs={signs} colour={colour} />
  );
}

/** One handler for all keys; it stays the same, so that no key is lost while a season runs. */
function useKeys(state: State, dispatch: (action: Action) => void): void {
  const latest = useRef(state);
  latest.current = state;
  useInput(
    useCallback(
      (input, key) => {
        for (const action of actionsFor({ ...key, input }, latest.current)) {
          dispatch(action);
          // The next burst may come before the next drawing.
          latest.current = reduce(latest.current, action);
        }
      },
      [dispatch],
    ),
  );
}

/** How many colours the terminal has; none if NO_COLOR forbids them. */
function useColour(): Colours {
  const { stdout } = useStdout();
  return useMemo(() => {
    const has = (count: number): boolean => typeof stdout.hasColors === 'function' && stdout.hasColors(count);
    return has(256) ? 256 : has(16) ? 16 : 0;
  }, [stdout]);
}

export interface ScreenProps extends Pick<DashboardProps, 'state' | 'spells' | 'realPicks' | 'signs'> {
  /** Of the season on the screen. */
  readonly film: Film | null;
  readonly colour: Colours;
}

/** What somebody sees who looks. */
export function Screen({ state, film, spells, realPicks, signs, colour }: ScreenProps) {
  const { columns, rows, scenario, day, real, cover, figures, asked, answered } = state;
  // biome-ignore lint/correctness/useExhaustiveDependencies: of the state it depends on these only, not on the day
  const layout = useMemo(() => layoutOf(state, film, signs), [columns, rows, scenario, real, film, signs]);
  const { width, margin, head, takes, strip, between, line, plan } = layout;
  const told = useMemo(
    () => lineAnswer({ figures, asked, answered, real }),
    [figures, asked, answered, real],
  );
  const height = rows - 1;
  const isHelp = cover.kind === 'help';
  const common = { width, signs, colour };
  return (
    <Box
      width={columns}
      height={height}
      overflow="hidden"
      flexDirection="column"
      paddingX={margin}
      gap={isHelp ? 0 : between}
    >
      {isHelp ? (
        <HelpPanel height={height - 1} {...common} />
      ) : (
        <>
          <Box flexDirection="column" flexShrink={0}>
            <HeadPanel state={state} height={head} {...common} />
            {takes > 0 && <TakesPanel state={state} height={takes} {...common} />}
            <StripPanel state={state} plans={strip.plans} height={strip.height} {...common} />
          </Box>
          <Box flexDirection="column" flexShrink={0}>
            <DayPanel state={state} film={film} alone={head === 2} height={1} {...common} />
            <LinePanel
              film={film}
              day={day}
              real={real}
              answer={told}
              line={line}
              height={line.height + line.legend}
              {...common}
            />
          </Box>
          <AnswerPanel
            state={state}
            film={film}
            realPicks={realPicks}
            layout={layout}
            signs={signs}
            colour={colour}
          />
          <PlanPanel
            state={state}
            spells={spells}
            day={real ? day : 0}
            layout={layout}
            height={plan.height + plan.title}
            {...common}
          />
        </>
      )}
      <Box flexGrow={1} flexDirection="column" justifyContent="flex-end">
        <FootPanel state={state} height={1} {...common} />
      </Box>
    </Box>
  );
}
