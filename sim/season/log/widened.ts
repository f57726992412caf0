/** The text of a log with more columns behind its own, and otherwise as it is, byte for byte. */

/**
 * @param text of a log without a fault, with its byte order mark and line ends
 * @param columns names of the new ones
 * @returns the text with their names at the end of the header, and as many empty fields at the end of each row. Lines on
 * which nothing stands but separators, as spreadsheets leave below their tables, stay as they are.
 */
export function widened(text: string, separator: string, columns: readonly string[]): string {
  const names = columns.map((name) => separator + name).join('');
  const empty = columns.map(() => separator).join('');
  const pieces: string[] = [];
  let behind = names;
  let from = 0;
  for (const end of recordEnds(text)) {
    const record = text.slice(from, end);
    const blank = record.split(separator).every((field) => /^[\s"]*$/.test(field));
    pieces.push(record, blank ? '' : behind);
    if (!blank) behind = empty;
    from = end;
  }
  return pieces.join('') + text.slice(from);
}

/** Places right before the ends of line that end a record, and the end of the text. */
function* recordEnds(text: string): Generator<number> {
  let quoted = false;
  // Where quotes are right, every one of them begins or ends what is quoted, also two that stand for one.
  for (const { 0: sign, index } of text.matchAll(/\r\n|\r|\n|"/g)) {
    if (sign === '"') quoted = !quoted;
    else if (!quoted) yield index;
  }
  yield text.length;
}
