/** The five questions: what is asked, how an answer is read, and how that which is wrong with it is told. */

import { failure, type Result } from '../../sim/models/result.js';
import { type Answers, readAway, readCrop, readHeads, readStages, readVisits } from './answers.js';
import { KINDS, originOf, usualDays } from './kinds.js';

export interface Question {
  /** What its answer is, and the name of its option. */
  readonly key: keyof Answers;
  /** What the answer says, after "It says". */
  readonly says: string;
  /** Lines: the question, and what may be answered. @param before answers to those before it */
  readonly text: (before: Partial<Answers>) => readonly string[];
  readonly example: string;
  /** What an empty line stands for; null: it is no answer. */
  readonly empty: string | null;
  /** @param before answers to those before it: what lacks is not known */
  readonly read: (text: string, before: Partial<Answers>) => Result<Answers[keyof Answers], string>;
}

export const QUESTIONS: readonly Question[] = [
  {
    key: 'stages',
    says: 'what stands there: trays and channels with their holes, in the order in which plants pass through them',
    text: () => [
      'What stands there?',
      '  Trays and channels with their holes, in the order in which plants pass through them. For example:',
      '  1 tray of 40, 2 channels of 24, 8 channels of 9',
      '  Names of your own stand before them, with a colon: bench: 8 channels of 9',
    ],
    example: '1 tray of 40, 2 channels of 24, 8 channels of 9',
    empty: null,
    read: readStages,
  },
  {
    key: 'crop',
    says: 'what grows, and how many days it usually takes in each stage',
    text: cropText,
    example: 'butterhead 7 14 21',
    empty: null,
    read: (text, { stages }) => readCrop(text, stages ?? null),
  },
  {
    key: 'visits',
    says: 'on which days you come: nothing is sown, moved or picked on others',
    text: () => [
      'Which days do you come?',
      '  Nothing is sown, moved or picked on other days. For example:',
      '  mon thu sat',
      '  or: daily',
    ],
    example: 'mon thu sat',
    empty: null,
    read: readVisits,
  },
  {
    key: 'heads',
    says: 'how many heads a week you would like',
    text: () => ['How many heads a week would you like?', '  For example:', '  12'],
    example: '12',
    empty: null,
    read: readHeads,
  },
  {
    key: 'away',
    says: 'when you are away: first and last day',
    text: () => [
      'When are you away?',
      '  First and last day, and the same again for another time. For example:',
      '  2027-02-08..2027-02-14, 2027-05-01..2027-05-03',
      '  or: none (Enter alone says so too)',
    ],
    example: '2027-02-08..2027-02-14',
    empty: 'none',
    read: readAway,
  },
];

function cropText({ stages = [] }: Partial<Answers>): string[] {
  const names = stages.map(({ name }) => name);
  const offers = KINDS.flatMap((kind) => {
    const days = usualDays(kind, stages.length);
    return days === null ? [] : [{ kind, days: days.join(' + ') }];
  });
  const name = Math.max(0, ...offers.map(({ kind }) => kind.name.length));
  const days = Math.max(0, ...offers.map(({ days }) => days.length));
  const own = `my lettuce ${(offers.find(({ kind }) => !kind.published)?.days ?? names.map(() => 14).join(' + ')).replaceAll(' +', '')}`;
  return [
    'What grows, and how many days does it usually stand in each stage?',
    `  ${names.join(' + ')}:`,
    ...offers.map(
      (offer) => `  ${offer.kind.name.padEnd(name)}  ${offer.days.padStart(days)}  ${originOf(offer.kind)}`,
    ),
    ...(offers.length === 0
      ? []
      : [
          '  Those days are a beginning, until you know your own. Type one of these names, or any name with your own days:',
        ]),
    ...(offers.length > 0 ? [] : ['  A name with its days:']),
    `  ${own}`,
  ];
}

/** Longest answer [characters]: 20 stages with the longest names have a tenth of it. */
const LONGEST = 20_000;

/** What an answer says. @param before answers to the questions before it: what lacks is not known */
export function readAnswer(
  question: Question,
  text: string,
  before: Partial<Answers>,
): Result<Answers[keyof Answers], string> {
  return text.length > LONGEST
    ? failure([`It must have at most ${LONGEST} characters.`])
    : question.read(text, before);
}

/** What is wrong with the value of an option. @param faults sentences on it */
export function optionFault({ key, example }: Question, text: string, faults: readonly string[]): string {
  return `--${key} must not be ${JSON.stringify(text)}. ${faults.join(' ')} Example: --${key} "${example}"`;
}

/** An option that lacks where nobody can be asked. */
export function lacking({ key, says, example }: Question): string {
  return `--${key} must be given. It says ${says}. Example: --${key} "${example}"`;
}
