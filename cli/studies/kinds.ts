/** The kinds of studies, by the command that asks for them. */

import type { Assignment } from './assignment.js';
import { compare } from './compare.js';
import { run } from './run.js';
import { search } from './search.js';
import { size } from './size.js';
import type { StudyKind } from './study-kind.js';

/** The kind of a study. What it yields and results in is its own business: only itself reads it. */
export function kindOf(asked: Assignment): StudyKind<Assignment, unknown, unknown> {
  const kinds = { run, compare, size, search } as unknown as Record<
    Assignment['command'],
    StudyKind<Assignment, unknown, unknown>
  >;
  return kinds[asked.command];
}
