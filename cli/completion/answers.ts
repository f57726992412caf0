/**
 * What may stand where somebody presses Tab. The package reads commander's own tables (commands, options, arguments) and finds the place
 * that the words typed so far lead to; which words an option takes is told by options/words.ts, whose tables also check them.
 */

import {
  type Complete,
  type Argument as Place,
  ShellCompDirective,
  type Option as Switch,
} from '@bomb.sh/tab';
import tab from '@bomb.sh/tab/commander';
import type { Command } from 'commander';
import { type Taken, wordsTaken } from '../options/words.js';
import { ALL_WORDS, chapters, plain } from '../words/glossary/glossary.js';
import { heard } from './heard.js';

/** The command that runs if none is named. */
const DEFAULT = 'run';
/** What the package calls its own command; ours is in the tables already. */
const ITS_OWN = 'completion-script';
/** Placeholders of options and arguments that stand for a file. */
const FILES: readonly string[] = ['file', 'files', 'log', 'parts'];

const { ShellCompDirectiveDefault, ShellCompDirectiveNoFileComp, ShellCompDirectiveNoSpace } =
  ShellCompDirective;

/**
 * @param program the commands; it is changed, so it is of no use afterwards
 * @param words behind the program's name, the last one as far as it is typed, empty if it is not begun
 * @returns a line for each answer, with a tab before its explanation; the last line says in a number, behind a colon, whether files may
 * stand there too (4: no) and whether a space follows (2: no)
 */
export function answersFor(program: Command, words: readonly string[]): string[] {
  const typed = words.at(-1) ?? '';
  const before = words.slice(0, -1).flatMap(inTwo);
  let directive: number = ShellCompDirectiveNoFileComp;
  const names = program.commands.map((command) => command.name());
  const named = new Map(program.commands.map((command) => [command.name(), command]));
  const root = tab(program, { completionCommandName: ITS_OWN });
  root.commands.delete(ITS_OWN);

  const files = (): void => {
    directive = ShellCompDirectiveDefault;
  };
  const offer = (taken: Taken) => (complete: Complete) => {
    const [options, last] = valuesFrom(typed, taken);
    for (const word of options) complete(word, '');
    if (last) directive |= ShellCompDirectiveNoSpace;
  };
  const learn = (command: string, place: Switch | Place, key: string, placeholder: string): void => {
    const taken = wordsTaken(command, key);
    if (taken !== null) place.handler = offer(taken);
    else if (FILES.includes(placeholder)) place.handler = files;
  };

  for (const [name, command] of root.commands) {
    for (const [long, option] of command.options) {
      const key = `--${long}`;
      const flags = named.get(name)?.options.find((one) => one.long === key)?.flags ?? '';
      learn(name, option, key, /<(.*)>/.exec(flags)?.[1] ?? '');
    }
    for (const [key, argument] of command.arguments) learn(name, argument, key, key);
  }
  const usual = root.commands.get(DEFAULT)!;
  for (const [long, option] of usual.options) root.options.set(long, option);
  root.argument('file', files);
  root.commands.get('help')?.argument('word', helpWords(before.slice(1), names), true);

  // A single dash would stand for the short options only.
  const lines = heard(() => root.parse([...before, typed === '-' ? '--' : typed]));
  return [...lines.slice(0, -1), `:${directive}`];
}

/** `--by=bad_week` as the two words that it stands for. */
function inTwo(word: string): string[] {
  const at = word.startsWith('--') ? word.indexOf('=') : -1;
  return at < 0 ? [word] : [word.slice(0, at), word.slice(at + 1)];
}

/** The values that go on from what is typed. @returns also whether more may follow, of several words in one */
function valuesFrom(typed: string, { one, several }: Taken): [values: string[], more: boolean] {
  if (several === undefined) return [[...one], false];
  const value = typed.startsWith('-') ? typed.slice(typed.indexOf('=') + 1) : typed;
  const end = Math.max(...[...several.signs].map((sign) => value.lastIndexOf(sign))) + 1;
  const done = value.slice(0, end);
  const used = done.slice(done.lastIndexOf(',') + 1).split('+');
  const left = several.words.filter((word) => !used.includes(word));
  return [[...(end === 0 ? one : []), ...left.map((word) => done + word)], true];
}

/** As it is typed: without signs that mean something to a shell, or nothing to anybody. */
function inWords(name: string): string {
  return /^[\p{L}\p{N}%._ -]+$/u.test(name) ? name : plain(name);
}

/** The commands and words that `help` explains, word by word. @param said the words that stand there already */
function helpWords(said: readonly string[], commands: readonly string[]) {
  return (complete: Complete): void => {
    const names = chapters().flatMap(({ words }) => words.flatMap(({ name, also = [] }) => [name, ...also]));
    const typed = names.filter((name) => !name.includes("'")).map(inWords);
    const all = [...(said.length === 0 ? commands : []), ALL_WORDS, ...typed];
    const parts = all
      .map((name) => name.split(' '))
      .filter((one) => said.every((word, i) => word === one[i]));
    for (const next of new Set(parts.flatMap((one) => one[said.length] ?? []))) complete(next, '');
  };
}
