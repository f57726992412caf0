/**
 * What keys of light, air, water, shelves, work and prices say together. As in cross-checks.ts: on the plain values of the file,
 * whatever else is wrong with them.
 */

import { dayNumber } from '../../models/dates.js';
import { beforeFrom, isDate } from '../date-checks.js';
import { type FaultDraft, foundText, type Path, wordText } from '../faults.js';
import { missing, unknownKey } from '../issues-to-faults.js';
import { scenarioSchema } from '../schema.js';
import { isMap, listOf } from '../values.js';
import { DATED_KEYS } from './climate-schema.js';
import { filmFaults, tankFaults } from './tank-checks.js';

/**
 * Faults between these keys, as drafts.
 * @param stageNames of the line, and names of the crops; null if they are not known for sure
 */
export function physicalFaults(
  data: Record<string, unknown>,
  stageNames: readonly string[] | null,
  cropNames: readonly string[] | null,
): FaultDraft[] {
  const stages = listOf(data['stages']);
  return [
    ...stages.flatMap((stage, s) => (isMap(stage) ? lampFaults(stage, ['stages', s]) : [])),
    ...listOf(data['crops']).flatMap((crop, c) =>
      isMap(crop) ? cropFaults(crop, ['crops', c], data, stageNames) : [],
    ),
    ...(isMap(data['climate']) ? spellFaults(data['climate']['dated']) : []),
    ...(isMap(data['tank']) ? [...tankFaults(data['tank']), ...filmFaults(data['tank'], stages)] : []),
    ...tierFaults(data['tiers'], stages, stageNames),
    ...workFaults(data),
    ...(isMap(data['prices']) ? priceFaults(data['prices'], cropNames) : []),
  ];
}

/** Keys of lamps that mean nothing without `ppfd`. */
const BESIDE_PPFD = ['hours', 'watts', 'efficacy', 'reaches'] as const;

function lampFaults(stage: Record<string, unknown>, path: Path): FaultDraft[] {
  const has = (key: string) => Object.hasOwn(stage, key);
  const { ppfd, hours } = stage;
  if (!has('ppfd')) {
    const key = BESIDE_PPFD.find(has);
    if (key === undefined) return [];
    const draft = missing(scenarioSchema, [...path, 'ppfd']);
    return [{ ...draft, advice: `${key} tells nothing without ppfd. ${draft.advice}` }];
  }
  const drafts: FaultDraft[] = [];
  const isLit = typeof ppfd === 'number' && ppfd > 0;
  if (isLit && !has('hours')) drafts.push(missing(scenarioSchema, [...path, 'hours']));
  if (isLit && hours !== 0 && !has('hole_area_cm2')) {
    const draft = missing(scenarioSchema, [...path, 'hole_area_cm2']);
    drafts.push({ ...draft, advice: `Light needs the area that it falls on. ${draft.advice}` });
  }
  if (has('watts') && has('efficacy')) drafts.push(besideWatts('efficacy', path));
  else if (has('watts') && has('reaches')) drafts.push(besideWatts('reaches', path));
  else if (has('reaches') && !has('efficacy')) drafts.push(missing(scenarioSchema, [...path, 'efficacy']));
  return drafts;
}

function besideWatts(key: string, path: Path): FaultDraft {
  return {
    path: [...path, key],
    at: 'key',
    found: `the key ${key} beside watts`,
    expected: 'watts, or efficacy (and reaches)',
    advice: `What the meter says counts: leave ${key} out.`,
  };
}

function cropFaults(
  crop: Record<string, unknown>,
  path: Path,
  data: Record<string, unknown>,
  names: readonly string[] | null,
): FaultDraft[] {
  const growings = isMap(crop['stages']) ? crop['stages'] : {};
  const told = Object.keys(growings).find(
    (name) => isMap(growings[name]) && Object.hasOwn(growings[name], 'days_at'),
  );
  const last = names?.at(-1);
  const lastGrowing = last === undefined ? undefined : growings[last];
  return [
    ...(told === undefined ? [] : daysAtFaults(crop, [...path, 'stages', told, 'days_at'], data)),
    ...(isMap(lastGrowing) && Object.hasOwn(lastGrowing, 'ready_g')
      ? [
          {
            path: [...path, 'stages', last!, 'ready_g'],
            at: 'key',
            found: 'the key ready_g in the last stage',
            expected: 'head_g of the crop: what is ready there is a head',
            advice: 'Leave ready_g out there.',
          } as const,
        ]
      : []),
  ];
}

/** What has to be told before days can be reckoned for other conditions. */
function daysAtFaults(
  crop: Record<string, unknown>,
  path: Path,
  data: Record<string, unknown>,
): FaultDraft[] {
  const without = (key: string): string[] =>
    listOf(data['stages']).flatMap((stage) =>
      isMap(stage) && !Object.hasOwn(stage, key) ? [wordText(String(stage['name']))] : [],
    );
  const [unlit, unmeasured] = [without('ppfd'), without('hole_area_cm2')];
  const lacks = [
    ...(Object.hasOwn(crop, 'head_g') ? [] : ['head_g of the crop']),
    ...(Object.hasOwn(data, 'climate') ? [] : ['climate with air_c']),
    ...(unlit.length === 0 ? [] : [`ppfd (0 if it is dark) of ${unlit.join(', ')}`]),
    ...(unmeasured.length === 0 ? [] : [`hole_area_cm2 of ${unmeasured.join(', ')}`]),
  ];
  if (lacks.length === 0) return [];
  return [
    {
      path,
      at: 'key',
      found: 'the key days_at alone',
      expected: `days_at together with ${lacks.join('; ')}`,
      advice:
        'Days under other conditions are reckoned from these. Without days_at, days are as they are in the line.',
    },
  ];
}

/** Spells that end before they begin, that name no air, or of which two claim a day. */
function spellFaults(dated: unknown): FaultDraft[] {
  const drafts: FaultDraft[] = [];
  const before: { readonly from: string; readonly to: string }[] = [];
  for (const [i, spell] of listOf(dated).entries()) {
    if (!isMap(spell)) continue;
    const { from, to } = spell;
    const path = ['climate', 'dated', i];
    if (!DATED_KEYS.some((key) => Object.hasOwn(spell, key))) {
      drafts.push({
        path,
        at: 'value',
        found: 'a spell that names no other air',
        expected: `from, to and at least one of ${DATED_KEYS.join(', ')}`,
        advice: 'Say what is other air then. Example: {from: 2027-08-01, to: 2027-08-31, air_c: 27}',
      });
    }
    if (!isDate(from) || !isDate(to)) continue;
    if (dayNumber(from) > dayNumber(to)) {
      drafts.push(beforeFrom([...path, 'to'], from, to));
      continue;
    }
    const other = before.find(
      (one) => dayNumber(one.from) <= dayNumber(to) && dayNumber(from) <= dayNumber(one.to),
    );
    if (other !== undefined) {
      drafts.push({
        path: [...path, 'from'],
        at: 'value',
        found: `${from} to ${to}, which has days of the spell ${other.from} to ${other.to} before`,
        expected: 'spells of which no two have a day in common',
        advice: 'Both first and last day belong to a spell: let one end the day before the other begins.',
      });
    }
    before.push({ from, to });
  }
  return drafts;
}

function tierFaults(
  tiers: unknown,
  stages: readonly unknown[],
  names: readonly string[] | null,
): FaultDraft[] {
  return listOf(tiers).flatMap((tier, i): FaultDraft[] => {
    if (!isMap(tier)) return [];
    const { stage } = tier;
    if (typeof stage !== 'string' || names === null) return [];
    const path = ['tiers', i, 'stage'];
    if (!names.includes(stage)) {
      const { nearest = null } = unknownKey(stage, ['tiers', i], names);
      const expected = `a stage of the line: ${names.join(', ')}`;
      return [{ path, at: 'value', found: foundText(stage), expected, nearest }];
    }
    const place = stages.findIndex((one) => isMap(one) && one['name'] === stage);
    if (Object.hasOwn(stages[place] as object, 'channel_size')) return [];
    const lacking = missing(scenarioSchema, ['stages', place, 'channel_size']);
    return [
      {
        path,
        at: 'value',
        found: `${foundText(stage)}, a stage without channel_size`,
        expected: 'a stage with channel_size, which says what its channels weigh',
        advice: `Give ${wordText(stage)} one. ${lacking.advice}`,
      },
    ];
  });
}

function workFaults({ work, visits }: Record<string, unknown>): FaultDraft[] {
  if (work === undefined || visits !== 'always') return [];
  return [
    {
      path: ['work'],
      at: 'key',
      found: 'the key work with visits: always',
      expected: 'no work with visits: always (whoever is always there makes no visits)',
      advice: 'Use visits: daily, or leave work out.',
    },
  ];
}

/** Prices that may be told by crop. */
const BY_CROP = ['seed', 'head', 'kg'] as const;

function priceFaults(prices: Record<string, unknown>, crops: readonly string[] | null): FaultDraft[] {
  if (crops === null) return [];
  const unknown = BY_CROP.flatMap((key) => {
    const told = prices[key];
    if (!isMap(told)) return [];
    return Object.keys(told)
      .filter((name) => !crops.includes(name))
      .map((name): FaultDraft => {
        const expected = `a crop of the line: ${crops.join(', ')}`;
        return { ...unknownKey(name, ['prices', key], crops), found: `the crop ${wordText(name)}`, expected };
      });
  });
  const { head, kg } = prices;
  const sold = (told: unknown, crop: string) =>
    isMap(told) ? Object.hasOwn(told, crop) : told !== undefined;
  const twice = crops.find((crop) => sold(head, crop) && sold(kg, crop));
  if (twice === undefined) return unknown;
  return [
    ...unknown,
    {
      path: isMap(kg) ? ['prices', 'kg', twice] : ['prices', 'kg'],
      at: 'key',
      found: `a price by the kilogram and one by the head for ${wordText(twice)}`,
      expected: 'one of head and kg for a crop',
      advice: 'Leave one of them out.',
    },
  ];
}
