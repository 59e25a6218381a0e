/** The commands and their options. Each command's own code is loaded when it runs. */

import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { version } from '../../package.json';
import { parseDate } from '../base/dates.ts';
import { MOST_PARTS } from '../show/part.ts';
import { visibleInLog } from '../show/visible.ts';
import type { Share } from './checking/part.ts';
import { BEGIN_HERE, examplesOf } from './help.ts';
import { EXIT_CLEAN, EXIT_FAILURE, faultText, type Io } from './io.ts';

/** Runs one command line (without node and script). Returns the exit code: 0, 1 or 2. */
export async function run(args: readonly string[], terminal: Io): Promise<number> {
  // Names of files and words of git stand in what is said there.
  const io: Io = { ...terminal, err: text => terminal.err(visibleInLog(text)) };
  let code = EXIT_CLEAN;
  const program = commands(io, result => {
    code = result;
  });
  try {
    await program.parseAsync([...args], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT_CLEAN : EXIT_FAILURE;
    io.err(`soundwood: ${faultText(error, io.debug)}\n`);
    return EXIT_FAILURE;
  }
}

function day(text: string): number {
  const read = parseDate(text);
  if (read === undefined) throw new InvalidArgumentError('Write a day of the calendar as in 2026-03-14.');
  return read;
}

function count(text: string): number {
  if (!/^[1-9]\d{0,3}$/.test(text)) throw new InvalidArgumentError('Write a whole number, 1 or more.');
  return Number(text);
}

function share(text: string): Share {
  const [, part, of] = /^([1-9]\d*)\/([1-9]\d*)$/.exec(text)?.map(Number) ?? [];
  if (part === undefined || of === undefined || part > of || of > MOST_PARTS)
    throw new InvalidArgumentError(
      `Write which part of how many, as in 3/8; there are ${MOST_PARTS} at most.`,
    );
  return { part, of };
}

const rejectOption = () =>
  new Option('--reject <level>', 'exit with 1 if there is a finding of this level or above')
    .choices(['error', 'warning', 'note', 'never'])
    .default('error');

const formOption = () =>
  new Option('--as <form>', 'form of the findings')
    .choices(['text', 'json', 'sarif', 'junit', 'markdown'])
    .default('text');

const onOption = () => new Option('--on <date>', 'the day to check for, instead of today').argParser(day);

function commands(io: Io, done: (code: number) => void): Command {
  const program = new Command('soundwood')
    .description('Checks inventories of trees: evidence and decision side by side.')
    .version(version, '-V, --version', 'show the version')
    .exitOverride()
    .configureOutput({ writeOut: io.out, writeErr: io.err })
    .showSuggestionAfterError()
    .showHelpAfterError('(soundwood --help lists the commands)')
    .configureHelp({ subcommandTerm: command => command.name() })
    .addHelpText('after', BEGIN_HERE);

  program.commandsGroup('An inventory:');

  program
    .command('begin')
    .description('begin a new inventory')
    .argument('[folder]', 'where (default: this folder)')
    .option('--name <name>', 'name of the site')
    .option('--region <code>', 'ISO 3166 code of the country, with state or province: US-OR, GB')
    .addOption(new Option('--units <units>', 'units of the example').choices(['imperial', 'metric']))
    .option('--person <name>', 'who inspects')
    .option('--from <table>', 'begin with the trees of this table (CSV)')
    .option(
      '--mapping <file>',
      'JSON file that says what the columns of the table mean (default: guessed and shown)',
    )
    .option('--tag <column>', 'column of the table that holds the tags of the trees')
    .option('--no-tag', 'no column holds them: the trees get new tags')
    .action(async (folder, options) => done(await (await import('./begin.ts')).begin(folder, options, io)));

  program
    .command('import')
    .description('turn a table of trees (CSV) into an inventory')
    .argument('<table>', 'the CSV file, or - for standard input')
    .option('--mapping <file>', 'JSON file that says what the columns mean')
    .option('--tag <column>', 'column that holds the tags of the trees')
    .option('--no-tag', 'no column holds them: the trees get new tags')
    .option('--to <file>', 'write the inventory to this file, which must not exist yet')
    .option('--show-mapping', 'show the mapping (the guessed one, unless one is given) and end')
    .action(async (table, options) =>
      done(await (await import('./import.ts')).importFile(table, options, io)),
    );

  program
    .command('check')
    .description('check inventories and show what is found')
    .argument(
      '[paths...]',
      'files that end in .wood, folders with them, - for standard input (default: this folder)',
    )
    .addOption(onOption())
    .addOption(rejectOption())
    .addOption(formOption())
    .option('--to <file>', 'write the findings to a file')
    .option(
      '--since <commit>',
      'only findings that this commit of git does not have, or has at a lower level or as accepted',
    )
    // It had an effect once; scripts may still have it.
    .addOption(new Option('--workers <number>').argParser(count).hideHelp())
    .addOption(
      new Option('--part <k/n>', 'check only part k of n and write its result, for soundwood gather')
        .argParser(share)
        .conflicts(['as', 'reject', 'since']),
    )
    .action(async (paths, options) => done(await (await import('./check.ts')).check(paths, options, io)));

  program
    .command('tidy')
    .description('set the white space of inventories canonically; words and comments stay')
    .argument(
      '[paths...]',
      'files that end in .wood, folders with them, - for standard input (default: this folder)',
    )
    .option('--check', 'only name the files that would change')
    .action(async (paths, options) => done(await (await import('./tidy.ts')).tidyFiles(paths, options, io)));

  program
    .command('explain')
    .summary('explain a rule, a limit or a word of the notation')
    .description('explain a rule, a limit or a word of the notation; without a name, list them')
    .argument('[name...]', 'a rule, a limit, a head, a field, or a mistake of the notation')
    .option('--here <path>', 'show what applies in this folder or file, and from where')
    .action(async (words, options) => done(await (await import('./explain.ts')).explain(words, options, io)));

  program.commandsGroup('To decide and to hand over:');

  program
    .command('weigh')
    .description('weigh what is open to trees, side by side, with figures')
    .argument(
      '[trees-or-paths...]',
      'tags of trees, and files and folders to find them in (default: all trees with figures in this folder)',
    )
    .addOption(onOption())
    .addOption(new Option('--as <form>', 'form of the figures').choices(['text', 'json']).default('text'))
    .action(async (words, options) => done(await (await import('./weigh.ts')).weigh(words, options, io)));

  program
    .command('compare')
    .summary('show what changed between two states, tree by tree')
    .description(
      'show what changed between two states, tree by tree: records, sizes, doses, figures, findings',
    )
    .argument('<before>', 'a commit of git, or a folder by itself (one that exists is taken for a folder)')
    .argument('[after]', 'likewise (default: the working tree)')
    .addOption(onOption())
    .addOption(
      new Option('--reject <level>', 'exit with 1 if a finding of this level or above came')
        .choices(['error', 'warning', 'note', 'never'])
        .default('error'),
    )
    .addOption(
      new Option('--as <form>', 'form of the changes').choices(['text', 'markdown', 'json']).default('text'),
    )
    .option('--to <file>', 'write the changes to a file')
    .action(async (before, after, options) =>
      done(await (await import('./compare.ts')).compare(before, after, options, io)),
    );

  program
    .command('report')
    .description('write one HTML page for the owner, the crew and the office')
    .argument(
      '[paths...]',
      'files that end in .wood, folders with them, - for standard input (default: this folder)',
    )
    .addOption(onOption())
    .addOption(
      new Option('--for <reader>', 'whom it is for')
        .choices(['client', 'crew', 'office', 'all'])
        .default('all'),
    )
    .option('--to <file>', 'write the page to a file')
    .action(async (paths, options) => done(await (await import('./report.ts')).report(paths, options, io)));

  program
    .command('export')
    .summary('write trees for maps, spreadsheets and queries')
    .description('write trees for maps, spreadsheets and queries, or all facts as JSON Lines')
    .argument(
      '[paths...]',
      'files that end in .wood, folders with them, - for standard input (default: this folder)',
    )
    .addOption(
      new Option('--as <form>', 'form of the table; it has to be said').choices([
        'geojson',
        'csv',
        'jsonl',
        'parquet',
      ]),
    )
    .option('--to <file>', 'write it to a file; Parquet always goes to one')
    .action(async (paths, options) =>
      done(await (await import('./export.ts')).exportFacts(paths, options, io)),
    );

  program
    .command('calendar')
    .summary('write the days to keep as a calendar (iCalendar)')
    .description('write the days to keep as a calendar (iCalendar): windows, checks, follow-ups, last days')
    .argument(
      '[paths...]',
      'files that end in .wood, folders with them, - for standard input (default: this folder)',
    )
    .addOption(onOption())
    .option('--to <file>', 'write it to a file')
    .action(async (paths, options) =>
      done(await (await import('./calendar.ts')).calendar(paths, options, io)),
    );

  program.commandsGroup('For editors, git and build servers:');

  program
    .command('serve')
    .description('serve editors: a language server on standard input and output')
    .option('--stdio', 'as editors ask for it; there is no other way')
    .allowUnknownOption()
    .allowExcessArguments()
    .action(async () => void (await import('../lsp/node.ts')));

  program
    .command('gather')
    .description('put the results of check --part together, as if one run had checked all')
    .argument('<parts...>', 'the files of all parts of one inventory')
    .addOption(rejectOption())
    .addOption(formOption())
    .option('--to <file>', 'write the findings to a file')
    .action(async (paths, options) => done(await (await import('./gather.ts')).gather(paths, options, io)));

  program
    .command('git-setup')
    .summary('let git name trees in diffs, and merge fact by fact')
    .description(
      'let git name trees in diffs, compare the canonical print, and merge fact by fact: shows what it would write, and asks',
    )
    .option('--yes', 'write it without asking')
    .option('--undo', 'take all of it back')
    .option('--program <command>', 'how git is to start soundwood (default: this very program)')
    .action(async options => done(await (await import('./git-setup.ts')).gitSetup(options, io)));

  program
    .command('print')
    .description('show the canonical print of an inventory')
    .argument('<file>', 'the inventory, or - for standard input')
    .action(async (file, _options) => done(await (await import('./print.ts')).print(file, io)));

  program
    .command('merge')
    .description('merge two versions of an inventory fact by fact, as git asks for it')
    .argument('<base>', 'the version that both grew from')
    .argument('<ours>', 'one version; the result replaces it')
    .argument('<theirs>', 'the other version')
    .addOption(
      new Option('--marker-size <length>', 'length of the conflict markers').argParser(count).default(7),
    )
    .action(async (base, ours, theirs, options) =>
      done(await (await import('./merge.ts')).merge(base, ours, theirs, options, io)),
    );

  for (const command of program.commands) {
    const name = command.name();
    command.showHelpAfterError(`(soundwood ${name} --help shows its arguments and options)`);
    const examples = examplesOf(name);
    if (examples !== undefined) command.addHelpText('after', examples);
  }
  return program;
}
