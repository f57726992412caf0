/** Ties the state to the world: asks the other thread, keeps time while a season runs, writes files. Draws nothing itself. */

import { Worker } from 'node:worker_threads';
import { useApp, useIsScreenReaderEnabled } from 'ink';
import { type ReactElement, type ReactNode, useEffect, useReducer, useRef, useState } from 'react';
import type { Scenario } from '../../sim/scenario/schema.js';
import { Film } from '../../sim/study/film/film-data.js';
import { checkReplaceable, exists, writeNew, writeWhole } from '../io/write-file.js';
import { Problem } from '../problem.js';
import { Dashboard } from './dashboard.js';
import { openingDay } from './rows/film.js';
import { planBefore } from './state/history.js';
import { isAnswered } from './state/keeping.js';
import { isJson } from './state/saving.js';
import { type Action, beginning, reduce, type State } from './state/state.js';
import { namedRows } from './state/strip.js';
import { Guard } from './terminal/guard.js';
import { comparisonText, failureWords, scenarioText } from './terminal/save.js';
import { useTerminalSize } from './terminal/use-terminal-size.js';
import type { Signs } from './theme.js';
import type { Question, Reply } from './thread/messages.js';
import type { RealSeason } from './thread/real-season.js';

/** Milliseconds between two frames of a season that runs by days; by weeks a frame stays longer. The clock adds some. */
const FRAME = 45;
const WEEK_FRAME = 250;

export interface AppProps {
  readonly scenario: Scenario;
  /** Text of the file it came from: what is saved is this with the changes. */
  readonly text: string;
  /** The season of a log; null without one. */
  readonly real: RealSeason | null;
  readonly signs: Signs;
  /** The built seasons-thread.js. */
  readonly thread: URL;
  /** Draws all of the screen anew, whatever stands on it. */
  readonly repaint: () => void;
  /** Stops the program, and gives the terminal back until it goes on. */
  readonly stop: () => void;
}

/** The element to be rendered: whoever loads this file when it is needed need not load react for it. */
export function appFor(props: AppProps): ReactElement {
  return <App {...props} />;
}

function App(props: AppProps): ReactNode {
  const { exit } = useApp();
  const size = useTerminalSize();
  const [state, dispatch] = useReducer(reduce, null, () =>
    beginning({ scenario: props.scenario, ...size, hasLog: props.real !== null }),
  );
  const [film, setFilm] = useState<Film | null>(null);

  useEffect(() => dispatch({ type: 'resize', ...size }), [size]);
  useSeasons(props, state, dispatch, setFilm);
  useFrames(state, dispatch);
  useSaving(props, state, dispatch);
  // What another program wrote on the screen goes with the help, too.
  const isHelp = state.cover.kind === 'help';
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each wish
  useEffect(props.repaint, [state.repaints, isHelp]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each wish
  useEffect(() => {
    if (state.stops > 0) props.stop();
  }, [state.stops]);
  useEffect(() => {
    if (state.quit) exit();
  }, [state.quit, exit]);
  useEffect(() => {
    const shown = state.real ? props.real?.film : film;
    if (shown) dispatch({ type: 'film', lastDay: shown.days, opensAt: openingDay(shown, state.real) });
  }, [state.real, film, props.real]);

  return (
    <Guard failed={exit}>
      <Dashboard
        state={state}
        dispatch={dispatch}
        film={film}
        realFilm={props.real?.film ?? null}
        spells={props.real?.spells ?? []}
        realPicks={props.real?.picks ?? null}
        signs={props.signs}
      />
    </Guard>
  );
}

/** Ask for the film and the figures of each plan that comes on the screen. */
function useSeasons(
  { thread }: AppProps,
  state: State,
  dispatch: (action: Action) => void,
  setFilm: (film: Film) => void,
): void {
  const { exit } = useApp();
  const seasons = useRef<Worker | null>(null);

  useEffect(() => {
    const hear = (reply: Reply): void => {
      switch (reply.kind) {
        case 'failed':
          exit(new Error(reply.message));
          return;
        case 'film':
          setFilm(new Film(reply.film));
          return;
        case 'figures': {
          const { id, film, result, differences } = reply;
          if (film !== null) setFilm(new Film(film));
          dispatch({ type: 'figures', id, figures: { result, differences } });
          return;
        }
        case 'strip':
          dispatch({ type: 'strip', id: reply.id, told: reply.told });
          return;
        case 'compared':
          dispatch({ type: 'compared', id: reply.id, result: reply.result });
          return;
        case 'kept':
          dispatch({ type: 'keptFigures', number: reply.number, result: reply.result });
      }
    };
    const worker = new Worker(thread).on('message', hear).on('error', exit);
    // The program must be able to end while seasons run.
    worker.unref();
    seasons.current = worker;
    return () => void worker.terminate();
  }, [thread, dispatch, setFilm, exit]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a question belongs to its number, which rises with each
  useEffect(() => seasons.current?.postMessage(questionOf(state)), [state.asked]);
}

/** What is to be known of the plan on the screen. */
function questionOf(state: State): Question {
  const { asked, scenario, season, kept, saving, compared } = state;
  return {
    id: asked,
    scenario,
    before: planBefore(state),
    season,
    isKnown: isAnswered(state),
    strip: namedRows(state),
    compared: saving === null || saving.as === 'plan' || compared !== null ? null : saving.plans,
    kept: kept.flatMap(({ number, scenario: plan, result }) =>
      result === null ? [{ number, scenario: plan }] : [],
    ),
  };
}

/** Keep time while a season runs. Somebody who listens is not interrupted: there the season does not run by itself. */
function useFrames({ playing, stride }: State, dispatch: (action: Action) => void): void {
  const listening = useIsScreenReaderEnabled();
  useEffect(() => {
    if (playing === 0 || listening) return;
    const timer = setInterval(() => dispatch({ type: 'tick' }), stride === 1 ? FRAME : WEEK_FRAME);
    return () => clearInterval(timer);
  }, [playing, stride, listening, dispatch]);
}

/** Write the file that the state wishes for, and say what became of it. A comparison is waited for. */
function useSaving(
  { scenario, text, signs }: AppProps,
  state: State,
  dispatch: (action: Action) => void,
): void {
  const { saving, compared } = state;
  useEffect(() => {
    if (saving === null) return;
    const { path, over } = saving;
    const write = async (): Promise<void> => {
      if (!over && (await exists(path))) {
        dispatch({ type: 'saved', outcome: 'exists', message: '' });
        return;
      }
      const content =
        saving.as === 'plan'
          ? planText(text, scenario, saving.scenario, isJson(path) ? 'json' : 'yaml')
          : compared && comparisonText(compared, saving.as);
      if (content === null) {
        // Not only when all seasons are there.
        await checkReplaceable(path);
        return;
      }
      await (over ? writeWhole : writeNew)(path, content);
      dispatch({ type: 'saved', outcome: 'written', message: `Written: ${path}` });
    };
    write().catch((error: unknown) => {
      if (!(error instanceof Problem)) throw error;
      dispatch({ type: 'saved', outcome: 'failed', message: failureWords(path, error.message, signs.more) });
    });
  }, [saving, compared, scenario, text, signs, dispatch]);
}

/** @throws Problem if the text that was opened cannot be changed */
function planText(text: string, before: Scenario, now: Scenario, form: 'yaml' | 'json'): string {
  const changed = scenarioText(text, before, now, form);
  if (changed.ok) return changed.value;
  throw new Problem(`the scenario cannot be changed at ${changed.faults[0]!.path}.`);
}
