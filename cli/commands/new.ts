/** `evensow new FILE`: five questions, a scenario written from the answers, and what it yields. */

import { WHOLE } from '../../sim/study/study.js';
import { runStudy } from '../../sim/study/summary.js';
import { scenarioFrom } from '../inputs/scenario-file.js';
import { EXIT_DONE, EXIT_INTERRUPTED, isTerminal, print, tell, today } from '../io/streams.js';
import { checkNew, writeNew } from '../io/write-file.js';
import type { Answers } from '../new/answers.js';
import { lacking, optionFault, QUESTIONS, readAnswer } from '../new/questions.js';
import { comingMonday, scenarioText, sowingFor } from '../new/scenario-text.js';
import { dateOf, todayOf } from '../options/dates.js';
import { type Options, seasonsOf, studyOptions } from '../options/options.js';
import { Problem } from '../problem.js';
import { textOf } from '../render/text.js';
import { type Begun, begunSections, nextSections, searchOffer } from '../sections/new.js';
import { collect } from '../studies/perform.js';
import { searchCommand } from './search.js';

const EXAMPLE = 'Example: evensow new my-line.yaml';

/** @throws Problem if the file is there, or an answer is wrong or, where nobody can be asked, lacks; then nothing is written */
export async function newCommand(file: string | undefined, options: Options): Promise<number> {
  if (file === undefined) throw new Problem(`new must have the name of a file to write. ${EXAMPLE}`);
  if (file.trim() === '' || file === '-')
    throw new Problem(
      `The file must not be ${JSON.stringify(file)}. It must be a name to write to. ${EXAMPLE}`,
    );
  await checkNew(file);

  const faults: string[] = [];
  const start = dateOf('--start', options['start'], '', faults);
  const from = todayOf(options['today'], faults) ?? today();
  const given = answersOf(options, faults);
  const asks = isTerminal() && QUESTIONS.some(({ key }) => options[key] === undefined);
  if (!asks) {
    faults.push(...QUESTIONS.filter(({ key }) => options[key] === undefined).map(lacking));
  }
  if (faults.length > 0) throw new Problem(faults.join('\n'));

  const aloud = options.aloud === true || process.env['INK_SCREEN_READER'] === 'true';
  const answers = asks ? await asked(file, given, options['crop'], aloud) : (given as Answers);
  if (answers === null) {
    tell('evensow: left before all was answered; nothing was written.');
    return EXIT_INTERRUPTED;
  }
  const first = start ?? comingMonday(from);
  const sowing = sowingFor(answers, first);
  const text = scenarioText(answers, { start: first, asked: start !== null, sowing, file });
  await writeNew(file, text);
  await print(`Written: ${file}\n\n`);
  const begun = { file, heads: answers.heads, most: sowing.most };
  return await firstAnswer(begun, text, asks ? aloud : null);
}

/** The answers among the options. @param faults takes a sentence for each that is wrong */
function answersOf(options: Options, faults: string[]): Partial<Answers> {
  let given: Partial<Answers> = {};
  for (const question of QUESTIONS) {
    const text = options[question.key];
    if (text === undefined) continue;
    const read = readAnswer(question, text, given);
    if (read.ok) given = { ...given, [question.key]: read.value };
    else faults.push(optionFault(question, text, read.faults));
  }
  return given;
}

/** @param crop as an option: how many days it needs is known when the stages are */
async function asked(
  file: string,
  { crop: read, ...given }: Partial<Answers>,
  crop: string | undefined,
  aloud: boolean,
): Promise<Answers | null> {
  const { askQuestions } = await import('../new/open.js');
  const later = crop !== undefined && given.stages === undefined;
  return askQuestions(
    later || read === undefined ? given : { ...given, crop: read },
    later ? { crop } : {},
    `A few questions, then ${file} is written. Escape or Ctrl-C: leave, and nothing is written.`,
    aloud,
  );
}

/**
 * Run the scenario, say what comes of it, and offer to look for the plan.
 * @param aloud null if nobody can be asked
 */
async function firstAnswer(begun: Begun, text: string, aloud: boolean | null): Promise<number> {
  const { plan } = scenarioFrom({ name: begun.file, text });
  const seasons = seasonsOf([plan], studyOptions({}, []));
  const study = runStudy(plan, plan.seed, seasons);
  const { result: collected, stopped } = await collect(study, undefined, WHOLE);
  const result = study.conclude(collected);
  if (result !== null) await print(textOf(begunSections(begun, result), columns()));
  if (stopped) return EXIT_INTERRUPTED;
  await print(`\n${textOf(nextSections(begun, aloud !== null), columns())}`);
  if (aloud === null) return EXIT_DONE;
  await print('\n');
  const { askWhether } = await import('../new/open.js');
  const wanted = await askWhether(searchOffer(begun), aloud);
  if (wanted !== true) return EXIT_DONE;
  return await searchCommand(begun.file, { heads: String(begun.heads) });
}

/** Columns for the answer: those of the window that somebody was asked in, if it is a narrow one. */
function columns(): number {
  return Math.min(80, Math.max(40, process.stdout.columns ?? 80));
}
