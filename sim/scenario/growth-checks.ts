/** Which of days, spread and observed a shape of growth time takes. */

import { TRIANGULAR_CV_LIMIT } from '../engine/laws.js';
import { type FaultDraft, foundText, type Path } from './faults.js';
import { SHAPES } from './growing-schema.js';
import { missing } from './issues-to-faults.js';
import { scenarioSchema } from './schema.js';

/** The shape that a map of days, spread, shape and observed means. */
export function shapeOf(growing: { shape?: unknown; observed?: unknown }): unknown {
  return growing.shape ?? (growing.observed === undefined ? 'lognormal' : 'observed');
}

/** Faults between shape, days, spread and observed at `path`, as drafts. */
export function growthFaults(growing: Record<string, unknown>, path: Path): FaultDraft[] {
  const shape = shapeOf(growing);
  if (!(SHAPES as readonly unknown[]).includes(shape)) return [];
  const has = (key: string) => Object.hasOwn(growing, key);
  if (shape === 'observed') {
    const tooMany = ['days', 'spread'].filter(has).map((key) => besideObserved(key, path));
    return has('observed') ? tooMany : [...tooMany, missing(scenarioSchema, [...path, 'observed'])];
  }
  // Days and spread may be missing because the observed times are meant: one slip, one fault.
  if (has('observed')) return [observedBesideShape(String(shape), path)];
  const drafts = spreadFaults(String(shape), growing['spread'], path);
  return has('days') ? drafts : [missing(scenarioSchema, [...path, 'days']), ...drafts];
}

function observedBesideShape(shape: string, path: Path): FaultDraft {
  return {
    path: [...path, 'observed'],
    at: 'key',
    found: `the key observed with the shape ${shape}`,
    expected: 'observed only with shape: observed',
    advice: 'Use shape: observed, or leave observed out.',
  };
}

function spreadFaults(shape: string, spread: unknown, path: Path): FaultDraft[] {
  const at = [...path, 'spread'];
  if (shape === 'exponential' || shape === 'fixed') {
    const only = shape === 'exponential' ? 1 : 0;
    if (!inRange(spread) || spread === only) return [];
    const expected = `no spread (or ${only}) with the shape ${shape}`;
    return [{ path: at, at: 'value', found: foundText(spread), expected, advice: 'Leave spread out.' }];
  }
  if (spread === undefined) return [missing(scenarioSchema, at)];
  if (shape === 'triangular' && inRange(spread) && !(spread < TRIANGULAR_CV_LIMIT)) {
    return [
      {
        path: at,
        at: 'value',
        found: foundText(spread),
        expected: 'a number from 0 to below 0.408 with the shape triangular (standard deviation over mean)',
        advice:
          'A wider triangle around its mean would begin below 0 days. Use shape: gamma for so wide a spread.',
      },
    ];
  }
  return [];
}

/** Whether a spread is one that the schema lets pass. */
function inRange(spread: unknown): spread is number {
  return typeof spread === 'number' && spread >= 0 && spread <= 2;
}

function besideObserved(key: string, path: Path): FaultDraft {
  return {
    path: [...path, key],
    at: 'key',
    found: `the key ${key} with observed times`,
    expected: `no ${key} with the shape observed (the observed times say it)`,
    advice: `Leave ${key} out.`,
  };
}
