/** Scenarios made from the schema: right ones, ones with something wrong in the tree, and texts with something wrong in them. */

import fc from 'fast-check';
import { stringify } from 'yaml';
import { scenarioJsonSchema } from '../../sim/scenario/schema.js';
import { withPhysicalAgreed } from './agreed-physical.js';
import { type JsonSchema, valueFor } from './from-schema.js';
import { cutAndPut, slipped, textSlip, treeSlip } from './slips.js';

type Tree = Record<string, unknown>;

/** What fits the schema key by key; what keys say together need not fit. */
const anyTree = valueFor(scenarioJsonSchema() as JsonSchema) as fc.Arbitrary<Tree>;

/** Scenarios that nearly always have no fault. */
export const rightTree: fc.Arbitrary<Tree> = anyTree.map(agreed);

/** The text of a scenario without a fault. */
export const rightText: fc.Arbitrary<string> = fc
  .tuple(rightTree, fc.nat(2))
  .map(([tree, form]) => written(tree, form));

/** Any text that is meant as a scenario, right or not. */
export const anyText: fc.Arbitrary<string> = fc.oneof(
  { weight: 2, arbitrary: rightText },
  {
    weight: 3,
    arbitrary: fc
      .tuple(fc.oneof(rightTree, anyTree), fc.array(treeSlip, { minLength: 1, maxLength: 3 }), fc.nat(2))
      .map(([tree, slips, form]) => written(slips.reduce(slipped, tree) as Tree, form)),
  },
  {
    weight: 3,
    arbitrary: fc
      .tuple(rightText, fc.array(textSlip, { minLength: 1, maxLength: 4 }))
      .map(([text, slips]) => slips.reduce(cutAndPut, text)),
  },
);

function written(tree: Tree, form: number): string {
  if (form === 0) return stringify(tree);
  return form === 1 ? JSON.stringify(tree) : JSON.stringify(tree, null, 1);
}

/** The same scenario with those keys that must fit each other made to fit. */
function agreed(tree: Tree): Tree {
  const stages = onceEach(tree['stages'] as Tree[]);
  const crops = onceEach(tree['crops'] as Tree[]).map((crop) => {
    const growings = Object.values(crop['stages'] as Tree) as Tree[];
    const own = stages.map((stage, s) => [stage['name'], grown(growings[s % growings.length]!)]);
    const { regrow, ...others } = crop;
    const again = (crop['cuts'] ?? 1) === 1 ? {} : { regrow: grown((regrow ?? {}) as Tree) };
    return { ...others, ...again, stages: Object.fromEntries(own) };
  });
  const { away, ...others } = tree;
  if (tree['visits'] === 'always' || away === undefined)
    return withPhysicalAgreed({ ...others, stages, crops });
  const spans = (away as { from: string; to: string }[]).map(({ from, to }) =>
    from <= to ? { from, to } : { from: to, to: from },
  );
  return withPhysicalAgreed({ ...others, away: spans, stages, crops });
}

/** Each name once. */
function onceEach(list: readonly Tree[]): Tree[] {
  const seen = new Set<unknown>();
  return list.map((item, i) => {
    const name = seen.has(item['name']) ? `${i} more` : item['name'];
    seen.add(name);
    return { ...item, name };
  });
}

/** What one time of growing is told by, so that it fits its shape. */
function grown(growing: Tree): Tree {
  const { observed, days = 3, spread = 0.2, ...others } = growing;
  const { shape } = growing;
  if (shape === 'observed' || (shape === undefined && observed !== undefined)) {
    return { ...others, observed: observed ?? [days] };
  }
  if (shape === 'fixed' || shape === 'exponential') return { ...others, days };
  return { ...others, days, spread: shape === 'triangular' ? Math.min(spread as number, 0.4) : spread };
}
