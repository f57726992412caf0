/** The questions as a conversation: pure; what was said stays, and one line is being typed. */

import type { Answers } from './answers.js';
import { QUESTIONS, type Question, readAnswer } from './questions.js';

/** A line that was said; the first of a question is strong. */
export interface Said {
  readonly text: string;
  readonly strong: boolean;
}

/** Answers as they were typed, that can be read only when those before them are there. */
export type Unread = Readonly<Partial<Record<keyof Answers, string>>>;

export interface Dialogue {
  readonly answers: Partial<Answers>;
  readonly unread: Unread;
  /** What is asked now; null when all is answered. */
  readonly question: Question | null;
  /** Everything so far. */
  readonly said: readonly Said[];
  /** What stands in the line that is typed, at its beginning. */
  readonly typed: string;
  /** Rises with each new line that is typed. */
  readonly line: number;
}

/** @param given answers that are there already: they are not asked for @param heading what is said at first */
export function begun(given: Partial<Answers>, unread: Unread, heading: string): Dialogue {
  return asking({ answers: given, unread, question: null, said: [quiet(heading)], typed: '', line: 0 });
}

/** Keys that come as text where several are pressed or pasted at once. */
const ERASE = ['\u007f', '\b'];
const CLEAR = '\u0015';
const LEAVE = ['\u0003', '\u0004'];

/** Whether there are keys in it beside letters. */
export function hasKeys(text: string): boolean {
  return /\p{Cc}/u.test(text);
}

/**
 * After somebody typed this, keys and all: each line that is ended answers a question. Behind a wrong one nothing is taken.
 * @returns null if it was left
 */
export function heard(dialogue: Dialogue, keys: string): Dialogue | null {
  let now = dialogue;
  let line = '';
  for (const key of keys.replaceAll('\r\n', '\r')) {
    if (LEAVE.includes(key)) return null;
    if (key === '\r' || key === '\n') {
      if (now.question === null) return now;
      const before = now.question;
      now = answered(now, before, line);
      // What is to be mended stands in the line.
      if (now.question === before || now.typed !== '') return now;
      line = '';
    } else if (ERASE.includes(key)) line = [...line].slice(0, -1).join('');
    else if (key === CLEAR) line = '';
    else if (!hasKeys(key)) line += key;
  }
  return retyped(now, line);
}

/** With another text in the line that is typed. */
export function retyped(dialogue: Dialogue, typed: string): Dialogue {
  return { ...dialogue, typed, line: dialogue.line + 1 };
}

function answered(dialogue: Dialogue, question: Question, line: string): Dialogue {
  const text = line.trim() === '' && question.empty !== null ? question.empty : line;
  const read = readAnswer(question, text, dialogue.answers);
  const said = [...dialogue.said, quiet(`> ${text}`)];
  if (read.ok)
    return asking({ ...dialogue, answers: { ...dialogue.answers, [question.key]: read.value }, said });
  const faults = [...read.faults, `Mend it, or clear the line with Ctrl-U. Example: ${question.example}`];
  // To be mended, not typed again.
  return retyped({ ...dialogue, said: [...said, ...faults.map((fault) => quiet(`  ${fault}`))] }, line);
}

/** Goes on to the first question without an answer. */
function asking(dialogue: Dialogue): Dialogue {
  const { answers, said } = dialogue;
  const question = QUESTIONS.find(({ key }) => answers[key] === undefined) ?? null;
  if (question === null) return { ...dialogue, question };
  const place = `${QUESTIONS.indexOf(question) + 1} of ${QUESTIONS.length}`;
  const [first, ...more] = question.text(answers);
  const { [question.key]: known, ...unread } = dialogue.unread;
  const posed = {
    ...retyped(dialogue, ''),
    unread,
    question,
    said: [...said, quiet(' '), { text: `${place}: ${first}`, strong: true }, ...more.map(quiet)],
  };
  return known === undefined ? posed : answered(posed, question, known);
}

function quiet(text: string): Said {
  return { text, strong: false };
}
