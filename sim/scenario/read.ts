/**
 * Reads a scenario file: text in, a plan or all faults of the file out. Opens no files and prints nothing.
 *
 * Order of the checks: the text, the YAML, then at once the tree (duplicate keys), the schema, and what fields say
 * together. Each step is a file of its own.
 */

import type { Plan } from '../models/plan.js';
import { failure, type Result, success } from '../models/result.js';
import { crossFaults } from './cross-checks.js';
import { byPosition, type Fault, type FaultDraft, pathText, type Warning } from './faults.js';
import { issuesToFaults, wrongValue } from './issues-to-faults.js';
import { planOrFaults } from './plan.js';
import { type Scenario, scenarioSchema } from './schema.js';
import { parseYaml } from './syntax.js';
import { textFault } from './text-checks.js';
import { Tree } from './tree.js';
import { warningsOf } from './warnings.js';

/** What a scenario file says. */
export interface ReadScenario {
  readonly plan: Plan;
  /** The keys of the file, with defaults filled in. */
  readonly scenario: Scenario;
  /** What is no fault and may surprise, sorted by line and column. */
  readonly warnings: readonly Warning[];
}

/**
 * Reads the text of a scenario file (YAML 1.2 or JSON). Never throws on any text.
 *
 * @returns the plan, or every fault of the file, sorted by line and column
 */
export function readScenario(text: string): Result<ReadScenario, Fault> {
  // A byte order mark is no part of the text, nor of its columns.
  const content = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const unfit = textFault(content);
  if (unfit !== null) return failure([unfit]);
  const parsed = parseYaml(content);
  if (!parsed.ok) return parsed;
  const tree = new Tree(parsed.value.document, parsed.value.lines);
  if (tree.value === undefined) return failure(tree.faults);
  return check(tree);
}

function check(tree: Tree): Result<ReadScenario, Fault> {
  if (tree.value === null) {
    const empty = { ...wrongValue(scenarioSchema, [], null), found: 'an empty file' };
    return failure([...tree.faults, tree.locate(empty)].sort(byPosition));
  }
  const read = scenarioSchema.safeParse(tree.value);
  const drafts = [
    ...(read.success ? [] : issuesToFaults(scenarioSchema, tree.value, read.error.issues)),
    ...crossFaults(tree.value),
  ];
  // What is wrong with an alias is also wrong with the field that it stands in: one slip, one fault.
  const place = ({ line, column, path }: Fault) => `${line}:${column} ${path}`;
  const broken = new Set(tree.faults.map(place));
  const located = withoutEchoes(drafts)
    .map((draft) => tree.locate(draft))
    .filter((fault) => !broken.has(place(fault)));
  const faults = [...tree.faults, ...located].sort(byPosition);
  if (faults.length > 0 || !read.success) return failure(faults);
  const made = planOrFaults(read.data);
  if (!made.ok) {
    return failure(
      withoutEchoes(made.faults)
        .map((draft) => tree.locate(draft))
        .sort(byPosition),
    );
  }
  const plan = made.value;
  const warnings = warningsOf(read.data, plan).map(({ path, ...said }) => {
    return { path: pathText(path), ...tree.position(path, 'value'), ...said };
  });
  return success({ plan, scenario: read.data, warnings: warnings.sort(byPosition) });
}

/**
 * Leaves out a second fault about the same thing: a field that fails two checks, and a key that is missing only
 * because it is misspelt beside.
 */
function withoutEchoes(drafts: readonly FaultDraft[]): FaultDraft[] {
  const meant = new Set<string>();
  for (const { path, at, nearest } of drafts) {
    if (at === 'key' && nearest != null) meant.add(JSON.stringify([...path.slice(0, -1), nearest]));
  }
  const seen = new Set<string>();
  return drafts.filter(({ path, at, expected }) => {
    const place = JSON.stringify(path);
    const same = `${place} ${expected}`;
    if (seen.has(same) || (at === 'parent' && meant.has(place))) return false;
    seen.add(same);
    return true;
  });
}
