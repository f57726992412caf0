/** The state of the dashboard, and what can happen to it: plain data. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import type { CompareResult } from '../../../sim/study/compare.js';
import type { RunResult } from '../../../sim/study/summary.js';
import type { Differences, NamedPlan, StripTold } from '../thread/messages.js';
import type { Strip, StripAbout } from './strip.js';

/** What covers the picture or the last row, if anything. */
export type Cover =
  /** `leave`: something would be lost, leave all the same? */
  | { readonly kind: 'none' | 'help' | 'leave' }
  /** `name`: a file name is being typed. `value`: a value of the chosen knob is. `fault`: what is wrong with it, a sentence. */
  | { readonly kind: 'name' | 'value'; readonly text: string; readonly fault: string | null }
  /** The file is there, may it be written over? */
  | { readonly kind: 'over'; readonly wish: Saving };

/** A plan that was put aside to be looked at beside others. */
export interface Kept {
  /** What it is called: 1 for the first that was kept, and so on. */
  readonly number: number;
  readonly scenario: Scenario;
  /** Its figures, once they are known. */
  readonly result: RunResult | null;
}

/** Figures of a plan. */
export interface Figures {
  readonly result: RunResult;
  readonly differences: Differences | null;
}

/** All that undo brings back: the plan on the screen, and those that are kept. */
export type Past = Pick<State, 'scenario' | 'kept'>;

/** Which part of the screen up, down and Enter act on. */
export type Mark = 'strip' | 'plan';

/** What a file holds: the plan on the screen as a scenario, or the comparison of the strip as text or as CSV. */
export type SavedAs = 'plan' | 'text' | 'csv';

/** A wish that the program should write a file. It stays what it was, whatever comes on the screen until it is carried out. */
export type Saving = {
  readonly path: string;
  /** The user said that it may take the place of one that is there. */
  readonly over: boolean;
} & (
  | {
      readonly as: 'plan';
      /** The plan on the screen at that moment. */
      readonly scenario: Scenario;
    }
  | {
      readonly as: Exclude<SavedAs, 'plan'>;
      /** The plans of the strip at that moment. */
      readonly plans: readonly NamedPlan[];
    }
);

export interface State {
  readonly columns: number;
  readonly rows: number;
  /** The plan that was opened. */
  readonly opened: Scenario;
  /** The plan on the screen. */
  readonly scenario: Scenario;
  /** What there was before each change, the last one last, and what was undone. */
  readonly past: readonly Past[];
  readonly future: readonly Past[];
  /** Which season is filmed. */
  readonly season: number;
  /** A season that was logged, not simulated, is shown. */
  readonly real: boolean;
  /** There is a log. */
  readonly hasLog: boolean;
  /** Last day of the film [d]. */
  readonly lastDay: number;
  readonly day: number;
  /** false until a key or the first film has chosen the day. */
  readonly dayChosen: boolean;
  /** 1 forward, -1 backward, 0 at rest. */
  readonly playing: -1 | 0 | 1;
  /** Days that the film moves at a time: 1 or 7. */
  readonly stride: 1 | 7;
  readonly mark: Mark;
  /** The chosen knob of the plan. */
  readonly knob: number;
  /** The chosen row of the strip. */
  readonly pointer: number;
  /** What the strip should be about; where that cannot be, as when its plans are kept no more, it is about something else. */
  readonly about: StripAbout | null;
  /** The plan beside its neighbours, or beside those that were kept. */
  readonly strip: Strip;
  /** Number of the last question; its answer may still be out. */
  readonly asked: number;
  /** Figures on the screen, of question `answered`: those of an older plan until new ones come. */
  readonly figures: Figures | null;
  readonly answered: number;
  readonly kept: readonly Kept[];
  /** Number of the next plan that is kept: each is given out once, also where undo takes it back, as its figures may still come. */
  readonly nextKept: number;
  readonly cover: Cover;
  readonly saving: Saving | null;
  /** The comparison that is to be saved, once all its seasons are there. */
  readonly compared: CompareResult | null;
  /** Plans that were saved as scenarios. */
  readonly written: readonly Scenario[];
  /** A short message; gone with the next key. */
  readonly note: string | null;
  /** Wishes that all of the screen be drawn anew, so far. */
  readonly repaints: number;
  /** Wishes that the program be stopped, so far. */
  readonly stops: number;
  readonly quit: boolean;
}

export type Action =
  | { readonly type: 'tick' | 'stride' | 'real' | 'undo' | 'redo' | 'keep' | 'swap' | 'drop' }
  /** Another thing that the strip is about. */
  | { readonly type: 'about'; readonly by: 1 | -1 }
  /** The mark goes from the strip to the plan, or back. `astray`: a key of the plan was pressed while it is on the strip. */
  | { readonly type: 'mark' | 'astray' }
  /** Another row of the strip, or another knob, where the mark is. */
  | { readonly type: 'choose'; readonly by: 1 | -1 }
  /** The plan of a row of the strip comes on the screen. */
  | { readonly type: 'take'; readonly row: number }
  /** A value of the chosen knob is typed, beginning with this. */
  | { readonly type: 'type'; readonly text: string }
  /** `leave`: at once only where nothing would be lost. `quit`: at once. */
  | { readonly type: 'help' | 'save' | 'erase' | 'accept' | 'refuse' | 'leave' | 'quit' | 'repaint' | 'stop' }
  | { readonly type: 'resize'; readonly columns: number; readonly rows: number }
  | { readonly type: 'step'; readonly days: number }
  | { readonly type: 'go'; readonly to: 'start' | 'end' }
  | { readonly type: 'play'; readonly direction: 1 | -1 }
  | { readonly type: 'season' | 'turn'; readonly by: 1 | -1 }
  | { readonly type: 'weekday'; readonly day: number }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'saved'; readonly outcome: 'written' | 'exists' | 'failed'; readonly message: string }
  | { readonly type: 'figures'; readonly id: number; readonly figures: Figures }
  | { readonly type: 'strip'; readonly id: number; readonly told: StripTold }
  | { readonly type: 'compared'; readonly id: number; readonly result: CompareResult }
  | { readonly type: 'keptFigures'; readonly number: number; readonly result: RunResult }
  /** @property opensAt day that is shown first */
  | { readonly type: 'film'; readonly lastDay: number; readonly opensAt: number };
