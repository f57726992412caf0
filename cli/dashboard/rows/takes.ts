/** What a head takes, below the headline, and the caution that belongs to it: rows that are there only where the scenario tells of it. */

import { toPlan } from '../../../sim/scenario/plan.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import type { Estimate } from '../../../sim/seasons/sections.js';
import type { Figure } from '../../../sim/study/figures/figure.js';
import { type FigureName, figureNamed, figuresAHead } from '../../../sim/study/figures/figures.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { widthOf } from '../../render/width.js';
import { TAKES_CAUTIONS } from '../../words/cautions.js';
import { formOf } from '../../words/figures.js';
import { figureText, listed } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { isOut, PLAN_BEFORE } from './difference.js';
import { cut, span } from './rows.js';

/** Rows of what a head takes: the figures, and the caution. */
export const TAKES_HEIGHT = 2;

export type TakesState = Pick<State, 'figures' | 'asked' | 'answered'>;

export interface TakesInput {
  readonly state: TakesState;
  readonly width: number;
  readonly signs: Signs;
}

/** Asked with every frame. */
const told = new WeakMap<Scenario, readonly FigureName<'whole'>[]>();

/** What a head takes, as far as the scenario tells of it: what matters most first. */
export function toldAHead(scenario: Scenario): readonly FigureName<'whole'>[] {
  const known = told.get(scenario);
  if (known !== undefined) return known;
  const plan = toPlan(scenario);
  const names = byWeight(figuresAHead(({ isToldOf }) => isToldOf!(plan)));
  told.set(scenario, names);
  return names;
}

/** The cost, which has the others in it as far as they are priced, before them. */
function byWeight(names: readonly FigureName<'whole'>[]): FigureName<'whole'>[] {
  return [...names].sort((a, b) => Number(isCost(b)) - Number(isCost(a)));
}

function isCost(name: FigureName<'whole'>): boolean {
  return (figureNamed(name) as Figure).unit === MONEY;
}

export function takesRows({ state, width, signs }: TakesInput): Row[] {
  const fits = (text: string): boolean => widthOf(text) <= width;
  const caution = TAKES_CAUTIONS.find(fits) ?? TAKES_CAUTIONS.at(-1)!;
  return [figuresRow(state, width, signs), [span(cut(caution, width, signs.more))]];
}

function figuresRow(state: TakesState, width: number, signs: Signs): Row {
  const { figures } = state;
  if (figures === null) return [span('what a head takes is being worked out', 'faint')];
  const old = isOut(state);
  const before = old ? PLAN_BEFORE : '';
  const forms = FORMS.map((form) => takesWords(figures.result, form));
  const words = forms.find((text) => widthOf(before + text) <= width) ?? forms.at(-1)!;
  return [
    ...(old ? [span(before, 'warn')] : []),
    span(cut(words, width - widthOf(before), signs.more), old ? 'faint' : 'plain'),
  ];
}

/** By how much room there is: the shorter ones say the same in fewer words. */
type TakesForm = (typeof FORMS)[number];
const FORMS = ['long', 'short', 'shortest'] as const;

/** What units are called in a sentence. */
const LONG: Readonly<Record<string, string>> = { L: 'litres', min: 'minutes of work' };
const MONEY = 'money';
const LITRES = 'L';

/** `A head takes 2.36 kWh, 1.88 L (good to a factor of 1.5), 7.6 min; costs 3.35`; empty where the scenario tells of none of it. */
export function takesWords({ figures, water }: RunResult, form: TakesForm = 'long'): string {
  const names = figuresAHead(({ name }) => figures[name as FigureName<'whole'>] !== undefined);
  if (names.length === 0) return '';
  if (names.every((name) => figures[name] === null))
    return 'What a head takes is not known: nothing is picked';
  const isLong = form === 'long';
  const words = (name: FigureName<'whole'>): string => {
    const [value, figure]: [Estimate | null, Figure] = [figures[name], figureNamed(name)];
    const text = value === null ? '-' : figureText(value.mean, formOf(figure));
    if (isCost(name)) return `costs ${text}`;
    const doubt = figure.unit === LITRES ? doubtOf(water?.good_to_factor ?? null, form) : '';
    return `${text} ${(isLong ? LONG[figure.unit] : undefined) ?? figure.unit}${doubt}`;
  };
  const parts = names.filter((name) => !isCost(name)).map(words);
  const costs = names.filter(isCost).map(words);
  if (parts.length === 0) return `A head ${costs.join('')}`;
  const takes = `${form === 'shortest' ? 'A head:' : 'A head takes'} ${isLong ? listed(parts) : parts.join(', ')}`;
  return [takes, ...costs.map((cost) => (isLong ? `it ${cost}` : cost))].join('; ');
}

function doubtOf(factor: number | null, form: TakesForm): string {
  if (factor === null) return '';
  return form === 'shortest' ? ` (factor ${factor})` : ` (good to a factor of ${factor})`;
}
