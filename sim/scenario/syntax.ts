/** Text to YAML document, and the faults of what is not YAML. */

import { CST, type Document, Lexer, LineCounter, parseDocument, type YAMLError } from 'yaml';
import { failure, type Result, success } from '../models/result.js';
import { byPosition, type Fault, faultAt } from './faults.js';

/** A YAML document with what is needed to find its lines. */
export interface Parsed {
  document: Document;
  lines: LineCounter;
}

/** What most likely stands there, by the parser's kind of fault: its own words are those of its trade. */
const FOUND: Partial<Record<YAMLError['code'], string>> = {
  BAD_INDENT: 'a line that begins in the wrong column, or a bracket that is not closed',
  TAB_AS_INDENT: 'a tab at the beginning of a line',
  MISSING_CHAR: 'something missing: a quote, bracket, comma, colon or space',
  BLOCK_AS_IMPLICIT_KEY: 'two keys in one line, or a line that begins in the wrong column',
  MULTILINE_IMPLICIT_KEY: 'a key without a colon behind it',
  KEY_OVER_1024_CHARS: 'a very long key',
  BLOCK_IN_FLOW: 'lines with keys inside brackets',
  BAD_SCALAR_START: 'a value that begins with a sign for which it needs quotes',
  UNEXPECTED_TOKEN: 'a sign that does not belong there',
  TAG_RESOLVE_FAILED: 'a tag (!)',
  BAD_DIRECTIVE: 'a line that begins with %',
  BAD_ALIAS: 'an alias (*) without a name',
  BAD_DQ_ESCAPE: 'a \\ in double quotes',
};

/** What should stand there instead, by the parser's kind of fault. */
const EXPECTED: Partial<Record<YAMLError['code'], string>> = {
  BAD_INDENT: 'lines that belong together to begin in the same column, and every bracket to be closed',
  TAB_AS_INDENT: 'spaces for indentation',
  MISSING_CHAR: 'every quote and bracket to be closed, and a colon after every key',
  MULTIPLE_DOCS: 'one document in a file (no second ---)',
  BLOCK_AS_IMPLICIT_KEY: 'one key: value in a line',
  MULTILINE_IMPLICIT_KEY: 'a key and its colon on one line',
  KEY_OVER_1024_CHARS: 'a short key',
  TAG_RESOLVE_FAILED: 'a value without a tag (no !)',
  BAD_DIRECTIVE: 'a file without directives (no %)',
  BAD_ALIAS: 'an alias with the name of an anchor, e.g. *usual',
  BAD_DQ_ESCAPE: 'a text in which \\ stands only before n, t, " or \\ (or use single quotes)',
};

/**
 * Parses a text as YAML 1.2 (JSON is YAML).
 *
 * @returns the document, or the faults of the syntax, at most one a line
 */
export function parseYaml(text: string): Result<Parsed, Fault> {
  const lines = new LineCounter();
  const place = placeOfTooMuch(text);
  if (place !== null) {
    const before = text.slice(0, place).split('\n');
    const found = `more than ${MOST_SIGNS} values and signs`;
    const expected = 'a scenario, which has some hundreds';
    const at = { line: before.length, column: before.at(-1)!.length + 1 };
    return failure([faultAt(at, { path: [], found, expected })]);
  }
  let document: Document;
  try {
    document = parseDocument(text, {
      lineCounter: lines,
      // Duplicate keys are found with the other faults, in linear time (see tree.ts).
      uniqueKeys: false,
      prettyErrors: false,
      // A %YAML 1.1 line must not turn `no` into false or dates into objects.
      schema: 'core',
      resolveKnownTags: false,
      logLevel: 'error',
    });
  } catch (error) {
    const found = `a text that cannot be parsed (${error instanceof Error ? error.message : String(error)})`;
    return failure([faultAt({ line: 1, column: 1 }, { path: [], found, expected: 'a scenario as YAML' })]);
  }
  const problems = [...document.errors, ...document.warnings];
  return problems.length === 0 ? success({ document, lines }) : failure(syntaxFaults(problems, lines));
}

/** A document takes some kilobytes of memory for each of them, or for what is wrong with it, so they are counted first. */
const MOST_SIGNS = 100_000;
/** Pieces that stand for something and are no part of the text. */
const MARKS = new Set([CST.DOCUMENT, CST.FLOW_END, CST.SCALAR]);

/** Where in the text it becomes too much for a scenario; null if it does not. */
function placeOfTooMuch(text: string): number | null {
  if (text.length <= MOST_SIGNS) return null;
  let signs = 0;
  let place = 0;
  for (const piece of new Lexer().lex(text)) {
    if (MARKS.has(piece)) continue;
    if (/[^\s#]/.test(piece[0]!) && ++signs > MOST_SIGNS) return place;
    place += piece.length;
  }
  return null;
}

function syntaxFaults(problems: readonly YAMLError[], lines: LineCounter): Fault[] {
  // One slip makes the parser stumble several times; only its first fault in a line tells something.
  const byLine = new Map<number, Fault>();
  const ordered = problems.map((problem) => syntaxFault(problem, lines)).sort(byPosition);
  for (const fault of ordered) {
    if (!byLine.has(fault.line)) byLine.set(fault.line, fault);
  }
  return [...byLine.values()];
}

function syntaxFault(problem: YAMLError, lines: LineCounter): Fault {
  const { line, col } = lines.linePos(problem.pos[0]);
  const several = problem.code === 'MULTIPLE_DOCS';
  return faultAt(
    { line: Math.max(1, line), column: Math.max(1, col) },
    {
      path: [],
      found: several
        ? 'a second document'
        : `${FOUND[problem.code] ?? 'what cannot be read'} (not YAML: ${lowerFirst(problem.message)})`,
      expected: EXPECTED[problem.code] ?? 'YAML: key: value lines, indented by spaces, or JSON',
    },
  );
}

function lowerFirst(message: string): string {
  // The message quotes the text, of whatever length.
  return message.charAt(0).toLowerCase() + message.slice(1, 200).replace(/\.$/, '');
}
