/**
 * The line as it stands on a day: stages from left to right, plants going from one to the next, every hole by
 * its state.
 */

import { type HoleState, STATES } from '../../../sim/models/ledger.js';
import * as route from '../../../sim/models/route.js';
import type { Bottleneck } from '../../../sim/study/bottleneck.js';
import type { Film } from '../../../sim/study/film/film.js';
import { padEnd, padStart, widthOf } from '../../render/width.js';
import { thousands } from '../../words/numbers.js';
import type { Row, Signs, Span } from '../theme.js';
import { emptyAt, frameOf, statesSeen } from './film.js';
import { wholePercent } from './headline.js';
import { type Band, GAP, type LineLayout, STREAM, type StagePlace, workDigits } from './line-layout.js';
import { beside, cut, fittedRight, mark, named, RowWriter, span } from './rows.js';
import { placesOf, shareRows } from './shares.js';
import { FIRST_ROW, holeAt, LAST_ROW, MIDDLE_ROW, RAIL } from './stage.js';
import { holeWords } from './words.js';

/** What the figures of the plan say of the line. */
export interface LineAnswer {
  readonly limits: Bottleneck | null;
  /** Share of the hole-days of the season in which holes of each stage stood empty, on average. */
  readonly idle: readonly (number | null)[];
}

export interface LineInput {
  readonly film: Film;
  readonly day: number;
  /** null as long as there are no figures of the plan on the screen, or where the season is another one. */
  readonly answer: LineAnswer | null;
  readonly layout: LineLayout | null;
  readonly width: number;
  readonly height: number;
  readonly signs: Signs;
}

export function lineRows({ film, day, answer, layout, width, height, signs }: LineInput): Row[] {
  const frame = frameOf(film, day);
  const drawing = { film, frame, answer, signs };
  if (layout === null) return briefRows(drawing, width, height);
  const places = placesOf(layout);
  return layout.bands.flatMap((band) => bandRows(drawing, band, layout.names, places));
}

/** What is drawn: a picture of a film, with these signs. */
interface Drawing {
  readonly film: Film;
  readonly frame: number;
  readonly answer: LineAnswer | null;
  readonly signs: Signs;
}

/** @param places columns of the bars of stages that are drawn as shares */
function bandRows(drawing: Drawing, band: Band, names: 1 | 2, places: number): Row[] {
  const { film, frame, signs } = drawing;
  const blocks = band.places.map((place) => ({
    width: place.width,
    rows: [
      nameRow(drawing, place),
      ...(names === 2 ? [takenRow(drawing, place)] : []),
      ...(place.arrangement === null
        ? shareRows(film, frame, place.stage, band.body, places, signs)
        : holeRows(drawing, place, band.body)),
    ],
  }));
  const rows = beside(blocks, GAP);
  // Every band keeps its height, whatever stands in it.
  while (rows.length < band.body + names) rows.push([]);
  return rows;
}

/** Behind the name of a stage that holds the line back, where it has room. */
const HOLDS_WORDS = 'holds back ';

/**
 * The name of a stage in the stream of plants, as wide as the stage: `nursery ◄ holds back ────── 7 →`. Before the first
 * stage stands what was sown.
 */
function nameRow({ film, frame, answer, signs }: Drawing, { stage, width }: StagePlace): Row {
  const { sown, moved, picked } = film.workAt(frame);
  const digits = workDigits(film);
  const on = route.isLast(film, stage) ? picked : moved[route.next(film, stage)]!;
  const { limits = null } = answer ?? {};
  const isFirst = stage === route.first(film);
  const held = isFirst && limits?.by === 'sowing' ? `${signs.holds} ` : '';
  const entry = isFirst ? `${number(sown, digits, signs).trimStart()} ${held}${signs.arrow} ` : '';
  const full = film.stages[stage]!.name;
  const sign = isHeldBy(limits, full) ? `${signs.holds} ` : '';
  const room = width - widthOf(entry) - digits - STREAM - sign.length;
  const name = named(full, room, signs.more, namesOf(film));
  const left = room - widthOf(name) + 1;
  const words = sign !== '' && left > HOLDS_WORDS.length ? HOLDS_WORDS : '';
  return [
    span(entry),
    span(name, 'strong'),
    span(' '),
    span(`${sign}${words}`, 'warn'),
    span(signs.rule.repeat(Math.max(0, left - words.length)), 'faint'),
    span(` ${number(on, digits, signs)} ${signs.arrow}`),
  ];
}

function namesOf(film: Film): string[] {
  return film.stages.map(({ name }) => name);
}

function isHeldBy(limits: Bottleneck | null, stage: string): boolean {
  return limits?.by === 'stage' && limits.stages.includes(stage);
}

/** Nobody moved: nothing but the stream. */
function number(plants: number, digits: number, signs: Signs): string {
  return padStart(plants === 0 ? signs.dot : thousands(plants), digits);
}

/** How much of a stage stands empty: that day, and over the season. */
function takenRow({ film, frame, answer, signs }: Drawing, { stage, width }: StagePlace): Row {
  const { holes } = film.stages[stage]!;
  const [empty, all] = [emptyAt(film, frame, stage), holes].map(thousands);
  const share = answer?.idle[stage] ?? null;
  const idle = share === null ? null : `${wholePercent(share)} %`;
  const forms =
    idle === null
      ? [`${empty} of ${all} empty`]
      : [
          `${empty} of ${all} empty, ${idle} over the season`,
          `${empty} of ${all} empty, season ${idle}`,
          `${empty} of ${all}, ${idle}`,
        ];
  const words = forms.find((form) => widthOf(form) <= width) ?? forms.at(-1)!;
  return [span(cut(words, width, signs.more), 'faint')];
}

function holeRows({ film, frame, signs }: Drawing, place: StagePlace, body: number): Row[] {
  const { stage, arrangement, width } = place;
  const { firstHole } = film.stages[stage]!;
  const states = film.statesAt(frame);
  const layout = arrangement!;
  return Array.from({ length: Math.min(body, layout.height) }, (_, y) => {
    const writer = new RowWriter();
    for (let x = 0; x < Math.min(width, layout.width); x++) {
      const hole = holeAt(film.stages[stage]!, layout, x, y);
      if (hole >= 0) {
        const state = STATES[states[firstHole + hole]!]!;
        writer.put(signs.holes[state], state);
      } else if (hole === RAIL) writer.put(signs.rail, 'faint');
      else if (hole === FIRST_ROW) writer.put(signs.cut[0], 'faint');
      else if (hole === MIDDLE_ROW) writer.put(signs.cut[1], 'faint');
      else if (hole === LAST_ROW) writer.put(signs.cut[2], 'faint');
      else writer.put(' ');
    }
    return writer.row();
  });
}

/** A line of words a stage, for lines with so many stages that no picture of them fits. */
function briefRows({ film, frame, answer, signs }: Drawing, width: number, height: number): Row[] {
  const blocks = Math.ceil(film.stages.length / Math.max(1, height));
  const perBlock = Math.ceil(film.stages.length / blocks);
  const each = Math.max(1, Math.floor((width - (blocks - 1) * GAP) / blocks));
  const words = each < 26 ? '' : ' taken';
  const room = (sign: string): number => Math.max(1, each - 6 - words.length - sign.length);
  const rows = film.stages.map(({ name, holes }, s): Row => {
    const taken = `${Math.round(100 * (1 - emptyAt(film, frame, s) / holes))} %`;
    const sign = isHeldBy(answer?.limits ?? null, name) ? ` ${signs.holds}` : '';
    return [
      span(padEnd(named(name, room(sign), signs.more, namesOf(film)), room(sign)), 'strong'),
      span(sign, 'warn'),
      span(`${fittedRight(taken, 6)}${words}`),
    ];
  });
  return beside(
    Array.from({ length: blocks }, (_, b) => ({
      rows: rows.slice(b * perBlock, (b + 1) * perBlock),
      width: each,
    })),
    GAP,
  );
}

/** The signs that the film shows and what they mean, in at most `height` rows; what does not fit is left out. */
export function legendRows(film: Film, real: boolean, width: number, height: number, signs: Signs): Row[] {
  const seen = STATES.filter((_, k) => film.stages.some((_, s) => statesSeen(film, s).includes(k)));
  return legendOf(seen, real, width, height, signs);
}

/** Rows of the legend of a film that shows all states, at most `most`. */
export function legendHeight(real: boolean, width: number, most: number, signs: Signs): number {
  return legendOf(STATES, real, width, most, signs).length;
}

function legendOf(
  states: readonly HoleState[],
  real: boolean,
  width: number,
  height: number,
  signs: Signs,
): Row[] {
  const rows: Span[][] = [];
  let room = 0;
  for (const state of states) {
    const words = holeWords(state, real);
    const takes = widthOf(words) + 2;
    if (rows.length === 0 || takes + 3 > room) {
      if (rows.length === height) {
        // The help has all of them.
        if (room >= 2) rows.at(-1)?.push(span(` ${signs.more}`, 'faint'));
        break;
      }
      rows.push([]);
      room = width;
    }
    const row = rows.at(-1)!;
    if (room < width) row.push(span('   '));
    room -= takes + (room < width ? 3 : 0);
    row.push(...mark(signs.holes[state], state, words));
  }
  return rows;
}
