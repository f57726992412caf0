/**
 * What two fields of a scenario say together. Works on the plain values of the file, whatever else is wrong with
 * them, so that all faults are reported at once: what zod has already refused is passed over here.
 */

import { dayNumber } from '../models/dates.js';
import { LINE_HOLES } from '../models/limits.js';
import { beforeFrom, isDate } from './date-checks.js';
import { type FaultDraft, foundText, type Path, wordText } from './faults.js';
import { growthFaults } from './growth-checks.js';
import { missing, unknownKey } from './issues-to-faults.js';
import { physicalFaults } from './physical/checks.js';
import { scenarioSchema } from './schema.js';
import { schemaAt } from './schema-walk.js';
import { isMap, listOf } from './values.js';

/** Faults between fields of a file, as drafts. */
export function crossFaults(data: unknown): FaultDraft[] {
  if (!isMap(data)) return [];
  const names = knownNames(data['stages'], 'stages');
  const crops = listOf(data['crops']);
  const want = isMap(data['want']) ? data['want']['on'] : undefined;
  return [
    ...awayFaults(data),
    ...repeated(data['visits'], ['visits'], 'every weekday once'),
    ...stageFaults(data['stages']),
    ...repeated(namesOf(crops), ['crops'], 'a name that no other crop has', ['name']),
    ...crops.flatMap((crop, i) => (isMap(crop) ? cropFaults(crop, ['crops', i], names) : [])),
    ...repeated(want, ['want', 'on'], 'every weekday once'),
    ...repeated(namesOf(data['tiers']), ['tiers'], 'a name that no other tier has', ['name']),
    ...physicalFaults(data, names, knownNames(crops, 'crops')),
  ];
}

function awayFaults(data: Record<string, unknown>): FaultDraft[] {
  const spans = listOf(data['away']);
  const drafts: FaultDraft[] = [];
  if (data['visits'] === 'always' && spans.length > 0) {
    drafts.push({
      path: ['away'],
      at: 'key',
      found: 'the key away with visits: always',
      expected: 'no away with visits: always (away needs visit days)',
      advice: 'Use visits: daily, or leave away out.',
    });
  }
  for (const [i, span] of spans.entries()) {
    if (!isMap(span)) continue;
    const { from, to } = span;
    if (!(isDate(from) && isDate(to)) || dayNumber(from) <= dayNumber(to)) continue;
    drafts.push(beforeFrom(['away', i, 'to'], from, to));
  }
  return drafts;
}

function stageFaults(stages: unknown): FaultDraft[] {
  const drafts = repeated(namesOf(stages), ['stages'], 'a name that no other stage has', ['name']);
  let holes = 0;
  for (const stage of listOf(stages)) {
    if (!isMap(stage)) continue;
    const { channels, holes: perChannel } = stage;
    if (passes(['stages', 0, 'channels'], channels) && passes(['stages', 0, 'holes'], perChannel)) {
      holes += Number(channels) * Number(perChannel);
    }
  }
  if (holes > LINE_HOLES.most) {
    const expected = `at most ${LINE_HOLES.most} holes in the whole line`;
    drafts.push({
      path: ['stages'],
      at: 'value',
      found: `${holes} holes in all (channels times holes)`,
      expected,
    });
  }
  return drafts;
}

function cropFaults(
  crop: Record<string, unknown>,
  path: Path,
  names: readonly string[] | null,
): FaultDraft[] {
  const { sow, stages, regrow } = crop;
  return [
    ...regrowFaults(crop, path),
    ...(isMap(sow) ? repeated(sow['on'], [...path, 'sow', 'on'], 'every weekday once') : []),
    ...(isMap(sow) ? repeated(sow['dates'], [...path, 'sow', 'dates'], 'every date once') : []),
    ...(isMap(regrow) ? growthFaults(regrow, [...path, 'regrow']) : []),
    ...(isMap(stages) ? cropStageFaults(stages, [...path, 'stages'], names) : []),
  ];
}

/** `names`: the stages of the line; null if they are not known for sure. */
function cropStageFaults(
  stages: Record<string, unknown>,
  path: Path,
  names: readonly string[] | null,
): FaultDraft[] {
  const growths = Object.entries(stages).flatMap(([name, growing]) =>
    isMap(growing) ? growthFaults(growing, [...path, name]) : [],
  );
  if (names === null) return growths;
  const unknown = Object.keys(stages).filter((name) => !names.includes(name));
  const absent = names.filter((name) => !Object.hasOwn(stages, name));
  return [
    ...growths,
    ...unknown.map((name) => unknownStage(name, path, names)),
    ...absent.map((name) => missingStage(name, [...path, name])),
  ];
}

function unknownStage(name: string, path: Path, names: readonly string[]): FaultDraft {
  const expected = `a stage of the line: ${names.join(', ')}`;
  return { ...unknownKey(name, path, names), found: `the stage ${wordText(name)}`, expected };
}

function missingStage(name: string, path: Path): FaultDraft {
  return {
    path,
    at: 'parent',
    found: 'nothing',
    expected: 'an entry for each stage of the line',
    advice: `Example: ${name}: {days: 14, spread: 0.12}`,
  };
}

function regrowFaults(crop: Record<string, unknown>, path: Path): FaultDraft[] {
  const cuts = crop['cuts'] === undefined ? 1 : crop['cuts'];
  const there = Object.hasOwn(crop, 'regrow');
  if (!passes(['crops', 0, 'cuts'], cuts)) return [];
  if (Number(cuts) > 1 && !there) {
    const draft = missing(scenarioSchema, [...path, 'regrow']);
    return [{ ...draft, advice: `A plant with cuts: ${cuts} grows again after a pick. ${draft.advice}` }];
  }
  if (!(cuts === 1 && there)) return [];
  return [
    {
      path: [...path, 'regrow'],
      at: 'key',
      found: 'the key regrow with one cut',
      expected: 'regrow only with cuts above 1',
      advice: 'Add cuts: 2 (or more), or leave regrow out.',
    },
  ];
}

/** The names of stages or crops; undefined where one is not there. */
function namesOf(list: unknown): unknown[] {
  return listOf(list).map((item) => (isMap(item) ? item['name'] : undefined));
}

/**
 * Texts of a list that stand in it before.
 * @param within the path from an item to its text
 */
function repeated(list: unknown, path: Path, expected: string, within: Path = []): FaultDraft[] {
  const seen = new Set<string>();
  return listOf(list).flatMap((item, i): FaultDraft[] => {
    if (typeof item !== 'string') return [];
    if (seen.has(item)) {
      const found = `${foundText(item)} a second time`;
      return [{ path: [...path, i, ...within], at: 'value', found, expected }];
    }
    seen.add(item);
    return [];
  });
}

/** Names of the stages or crops; null while one of them cannot be read, because then nothing is known to be unknown. */
function knownNames(list: unknown, key: 'stages' | 'crops'): string[] | null {
  const names = namesOf(list);
  if (names.length === 0 || !names.every((name) => passes([key, 0, 'name'], name))) return null;
  return [...new Set(names as string[])];
}

/** Whether a value passes what the schema checks at a path. */
function passes(path: Path, value: unknown): boolean {
  return schemaAt(scenarioSchema, path)?.safeParse(value).success === true;
}
