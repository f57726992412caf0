/**
 * Asks on the terminal, line by line, and gives the terminal back. What was said scrolls as in any other conversation; only the line
 * that is typed is drawn anew, so no window is too small. The only file of the questions that has ink and the process in its hands.
 */

import { ConfirmInput, TextInput } from '@inkjs/ui';
import { render, Static, Text, useApp, useInput, useStdout } from 'ink';
import { type ReactElement, type ReactNode, useEffect, useRef, useState } from 'react';
import { inOneLine } from '../render/obeyed.js';
import { wrapped } from '../render/wrap.js';
import type { Answers } from './answers.js';
import { begun, hasKeys, heard, retyped, type Unread } from './dialogue.js';

/**
 * @param given answers that are there already
 * @param unread answers that can be read only when others are there
 * @param heading what is said at first
 * @param aloud for somebody who listens
 * @returns null if whoever was asked left
 */
export async function askQuestions(
  given: Partial<Answers>,
  unread: Unread,
  heading: string,
  aloud: boolean,
): Promise<Answers | null> {
  return await answerTo<Answers>(aloud, (tell) => (
    <Questions given={given} unread={unread} heading={heading} tell={tell} />
  ));
}

/**
 * @param usually what Enter alone says
 * @returns null if whoever was asked left
 */
export async function askWhether(
  { question, usually }: { readonly question: string; readonly usually: boolean },
  aloud: boolean,
): Promise<boolean | null> {
  return await answerTo<boolean>(aloud, (tell) => (
    <Whether question={question} usually={usually} tell={tell} />
  ));
}

type Tell<Answer> = (answer: Answer) => void;

async function answerTo<Answer>(
  aloud: boolean,
  element: (tell: Tell<Answer>) => ReactElement,
): Promise<Answer | null> {
  let answer: Answer | null = null;
  const app = render(
    element((told) => {
      answer = told;
    }),
    { exitOnCtrlC: false, patchConsole: false, isScreenReaderEnabled: aloud },
  );
  const leave = (): void => app.unmount();
  // The terminal may go away without a word.
  process.stdin.once('end', leave);
  await app.waitUntilExit();
  process.stdin.off('end', leave);
  return answer;
}

/** Ctrl-C, Escape, and Ctrl-D, by which the input of a terminal ends. */
function isLeaving(input: string, key: { readonly escape: boolean; readonly ctrl: boolean }): boolean {
  return key.escape || (key.ctrl && (input === 'c' || input === 'd'));
}

function Questions({
  given,
  unread,
  heading,
  tell,
}: {
  readonly given: Partial<Answers>;
  readonly unread: Unread;
  readonly heading: string;
  readonly tell: Tell<Answers>;
}): ReactNode {
  const { exit } = useApp();
  const [dialogue, setDialogue] = useState(() => begun(given, unread, heading));
  const { question, answers, said, line } = dialogue;
  const { columns } = useStdout().stdout;
  /** What stands in the field, and what was pressed there and is not done yet. */
  const typed = useRef('');
  const [pressed, setPressed] = useState<{ readonly keys: string } | null>(null);
  /** The line in which the field listens already: only then is it offered. */
  const [listening, setListening] = useState(-1);
  const change = (to: typeof dialogue): void => {
    typed.current = to.typed;
    setDialogue(to);
  };

  useInput((input, key) => {
    if (isLeaving(input, key)) exit();
    // The field takes the letter of such a key for one that was typed: it begins anew, empty after Ctrl-U, which clears a line.
    else if (key.ctrl) change(retyped(dialogue, input === 'u' ? '' : typed.current));
  });
  // Here the field has told all that was typed before; when it hears Enter itself it may not know the last letter.
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was pressed is done once
  useEffect(() => {
    if (pressed === null) return;
    const next = heard(dialogue, typed.current + pressed.keys);
    if (next === null) exit();
    else change(next);
  }, [pressed]);
  useEffect(() => setListening(line), [line]);
  useEffect(() => {
    if (question !== null) return;
    tell(answers as Answers);
    exit();
  }, [question, answers, tell, exit]);

  return (
    <>
      <Static items={[...said]}>
        {({ text, strong }, i) => (
          <Text key={i} bold={strong}>
            {inWindow(text, columns)}
          </Text>
        )}
      </Static>
      {question !== null && (
        <Text>
          {listening === line ? '> ' : ''}
          <TextInput
            key={line}
            defaultValue={dialogue.typed}
            onChange={(text) => {
              typed.current = text;
              if (hasKeys(text)) setPressed({ keys: '' });
            }}
            onSubmit={() => setPressed({ keys: '\r' })}
          />
        </Text>
      )}
    </>
  );
}

/** A line broken between words; what goes on stands below its beginning. */
function inWindow(text: string, columns: number): string {
  const indent = text.length - text.trimStart().length;
  const lines = wrapped(inOneLine(text.trimStart()), Math.max(1, columns - indent));
  return lines.map((line) => ' '.repeat(indent) + line).join('\n');
}

function Whether({
  question,
  usually,
  tell,
}: {
  readonly question: string;
  readonly usually: boolean;
  readonly tell: Tell<boolean>;
}): ReactNode {
  const { exit } = useApp();
  const answer = (yes: boolean): void => {
    tell(yes);
    exit();
  };
  useInput((input, key) => {
    if (isLeaving(input, key)) exit();
  });
  return (
    <Text>
      {question}{' '}
      <ConfirmInput
        defaultChoice={usually ? 'confirm' : 'cancel'}
        onConfirm={() => answer(true)}
        onCancel={() => answer(false)}
      />
    </Text>
  );
}
