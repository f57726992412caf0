/**
 * The one table of figures: what each is called, how it is written, which way is better, and how it comes from the tallies.
 * Studies, sections and the dashboard read this table.
 *
 * A figure is computed from all seasons, and from each section of them: that gives its interval (estimates.ts).
 */

import type { Plan } from '../../models/plan.js';
import type { Figure, Scope } from './figure.js';
import { OF_ANY_PLAN } from './of-any-plan.js';
import { MONEY_A_SEASON, TAKES_A_HEAD } from './of-takes.js';

type Entry = (typeof OF_ANY_PLAN)[number];

/** Names of the figures of a scope that any plan has. */
export type FigureName<Of extends Scope = Scope> = Extract<Entry, { scope: Of }>['name'];

/** All figures, in the order in which they are printed. */
export const FIGURES: readonly Figure[] = [...OF_ANY_PLAN, ...TAKES_A_HEAD, ...MONEY_A_SEASON];

export function figureNamed<Name extends FigureName>(name: Name): Extract<Entry, { name: Name }> {
  return FIGURES.find((figure) => figure.name === name) as Extract<Entry, { name: Name }>;
}

/** Names of the figures of what a head takes that `isTold` is true of, as printed: others name them as those that any plan has. */
export function figuresAHead(isTold: (figure: Figure) => boolean): FigureName<'whole'>[] {
  return namesOf(TAKES_A_HEAD.filter(isTold));
}

/** The same of the money of a season. */
export function figuresASeason(isTold: (figure: Figure) => boolean): FigureName<'whole'>[] {
  return namesOf(MONEY_A_SEASON.filter(isTold));
}

function namesOf(figures: readonly Figure[]): FigureName<'whole'>[] {
  return figures.map(({ name }) => name as FigureName<'whole'>);
}

/** Something of each figure of a scope, by their names. @param plan adds those figures that it has and not every plan */
export function ofFigures<Of extends Scope, Value>(
  scope: Of,
  value: (figure: Figure) => Value,
  plan: Plan | null = null,
): Readonly<Record<FigureName<Of>, Value>> {
  const figures = FIGURES.filter(
    (figure) =>
      figure.scope === scope && (figure.isToldOf === undefined || (plan !== null && figure.isToldOf(plan))),
  );
  return Object.fromEntries(figures.map((figure) => [figure.name, value(figure)])) as Record<
    FigureName<Of>,
    Value
  >;
}
