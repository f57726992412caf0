/** Stages side by side, as many as fit into the width of a text; the rest below them. */

import { shortNames } from '../render/short-names.js';
import { columns, indented, WIDTH } from './format.js';

/** Longest name of a stage: two of them stand side by side. */
const MOST_NAME = 19;
/** Narrowest column of a stage. */
const LEAST_CELL = 9;
const INDENT = 2;

/** A row: what it is called, and its cell for each of the stages. */
export type StageRow = readonly [name: string, cells: readonly string[]];

/**
 * All columns of one width, with an empty line between the blocks.
 * @param stages their names
 */
export function stageTable(stages: readonly string[], rows: readonly StageRow[]): string[] {
  const headed: readonly StageRow[] = [['', calledShort(stages)], ...rows];
  const first = Math.max(...headed.map(([name]) => name.length)) + 2;
  const cell = Math.max(LEAST_CELL, ...headed.flatMap(([, cells]) => cells).map((text) => text.length + 2));
  return blocksOf(stages.length, Math.floor((WIDTH - INDENT - first) / cell)).flatMap(([from, to], block) => [
    ...(block === 0 ? [] : ['']),
    ...indented(
      headed.map(([name, cells]) => {
        const numbers = cells.slice(from, to).map((text) => text.padStart(cell));
        return `${name.padEnd(first)}${numbers.join('')}`.trimEnd();
      }),
      INDENT,
    ),
  ]);
}

/**
 * Columns as wide as they must be, in blocks of their own.
 * @param stages their names
 * @returns the lines of each block
 */
export function stageColumns(
  corner: string,
  stages: readonly string[],
  rows: readonly StageRow[],
): string[][] {
  const headed: readonly StageRow[] = [[corner, calledShort(stages)], ...rows];
  const first = Math.max(...headed.map(([name]) => name.length));
  const cell = Math.max(...headed.flatMap(([, cells]) => cells).map((text) => text.length + 2));
  return blocksOf(stages.length, Math.floor((WIDTH - INDENT - first) / cell)).map(([from, to]) =>
    indented(columns(headed.map(([name, cells]) => [name, ...cells.slice(from, to)])), INDENT),
  );
}

function calledShort(stages: readonly string[]): string[] {
  const short = shortNames(stages, MOST_NAME);
  return stages.map((name) => short.get(name)!);
}

/** From which stage to which the blocks go. */
function blocksOf(stages: number, perBlock: number): [from: number, to: number][] {
  const each = Math.max(1, perBlock);
  return Array.from({ length: Math.ceil(stages / each) }, (_, i) => [i * each, (i + 1) * each]);
}
