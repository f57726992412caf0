/** The command line: options in, exit code out. */

import { Command, CommanderError, Option } from 'commander';
import packageJson from '../package.json' with { type: 'json' };
import { MOST_SEASONS } from '../sim/study/replicate.js';
import { check } from './commands/check.js';
import { run } from './commands/run.js';
import { schema } from './commands/schema.js';
import { wholeNumber } from './options.js';
import { Problem } from './problem.js';
import { DONE, FAILED, OutputClosed, print, tell, WRONG_INPUT } from './streams.js';

/**
 * @param args what stands behind the program's name
 * @returns the exit code: 0 done, 1 the program failed, 2 the input or the options are wrong, 130 stopped by the user
 */
export async function main(args: readonly string[]): Promise<number> {
  let code = DONE;
  const text: string[] = [];
  const program = commands((result) => {
    code = result;
  }, text);
  try {
    await program.parseAsync(args, { from: 'user' });
    return code;
  } catch (error) {
    return await answer(error, text);
  }
}

/** @param ended hears the exit code of the command that ran @param text takes what commander would print */
function commands(ended: (code: number) => void, text: string[]): Command {
  const program = new Command('evensow')
    .description(
      'Plans a staged indoor growing line: which cadence, how many seeds, how many holes in each stage, and what the line yields in a usual week and in a bad one.',
    )
    .version(packageJson.version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .exitOverride()
    .configureOutput({ writeOut: (part) => text.push(part), writeErr: (part) => text.push(part) })
    .showSuggestionAfterError();

  program
    .command('run', { isDefault: true })
    .description('simulate many seasons of a scenario and say what comes of it')
    .argument(
      '[file]',
      'scenario file (YAML or JSON), - for standard input; the built-in scenario if left out',
    )
    .option('-n, --seasons <number>', 'how many seasons (200, fewer for very large lines)')
    .option('-s, --seed <number>', "seed of the random numbers; the scenario's if left out")
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts('csv'))
    .addOption(new Option('--csv', 'print the picks of each week as CSV'))
    .action(async (file: string | undefined, options: Record<string, string | boolean | undefined>) => {
      const faults: string[] = [];
      const seasons = wholeNumber('--seasons', options['seasons'], 1, MOST_SEASONS, 200, faults);
      const seed = wholeNumber('--seed', options['seed'], 0, Number.MAX_SAFE_INTEGER, 7, faults);
      if (faults.length > 0) throw new Problem(faults.join('\n'));
      ended(
        await run(file, {
          ...(seasons === undefined ? {} : { seasons }),
          ...(seed === undefined ? {} : { seed }),
          form: options['json'] ? 'json' : options['csv'] ? 'csv' : 'text',
        }),
      );
    });

  program
    .command('check')
    .description('read a scenario file and list every fault in it')
    .argument('[file]', 'scenario file, - for standard input; the built-in scenario if left out')
    .action(async (file: string | undefined) => ended(await check(file)));

  program
    .command('schema')
    .description('print the JSON Schema of the scenario file, for editors that check while you type')
    .action(async () => ended(await schema()));

  return program;
}

/** Turn what was thrown into words and an exit code. */
async function answer(error: unknown, text: readonly string[]): Promise<number> {
  if (error instanceof OutputClosed) {
    tell('evensow: the output was closed before everything was written; the rest is dropped.');
    return DONE;
  }
  if (error instanceof CommanderError) {
    if (error.exitCode !== 0) {
      tell(
        `evensow: ${text
          .join('')
          .trim()
          .replace(/^error: /, '')}\nSee: evensow --help`,
      );
      return WRONG_INPUT;
    }
    try {
      await print(text.join(''));
      return DONE;
    } catch (closed) {
      return await answer(closed, []);
    }
  }
  if (error instanceof Problem) {
    tell(`evensow: ${error.message}`);
    return WRONG_INPUT;
  }
  const details = error instanceof Error ? (error.stack ?? error.message) : String(error);
  tell(
    `evensow ${packageJson.version} failed; this is a fault of the program, not of your input. Please report it where you got evensow from (README, "Reporting a fault"), with your scenario and these lines:\n${details}`,
  );
  return FAILED;
}
