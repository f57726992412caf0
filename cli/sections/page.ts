/**
 * A page about a plan, and not yet how it is drawn: chapters of sections, as every result has them, and of charts. A chart is typed
 * data with a title, a sentence for who does not see it, and the table behind it.
 */

import type { HoleState } from '../../sim/models/ledger.js';
import type { Form } from '../words/numbers.js';
import type { Section, Table } from './section.js';

export interface Page {
  readonly title: string;
  /** What it is, below the title. */
  readonly about: string;
  /** The answer in one sentence, and its figures. */
  readonly answer: string;
  readonly facts: readonly Fact[];
  readonly chapters: readonly PageChapter[];
  /** Text of the scenario, to be copied, and what to do with it. */
  readonly scenario: string;
  readonly again: string;
  /** Made by which program. */
  readonly made: string;
}

export interface Fact {
  readonly label: string;
  readonly value: string;
  /** Below it; empty if nothing is to be said. */
  readonly note: string;
}

export interface PageChapter {
  readonly title: string;
  readonly parts: readonly (Section | Chart)[];
}

export type Chart = EffectsChart | PlansChart | WeeksChart | SharesChart | CourseChart | HolesChart;

interface Drawn {
  readonly title: string;
  /** What is to be seen in it, for who does not see it. */
  readonly text: string;
  /** What stands behind it, where the sections about it do not say it already. */
  readonly table?: Table;
}

/** What changes bring, each with its interval around it. */
export interface EffectsChart extends Drawn {
  readonly kind: 'effects';
  readonly unit: string;
  readonly form: Form;
  readonly rows: readonly {
    readonly name: string;
    readonly mean: number;
    readonly low: number;
    readonly high: number;
    /** Whether it is worth the change. */
    readonly brings: boolean;
  }[];
}

/** A usual and a bad week of several plans on one scale. */
export interface PlansChart extends Drawn {
  readonly kind: 'plans';
  readonly rows: readonly {
    readonly name: string;
    /** Whether it is the plan that the page is about. */
    readonly now: boolean;
    readonly usual: number;
    readonly bad: number;
    /** What holds it back. */
    readonly note: string;
  }[];
}

/** Heads of each week: the middle of all seasons, and what 8 in 10 of them stay within. */
export interface WeeksChart extends Drawn {
  readonly kind: 'weeks';
  readonly weeks: readonly {
    /** First day, ISO 8601, as all dates. */
    readonly start: string;
    readonly low: number;
    readonly middle: number;
    readonly high: number;
    /** What was picked by the log; null where it tells nothing. */
    readonly picked: number | null;
  }[];
  /** Heads of a usual and a bad week, and from which week on they count; null if the line never runs. */
  readonly running: { readonly from: string; readonly usual: number; readonly bad: number } | null;
}

/** A state of holes and what it is called. */
export interface StateSign {
  readonly state: HoleState;
  readonly text: string;
}

/** Where the hole-days of each stage went. */
export interface SharesChart extends Drawn {
  readonly kind: 'shares';
  readonly states: readonly StateSign[];
  readonly rows: readonly {
    readonly name: string;
    /** Of each state, from 0 to 1. */
    readonly shares: readonly number[];
  }[];
}

/** The same week by week. */
export interface CourseChart extends Drawn {
  readonly kind: 'course';
  readonly states: readonly StateSign[];
  /** First day of each week. */
  readonly starts: readonly string[];
  readonly stages: readonly {
    readonly name: string;
    /** Week by week, of each state, from 0 to 1. */
    readonly weeks: readonly (readonly number[])[];
  }[];
}

/** Every hole on every day. */
export interface HolesChart extends Drawn {
  readonly kind: 'holes';
  readonly states: readonly StateSign[];
  readonly start: string;
  readonly days: number;
  readonly stages: readonly {
    readonly name: string;
    readonly holesPerChannel: number;
    /** Of each hole that is drawn the stretches in which it is in one state. */
    readonly holes: readonly (readonly Stretch[])[];
  }[];
}

/** From a day to before another, in a state by its place in `states`. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly state: number;
}
