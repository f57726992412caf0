/** `evensow completion SHELL`: the script with which a shell completes commands; and what it asks, at each press of Tab. */

import type { Command } from 'commander';
import { answersFor } from '../completion/answers.js';
import { completionScript } from '../completion/script.js';
import { EXIT_DONE, print } from '../io/streams.js';
import { oneOf } from '../options/lists.js';
import { SHELLS, type Shell } from '../options/words.js';
import { Problem } from '../problem.js';
import { plainLines } from '../render/obeyed.js';

const EXAMPLE = 'Example: evensow completion bash';

/** @throws Problem if it is no shell that is known; it names the nearest */
export async function completion(shell: string | undefined): Promise<number> {
  const faults: string[] = [];
  if (shell === undefined)
    faults.push(`evensow completion must be told the shell: ${SHELLS.join(', ')}. ${EXAMPLE}`);
  const known = oneOf('evensow completion', shell, SHELLS, faults);
  if (known === null) throw new Problem(`${faults.join('\n')}\nSee: evensow completion --help`);
  await print(`${completionScript(known as Shell)}\n`);
  return EXIT_DONE;
}

/** What a script of `completion` asks: what may stand where the words end. */
export async function complete(program: Command, words: readonly string[]): Promise<number> {
  await print(`${answersFor(program, words).join('\n')}\n`, plainBetweenTabs);
  return EXIT_DONE;
}

/** A shell reads it, to which a tab is no sign of its own. */
function plainBetweenTabs(text: string): string {
  return text.split('\t').map(plainLines).join('\t');
}
