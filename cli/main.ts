/** The command line: options in, exit code out. */

import { Command, CommanderError, Option } from 'commander';
import packageJson from '../package.json' with { type: 'json' };
import { ACTIONS } from '../sim/season/rows.js';
import { ORDERS } from '../sim/study/compare.js';
import { check } from './commands/check.js';
import { compareCommand } from './commands/compare.js';
import { merge } from './commands/merge.js';
import { runCommand } from './commands/run.js';
import { schema } from './commands/schema.js';
import { formOf, type Options } from './options.js';
import { Problem } from './problem.js';
import { DONE, FAILED, OutputClosed, print, tell, WRONG_INPUT } from './streams.js';

const BUILT_IN_IF_NONE = '- for standard input; the built-in scenario if left out';
const FILE = `scenario file (YAML or JSON), ${BUILT_IN_IF_NONE}`;

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

  studyCommand(program.command('run', { isDefault: true }))
    .description('simulate many seasons of a scenario and say what comes of it')
    .argument('[file]', FILE)
    .action(async (file: string | undefined, options: Options) => {
      ended(await runCommand(file, options));
    });

  studyCommand(program.command('compare'))
    .description('compare cadences, seeds, visits or files with the same luck')
    .argument('[files...]', `scenario files; ${BUILT_IN_IF_NONE}`)
    .option('--every <days>', 'sow every so many days: 2,3,4,7')
    .option('--on <weekdays>', 'sow on weekdays: mon+thu,tue')
    .option('--refill', 'sow at each visit what the line will miss')
    .option('--seeds <numbers>', 'seeds per sowing: 4,6,8 or 4..8')
    .option('--seeds-a-week <numbers>', 'seeds a week, dealt to the sowings: 20,30')
    .option('--visits <days>', 'who comes when: daily,mon+thu+sat')
    .option('--by <figure>', `the best first, by: ${ORDERS.join(', ')}`)
    .action(async (files: string[], options: Options) => {
      ended(await compareCommand(files, options));
    });

  program
    .command('merge')
    .description('join the parts of a study that was carried out with --shard')
    .argument('<parts...>', 'files of the parts, all of them, in any order')
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts('csv'))
    .addOption(new Option('--csv', 'print the figures as CSV'))
    .option('-o, --out <file>', 'write the result to a file, whole or not at all')
    .action(async (parts: string[], options: Options) => {
      ended(await merge(parts, { form: formOf(options), out: options.out ?? null }));
    });

  program
    .command('check')
    .description('read a scenario file and list every fault in it')
    .argument('[file]', FILE)
    .action(async (file: string | undefined) => ended(await check(file)));

  program
    .command('log')
    .description('add a row to the season log: log sow 6 butterhead, log move 5 B12 finishing, log pick 4 B9')
    .argument('<action>', `what was done: ${ACTIONS.join(', ')}`)
    .argument('<count>', 'seeds, plants or holes')
    .argument('[what]', 'the batch; for sow the crop, for clean the stage')
    .argument('[stage]', 'moved into, or lost in; may be left out where it can be one only')
    .option('--to <file>', 'the log', 'season.csv')
    .option('--line <file>', 'scenario file with the stages and crops of the line')
    .option('--date <date>', 'when it was done, YYYY-MM-DD (today)')
    .option('--batch <name>', 'name of the batch that is sown (the next number: B1, B2, ...)')
    .option('--channel <name>', 'the channel')
    .option('--grams <number>', 'what the whole pick weighed')
    .option('--note <text>', 'a note')
    .action(
      async (action: string, count: string, what: string | undefined, stage: string | undefined, options) => {
        // Loaded when it is needed: what keeps two shells apart listens to signals from then on.
        const { log } = await import('./commands/log.js');
        ended(await log(action, count, what, stage, options));
      },
    );

  program
    .command('schema')
    .description('print the JSON Schema of the scenario file, for editors that check while you type')
    .action(async () => ended(await schema()));

  return program;
}

/** The options that every study has. */
function studyCommand(command: Command): Command {
  return command
    .option('-n, --seasons <number>', 'how many seasons (200, fewer for very large lines)')
    .option('-s, --seed <number>', "seed of the random numbers; the scenario's if left out")
    .option('--workers <number>', 'threads to run seasons on; by the size of the work if left out')
    .option('--shard <k/n>', 'carry out part k of n only and write it, to be joined with merge')
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts(['csv', 'shard']))
    .addOption(new Option('--csv', 'print the figures as CSV').conflicts('shard'))
    .option('-o, --out <file>', 'write the result to a file, whole or not at all');
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
