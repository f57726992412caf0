/** The command line: options in, exit code out. */

import { Command, CommanderError, Option } from 'commander';
import packageJson from '../package.json' with { type: 'json' };
import { SEARCH_DEFAULTS } from '../sim/calls/search.js';
import { nearest } from '../sim/models/nearest.js';
import { ACTIONS } from '../sim/season/log/rows.js';
import { USUAL_DAYS, USUAL_SEASONS, USUAL_WEEKS } from '../sim/seasons/how-many.js';
import { ORDERS } from '../sim/study/compare.js';
import { COST_KINDS } from '../sim/study/search/candidates.js';
import { check } from './commands/check.js';
import { compareCommand } from './commands/compare.js';
import { merge } from './commands/merge.js';
import { runCommand } from './commands/run.js';
import { schema } from './commands/schema.js';
import { searchCommand } from './commands/search.js';
import { sizeCommand } from './commands/size.js';
import { watch } from './commands/watch.js';
import { SWITCH_ON } from './completion/switch-on.js';
import { EXIT_DONE, EXIT_FAILED, EXIT_WRONG_INPUT, OutputClosed, print, tell } from './io/streams.js';
import { exists } from './io/write-file.js';
import { fileToWrite, type Options } from './options/options.js';
import { SHELLS } from './options/words.js';
import { Problem } from './problem.js';
import { logExample } from './words/logged.js';

const BUILT_IN_IF_NONE = '- for standard input; the built-in scenario if left out';
const FILE = `scenario file (YAML or JSON), ${BUILT_IN_IF_NONE}`;

const NAMED_LOG = 'the one that the scenario names if left out';

const OUT = 'write the result to a file, whole or not at all';
const ALL_TAKES = 'tell in full what it takes: light, growth, water, load, work, money';
const SEED = "seed of the random numbers; the scenario's if left out";
const WORKERS = 'threads to run seasons on; by the size of the work if left out';

const RESULT_FILE = fileToWrite(
  '--out',
  'the result',
  'result.txt',
  'Without --out the result goes to standard output.',
);
const LOG_FILE = fileToWrite('--to', 'the log', 'season.csv', 'A log is a file that is read and added to.');
const PAGE_FILE = fileToWrite('--out', 'the page', 'plan.html', 'A page is a file for a browser.');
const FITTED_FILE = fileToWrite(
  '--write',
  'the scenario',
  'fitted.yaml',
  'The figures go to standard output.',
);

const SEARCH_HELP = `Without limits: a sowing every 1 to 7 days, half to twice the seeds, up to 2
channels more or fewer in the last two stages. Plans are looked at from the
cheapest on; each gets as many seasons as it takes to tell whether it meets the
goal: a fully sequential test (Kim & Nelson 2001, ACM TOMACS 11:251-273; against
a standard: Batur & Kim 2010, ACM TOMACS 20(3):13), with a guard against seasons
that are all alike by luck.`;

/**
 * @param args what stands behind the program's name
 * @returns the exit code: 0 done, 1 the program failed, 2 the input or the options are wrong, 130 stopped by the user
 */
export async function main(args: readonly string[]): Promise<number> {
  let code = EXIT_DONE;
  const text: string[] = [];
  const program = commands((result) => {
    code = result;
  }, text);
  try {
    // Nothing was asked for: the dashboard, where there is a terminal for it.
    if (args.length === 0) return await watch(undefined, undefined, { options: {}, demanded: false });
    if (args[0] === 'complete' && args[1] === '--') {
      return await (await import('./commands/completion.js')).complete(program, args.slice(2));
    }
    // Of help itself there is the help of the program.
    if (args[0] === 'help' && args[1] === 'help') return await main(['--help']);
    if (args[0] === 'help' && args[1] !== undefined && !args[1].startsWith('-')) {
      const { explanation, helpOnWord } = await import('./commands/help.js');
      const command = program.commands.find((one) => one.name() === args[1]);
      if (command === undefined) return await helpOnWord(args.slice(1), namesOf(program));
      const meaning = explanation(command.name());
      if (meaning !== '') command.addHelpText('after', `\n${meaning.trimEnd()}`);
    }
    await refuseStrayWord(args, program);
    await program.parseAsync(args, { from: 'user' });
    return code;
  } catch (error) {
    return await answer(error, text, helpFor(args, program));
  }
}

/** Names of commands as they may be typed. */
function namesOf(program: Command): string[] {
  return [...program.commands.map((command) => command.name()), 'help'];
}

/**
 * A first word that is no command is taken for the file of `run`. What can be no more than a slip is told here.
 * @throws Problem if a plain word is neither a command nor a file
 */
async function refuseStrayWord([word]: readonly string[], program: Command): Promise<void> {
  const names = namesOf(program);
  if (word === undefined || names.includes(word)) return;
  if (!/^[a-z][\w-]*$/i.test(word) || (await exists(word))) return;
  const near = nearest(word, names);
  const advice = near === null ? `The commands are ${names.join(', ')}.` : `Did you mean ${near}?`;
  throw new Problem(
    `${word} is no command, and there is no file of that name. ${advice} See: evensow --help`,
  );
}

/** What helps after a slip in these arguments: options without a command are those of `run`. */
function helpFor([first, second]: readonly string[], program: Command): string {
  const command = first !== undefined && first !== 'help' && namesOf(program).includes(first) ? first : 'run';
  const example = command === 'log' ? `${logExample(second ?? '')}\n` : '';
  return `${example}See: evensow ${command} --help`;
}

/** @param ended hears the exit code of the command that ran @param text takes what commander would print */
export function commands(ended: (code: number) => void, text: string[]): Command {
  type Run<Args extends unknown[]> = (...args: Args) => Promise<number>;
  const ends = <Args extends unknown[]>(run: Run<Args>) => {
    return async (...args: Args): Promise<void> => ended(await run(...args));
  };
  // Loaded when it is needed: what keeps two shells apart listens to signals from then on.
  const later = <Args extends unknown[]>(load: () => Promise<Run<Args>>) => {
    return ends(async (...args: Args) => (await load())(...args));
  };
  const program = new Command('evensow')
    .description(
      'Plans a staged indoor growing line: which cadence, how many seeds, how many holes in each stage, and what the line yields in a usual week and in a bad one.',
    )
    .version(packageJson.version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    // By its name alone, so that what it does has room beside it.
    .configureHelp({ subcommandTerm: (command) => command.name(), minWidthToWrap: 20 })
    .exitOverride()
    .configureOutput({ writeOut: (part) => text.push(part), writeErr: (part) => text.push(part) })
    .showSuggestionAfterError()
    .helpCommand('help [word...]', 'explain a command, or a word of the results')
    .addHelpText(
      'after',
      '\nevensow help WORD explains a word, such as: evensow help bad week\nevensow help words lists them.',
    );

  program
    .command('new')
    .description('begin: five questions, and a scenario is written from the answers')
    .usage('<file> [options]')
    .argument('[file]', 'the scenario file to write; never one that is there already')
    .option('--stages <text>', 'what stands there: "1 tray of 40, 2 channels of 24, 8 channels of 9"')
    .option('--crop <text>', 'what grows, and its days in each stage: "butterhead 7 14 21"')
    .option('--visits <days>', 'which days you come: daily, or "mon thu sat"')
    .option('--heads <number>', 'heads a week that you would like')
    .option('--away <dates>', 'when you are away: 2027-02-08..2027-02-14 (several with commas), or none')
    .option('--start <date>', 'day of the first sowing, YYYY-MM-DD (the Monday that comes)')
    .option('--today <date>', 'today, YYYY-MM-DD or now (now)')
    .option('--aloud', 'plain questions, for screen readers')
    .action(later(async () => (await import('./commands/new.js')).newCommand));

  program
    .command('watch')
    .description('see the line on the screen, turn the cadence and watch what happens')
    .argument('[file]', FILE)
    .argument('[log]', `season log to be shown in the same picture; ${NAMED_LOG}`)
    .option('--aloud', 'plain sentences instead of pictures, for screen readers')
    .action(
      ends((file: string | undefined, other: string | undefined, options: Options) =>
        watch(file, other, { options, demanded: true }),
      ),
    );

  studyCommand(program.command('run', { isDefault: true }))
    .description('simulate many seasons of a scenario and say what comes of it')
    .argument('[file]', FILE)
    .option('--all', ALL_TAKES)
    .action(ends(runCommand));

  studyCommand(program.command('compare'))
    .description('compare cadences, seeds, visits, light or files with the same luck')
    .argument('[files...]', `scenario files; ${BUILT_IN_IF_NONE}`)
    .option('--every <days>', 'sow every so many days: 2,3,4,7')
    .option('--on <weekdays>', 'sow on weekdays: mon+thu,tue')
    .option('--refill', 'sow at each visit what the line will miss')
    .option('--seeds <numbers>', 'seeds per sowing: 4,6,8 or 4..8')
    .option('--seeds-a-week <numbers>', 'seeds a week, dealt to the sowings: 20,30')
    .option('--visits <days>', 'who comes when: daily,mon+thu+sat')
    .option(
      '--ppfd <stage=values>',
      'light at the leaves: finishing=200,260 (again for another stage; without a stage: all lit ones)',
      listed,
    )
    .option('--hours <stage=values>', 'hours of lamps a day: finishing=14,16,18 (likewise)', listed)
    .option('--by <figure>', `the best first, by: ${ORDERS.join(', ')}`)
    .action(ends(compareCommand));

  studyCommand(program.command('size'))
    .description('the nursery against the finishing channels: which size, what more channels are worth')
    .argument('[file]', FILE)
    .option('--channels <stage=counts>', 'channels to try: nursery=1..4 (again for another stage)', listed)
    .option('--split <number>', 'deal so many channels to the stages in every way')
    .option('--area <m2>', 'deal a floor or shelf area to the stages in every way')
    .option('--between <stages>', 'stages that --split or --area deals to; the last two if left out', listed)
    .action(ends(sizeCommand));

  const usual = SEARCH_DEFAULTS;
  withExecutionOptions(program.command('search'))
    .description('find the cheapest plan that reaches so many heads a week')
    .argument('[file]', FILE)
    .option('--heads <number>', 'heads a week that are the goal (needed)')
    .option('--weeks-met <share>', `share of the weeks that must bring them (${usual.weeksMet})`)
    .option('--least <cost>', `what to spend least of: ${COST_KINDS.join(', ')} (${usual.least})`)
    .option('--every <days>', 'days between sowings: 2,3,4 or 2..7')
    .option('--on <weekdays>', 'weekdays of sowing: mon+thu,tue')
    .option('--seeds <numbers>', 'seeds per sowing: 4,6,8 or 4..12')
    .option(
      '--channels <stage=counts>',
      'channels of a stage: nursery=1..4 (again for another stage)',
      listed,
    )
    .option('--visits <days>', 'who comes when: daily,mon+thu+sat')
    .option('--confidence <share>', `probability that it is the right plan (${usual.confidence})`)
    .option('--near <share>', `so near the goal a share of weeks may go either way (${usual.near})`)
    .option('--first <number>', `first seasons, of every plan (${usual.first})`)
    .option('--runners <number>', `how many of the next cheapest plans to find too (${usual.runners})`)
    .addHelpText('after', `\n${SEARCH_HELP}`)
    .action(ends(searchCommand));

  program
    .command('merge')
    .description('join the parts of a study that was carried out with --shard')
    .argument('<parts...>', 'files of the parts, all of them, in any order')
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts('csv'))
    .addOption(new Option('--csv', 'print the figures as CSV'))
    .option('--all', 'of a run: tell in full what it takes')
    .option('-o, --out <file>', OUT, RESULT_FILE)
    .action(ends(merge));

  program
    .command('check')
    .description('read a scenario file and list every fault in it')
    .argument('[file]', FILE)
    .action(ends(check));

  program
    .command('log')
    .description('add a row to the season log: log sow 6 butterhead, log move 5 B12 finishing, log pick 4 B9')
    .usage('<action> [count] [what] [stage] [options]')
    .argument('[action]', `what was done: ${ACTIONS.join(', ')}`)
    .argument('[count]', 'seeds, plants or holes; for tank nothing')
    .argument('[what]', 'the batch; for sow the crop, for clean the stage')
    .argument('[stage]', 'moved into, lost in, or stood in; may be left out where it can be one only')
    .option('--to <file>', 'the log; that of the scenario if left out, or season.csv', LOG_FILE)
    .option(
      '--line <file>',
      'scenario with the stages and crops of the line; without --to, that here which names a log',
    )
    .option('--date <date>', 'when it was done, YYYY-MM-DD (today)')
    .option('--batch <name>', 'name of the batch that is sown (the next number: B1, B2, ...)')
    .option('--crop <name>', 'stand: the crop of a batch that was not sown in this log')
    .option('--since <date>', 'stand: since when they are in that stage, or first..last date')
    .option('--channel <name>', 'the channel')
    .option('--grams <number>', 'what the whole pick weighed')
    .option('--litres <number>', 'tank: what it was topped up with')
    .option('--ec <number>', 'tank: its conductivity before topping up, mS/cm')
    .option('--changed', 'tank: it was emptied and filled anew')
    .option('--note <text>', 'a note')
    .action(later(async () => (await import('./commands/log.js')).log));

  futuresCommand(program.command('ahead'))
    .description(
      'the next weeks from what stands by the log: heads, empty holes, batches without room, what to sow',
    )
    .usage('<file> [log] [options]')
    .argument('[file]', 'scenario file (YAML or JSON), - for standard input')
    .argument('[log]', `season log (CSV), - for standard input; ${NAMED_LOG}`)
    .option('--weeks <number>', `weeks to look ahead (${USUAL_WEEKS})`)
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts('csv'))
    .action(later(async () => (await import('./commands/ahead.js')).ahead));

  futuresCommand(program.command('chores'))
    .description('the work list of the next visits: what to sow, move, pick and clean')
    .usage('<file> [log] [options]')
    .argument('[file]', 'scenario file (YAML or JSON), - for standard input')
    .argument('[log]', `season log (CSV), - for standard input; ${NAMED_LOG}, or the plan from an empty line`)
    .option('--days <number>', `days to list (${USUAL_DAYS})`)
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts(['csv', 'ics']))
    .addOption(
      new Option('--ics', 'print a calendar file (iCalendar) that calendar programs import').conflicts('csv'),
    )
    .action(later(async () => (await import('./commands/chores.js')).chores));

  program
    .command('replay')
    .description(
      'rebuild a season from its log: the picks, which holes stood empty and why, and another cadence with the same luck',
    )
    .usage('<log> [file] [options]')
    .argument('[log]', 'the season log (CSV), - for standard input; or a scenario that names it')
    .argument('[file]', 'scenario file of the line, - for standard input; inferred from the log if left out')
    .option('--every <days>', 'what it would have given, sown every so many days: 3')
    .option('--on <weekdays>', 'the same, sown on weekdays: mon,thu')
    .option('--seeds <number>', 'the same, with so many seeds per sowing')
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts('csv'))
    .addOption(new Option('--csv', 'print what stood on each day in each stage as CSV'))
    .action(later(async () => (await import('./commands/replay.js')).replay));

  program
    .command('fit')
    .description(
      'what the season log tells of growing times, losses, germination and the tank, with 95 % intervals; --write puts it into the scenario',
    )
    .usage('<log> [file] [options]')
    .argument('[log]', 'the season log (CSV), - for standard input; or a scenario that names it')
    .argument('[file]', 'the present scenario, - for standard input; without it only the estimates are shown')
    .option(
      '--write <file>',
      'write the scenario with the values of the log put in, whole or not at all',
      FITTED_FILE,
    )
    .option('--all', 'write also what the log gives no reason to change')
    .option('--over', 'the file may be there already')
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts('csv'))
    .addOption(new Option('--csv', 'print the figures as CSV'))
    .action(later(async () => (await import('./commands/fit.js')).fit));

  program
    .command('report')
    .description(
      'write a page about a plan, to look at and to print: the answer, cadences, weeks, holes, sizes and, with a log, the season so far and the work to come',
    )
    .usage('[file] [log] --out <page> [options]')
    .argument('[file]', FILE)
    .argument('[log]', `season log (CSV), - for standard input; ${NAMED_LOG}`)
    .option(
      '-o, --out <page>',
      'file for the page (HTML), written whole or not at all, also over one that is there (needed)',
      PAGE_FILE,
    )
    .option('-n, --seasons <number>', `how many seasons (${USUAL_SEASONS}, fewer for very large lines)`)
    .option('-s, --seed <number>', SEED)
    .option('--workers <number>', WORKERS)
    .option('--today <date>', 'with a log: today, YYYY-MM-DD or now (the date of the last row)')
    .action(later(async () => (await import('./commands/report.js')).report));

  program
    .command('schema')
    .description('print the JSON Schema of the scenario file, for editors that check while you type')
    .action(ends(schema));

  program
    .command('completion')
    .description('let the Tab key complete commands, options and files in your shell')
    .argument('[shell]', `which shell: ${SHELLS.join(', ')}`)
    .addHelpText('after', `\n${SWITCH_ON}`)
    .action(later(async () => (await import('./commands/completion.js')).completion));

  return program;
}

/** An option that may be given several times: its values as a list. */
function listed(value: string, before: readonly string[] = []): string[] {
  return [...before, value];
}

/** The options of a study of so many seasons. */
function studyCommand(command: Command): Command {
  return withExecutionOptions(
    command.option(
      '-n, --seasons <number>',
      `how many seasons (${USUAL_SEASONS}, fewer for very large lines)`,
    ),
  );
}

/** What goes on from a season log. */
function futuresCommand(command: Command): Command {
  return command
    .option('--today <date>', 'today, YYYY-MM-DD or now (the date of the last row)')
    .option('-n, --seasons <number>', `how many futures (${USUAL_SEASONS}, fewer for very large lines)`)
    .option('-s, --seed <number>', SEED)
    .option('--workers <number>', WORKERS)
    .option('--all', 'long lists in full')
    .addOption(new Option('--csv', 'print the figures as CSV'))
    .option('-o, --out <file>', OUT, RESULT_FILE);
}

/** The options that every study has. */
function withExecutionOptions(command: Command): Command {
  return command
    .option('-s, --seed <number>', SEED)
    .option('--workers <number>', WORKERS)
    .option('--shard <k/n>', 'carry out part k of n only and write it, to be joined with merge')
    .addOption(new Option('--json', 'print everything as one JSON document').conflicts(['csv', 'shard']))
    .addOption(new Option('--csv', 'print the figures as CSV').conflicts('shard'))
    .option('-o, --out <file>', OUT, RESULT_FILE);
}

/**
 * Turn what was thrown into words and an exit code.
 * @param text what commander would print
 * @param help what to type for help
 */
async function answer(error: unknown, text: readonly string[], help: string): Promise<number> {
  if (error instanceof OutputClosed) {
    tell('evensow: the output was closed before everything was written; the rest is dropped.');
    return EXIT_DONE;
  }
  if (error instanceof CommanderError) {
    if (error.exitCode !== 0) {
      const said = text.join('').trim();
      tell(`evensow: ${said.replace(/^error: /, '')}\n${help}`);
      return EXIT_WRONG_INPUT;
    }
    try {
      await print(text.join(''));
      return EXIT_DONE;
    } catch (closed) {
      return await answer(closed, [], help);
    }
  }
  if (error instanceof Problem) {
    tell(`evensow: ${error.message}`);
    return EXIT_WRONG_INPUT;
  }
  const details = error instanceof Error ? (error.stack ?? error.message) : String(error);
  tell(
    `evensow ${packageJson.version} failed; this is a fault of the program, not of your input. Please report it where you got evensow from (README, "Reporting a fault"), with your scenario and these lines:\n${details}`,
  );
  return EXIT_FAILED;
}
