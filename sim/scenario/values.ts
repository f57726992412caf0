/** Looking into the plain values of a file, of which nothing is known yet. */

import type { Path } from './faults.js';

/** Whether a value is a map. */
export function isMap(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The items of a list; none if the value is no list. */
export function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

/** The value at a path; undefined if there is none. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const step of path) {
    if (Array.isArray(value)) value = value[Number(step)];
    else if (isMap(value) && Object.hasOwn(value, step)) value = value[step];
    else return undefined;
  }
  return value;
}
