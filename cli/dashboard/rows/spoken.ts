/** The dashboard in sentences, for a screen reader: what it draws, told in the order of its weight. */

import { isoOfDay } from '../../../sim/models/dates.js';
import { STATES } from '../../../sim/models/ledger.js';
import { TAKES_CAUTION } from '../../../sim/models/physical/cautions.js';
import { figureNamed } from '../../../sim/study/figures/figures.js';
import type { Film } from '../../../sim/study/film/film.js';
import { dateText } from '../../words/dates.js';
import { formOf, VERDICT_WORDS } from '../../words/figures.js';
import { heldBackBy } from '../../words/limits.js';
import { counted, figureText, thousands } from '../../words/numbers.js';
import { STATE_WORDS } from '../../words/states.js';
import { GROUPS } from '../state/keys.js';
import { differing, knobsOf } from '../state/knobs.js';
import { lossOf } from '../state/saving.js';
import type { State } from '../state/state.js';
import { nameOf } from '../state/strip.js';
import type { Spell } from '../thread/real-season.js';
import { dayWords } from './day.js';
import { amountText, differencesOf, isOut, runningWords } from './difference.js';
import { answerWords, factWords } from './figures.js';
import { frameOf } from './film.js';
import { cellsOf, KEPT_FIGURES } from './kept.js';
import { cut } from './rows.js';
import { lastOr, spellsOn, spellWords } from './spells.js';
import { takesWords, toldAHead } from './takes.js';
import { holeWords, seasonWords } from './words.js';

/** Figures of a plan of the strip, in the order in which they are told. */
const STRIP_FIGURES = (['usual_week', 'bad_week'] as const).map(figureNamed);

export interface SpokenInput {
  readonly state: State;
  readonly film: Film | null;
  readonly spells: readonly Spell[];
}

export function spokenLines(input: SpokenInput): string[] {
  const { state } = input;
  const lines =
    state.cover.kind === 'help'
      ? helpLines()
      : [
          ...dayLines(input),
          ...figureLines(state),
          ...stripLines(state),
          ...planLines(input),
          ...keptLines(state),
        ];
  return [...lines, lastLine(state)].map((line) => cut(line, Number.MAX_SAFE_INTEGER));
}

function dayLines({ state, film }: SpokenInput): string[] {
  const { scenario, day, lastDay, real } = state;
  const date = dateText(isoOfDay(scenario.start, day));
  const lines = [`${scenario.title}, ${seasonWords(state)}. ${date}, day ${day} of ${lastDay}.`];
  if (film === null) return [...lines, 'The season is being simulated.'];
  const frame = frameOf(film, day);
  lines.push(`That day: ${dayWords(film, day)}.`);
  film.stages.forEach(({ name, holes }, s) => {
    const counts = film.countsAt(frame, s);
    const parts = STATES.flatMap((state, k) =>
      counts[k] === 0 ? [] : [`${thousands(counts[k]!)} ${holeWords(state, real)}`],
    );
    lines.push(`${name}, ${counted(holes, 'hole')}: ${parts.join('; ')}.`);
  });
  return lines;
}

function figureLines(state: State): string[] {
  const { figures } = state;
  if (figures === null) return [`${sentence(runningWords(state.scenario))}.`];
  const old = isOut(state) ? 'Figures of an older plan' : 'Figures';
  const words = [...answerWords(figures.result), ...factWords(figures.result)].map(
    ({ label, value }) => `${label.trim()} ${value}`,
  );
  const takes = takesWords(figures.result);
  return [`${old}: ${words.join('; ')}.`, ...(takes === '' ? [] : [`${takes}.`, TAKES_CAUTION])];
}

function planLines({ state, spells }: SpokenInput): string[] {
  const { scenario, knob, mark, real } = state;
  const knobs = knobsOf(scenario).map(
    ({ label, value }, i) =>
      `${i + 1}. ${label}: ${value(scenario)}${i === knob && mark === 'plan' ? ', chosen' : ''}`,
  );
  const lines = ['The plan:', ...knobs];
  if (real) {
    const touching = spellsOn(spells, lastOr(state.day, state));
    if (touching.length === 0) return [...lines, 'No hole of the log stood empty that day.'];
    return [...lines, ...touching.map((spell) => `${spellWords(spell, scenario.start)}.`)];
  }
  const told = differencesOf(state);
  if ('why' in told) return [...lines, `${sentence(told.why).replace(/\.$/, '')}.`];
  return [
    ...lines,
    'Against the plan before, with 95 % intervals:',
    ...told.found.map(({ figure, difference }) =>
      difference === null
        ? `${figure.label}: cannot be told.`
        : `${figure.label} ${amountText(figure, difference)}, ${VERDICT_WORDS[difference.verdict]}.`,
    ),
  ];
}

/** The plans side by side, numbered, and how to take one of them. */
function stripLines(state: State): string[] {
  const { strip, mark, pointer } = state;
  const how = mark === 'strip' ? 'up and down choose, Enter takes one' : 'Tab goes there, Enter takes one';
  return [
    `Plans side by side, ${how}:`,
    ...strip.rows.map((row, i) => {
      const { result, now } = row;
      const name = nameOf(row, strip.about, state);
      const figures = [...STRIP_FIGURES, ...toldAHead(row.scenario).map(figureNamed)].flatMap(
        ({ name: of, short }) => {
          const value = result?.figures[of];
          return value ? [`${short} ${figureText(value.mean, formOf(figureNamed(of)))}`] : [];
        },
      );
      const told = figures.length === 0 ? 'not known yet' : figures.join(', ');
      const held = result?.limits ? `, held back by ${heldBackBy(result.limits)}` : '';
      const chosen = mark === 'strip' && i === pointer ? ', chosen' : '';
      return `${i + 1}. ${name}${now && name !== 'now' ? ', now' : ''}: ${told}${held}${chosen}`;
    }),
  ];
}

function keptLines(state: State): string[] {
  return state.kept.map(({ number, scenario, result }) => {
    const cells = cellsOf(scenario, result);
    const told = KEPT_FIGURES.map(({ short }, f) => `${short} ${cells[f]}`).join(', ');
    const [seeds, holes] = cells.slice(KEPT_FIGURES.length);
    const changes = differing(scenario, state.scenario) || 'the same as now';
    return `Kept plan ${number}, ${changes}: ${told}, ${seeds} seeds a week, ${holes} holes.`;
  });
}

function helpLines(): string[] {
  return [
    ...GROUPS.flatMap(({ title, bindings }) => [
      `${title}:`,
      ...bindings.map(({ keys, words }) => `${keys}: ${words}.`),
    ]),
    `A hole is one of: ${Object.values(STATE_WORDS)
      .map(({ short }) => short)
      .join('; ')}.`,
    'The same as plain text, which is easier to listen to: evensow run FILE.',
    'Any key closes this help.',
  ];
}

function lastLine(state: State): string {
  const { cover, note } = state;
  switch (cover.kind) {
    case 'name':
      return `${faultWords(cover.fault)}Save as, end with Enter, Escape leaves it: ${cover.text}`;
    case 'value': {
      const { label, value } = knobsOf(state.scenario)[state.knob]!;
      const now = `${sentence(label)}, now ${value(state.scenario)}`;
      return `${faultWords(cover.fault)}${now}; type, end with Enter, Escape leaves it: ${cover.text}`;
    }
    case 'over':
      return `${cover.wish.path} is there already. Write over it? y: yes, n: no.`;
    case 'leave':
      return `${lossOf(state)} Leave? y: yes, n: no.`;
    case 'help':
      return '';
    case 'none':
      return note ?? 'Question mark: help. q: leave.';
  }
}

function faultWords(fault: string | null): string {
  return fault === null ? '' : `${fault} `;
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
