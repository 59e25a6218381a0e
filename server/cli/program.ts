/** The commands and their options. Each command's own code is loaded when it runs. */

import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { version } from '../../package.json';
import { parseDate } from '../base/dates.ts';
import { MOST_PARTS } from '../show/part.ts';
import { sanitizeForLog } from '../show/sanitize.ts';
import type { Share } from './checking/part.ts';
import { BEGIN_HERE, examplesOf } from './help.ts';
import { EXIT_CLEAN, EXIT_FAILURE, faultText, type Io } from './io.ts';

/** Runs one command line (without node and script). Returns the exit code: 0, 1 or 2. */
export async function run(args: readonly string[], terminal: Io): Promise<number> {
  // Messages may contain file names and git output.
  const io: Io = { ...terminal, err: text => terminal.err(sanitizeForLog(text)) };
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
  if (read === undefined) throw new InvalidArgumentError('Expected a date, e.g. 2026-03-14.');
  return read;
}

function count(text: string): number {
  if (!/^[1-9]\d{0,3}$/.test(text)) throw new InvalidArgumentError('Expected a whole number from 1 to 9999.');
  return Number(text);
}

function share(text: string): Share {
  const [, part, of] = /^([1-9]\d*)\/([1-9]\d*)$/.exec(text)?.map(Number) ?? [];
  if (part === undefined || of === undefined || part > of || of > MOST_PARTS)
    throw new InvalidArgumentError(`Expected k/n, e.g. 3/8 (n at most ${MOST_PARTS}).`);
  return { part, of };
}

const rejectOption = () =>
  new Option('--reject <level>', 'exit with 1 if there is a finding of this severity or above')
    .choices(['error', 'warning', 'note', 'never'])
    .default('error');

const formOption = () =>
  new Option('--as <form>', 'output format')
    .choices(['text', 'json', 'sarif', 'junit', 'markdown'])
    .default('text');

const onOption = () => new Option('--on <date>', 'check as of this date instead of today').argParser(day);

function commands(io: Io, done: (code: number) => void): Command {
  const program = new Command('soundwood')
    .description('Checks tree inventories: tests each prescription against the evidence.')
    .version(version, '-V, --version', 'print the version')
    .exitOverride()
    .configureOutput({ writeOut: io.out, writeErr: io.err })
    .showSuggestionAfterError()
    .showHelpAfterError('(soundwood --help lists the commands)')
    .configureHelp({ subcommandTerm: command => command.name() })
    .addHelpText('after', BEGIN_HERE);

  program.commandsGroup('Inventories:');

  program
    .command('begin')
    .description('start a new inventory')
    .argument('[folder]', 'target folder (default: the current folder)')
    .option('--name <name>', 'name of the site')
    .option('--region <code>', 'ISO 3166 code of the country, with state or province: US-OR, GB')
    .addOption(new Option('--units <units>', 'units of the example').choices(['imperial', 'metric']))
    .option('--person <name>', 'name of the inspector')
    .option('--from <table>', 'start with the trees of a table (CSV)')
    .option('--mapping <file>', 'JSON file with the column mapping (default: inferred and printed)')
    .option('--tag <column>', 'column with the tags of the trees')
    .option('--no-tag', 'the table has no tags: assign new ones')
    .action(async (folder, options) => done(await (await import('./begin.ts')).begin(folder, options, io)));

  program
    .command('import')
    .description('convert a table of trees (CSV) to an inventory')
    .argument('<table>', 'the CSV file, or - for standard input')
    .option('--mapping <file>', 'JSON file with the column mapping')
    .option('--tag <column>', 'column with the tags of the trees')
    .option('--no-tag', 'the table has no tags: assign new ones')
    .option('--to <file>', 'write the inventory to this file, which must not exist')
    .option('--show-mapping', 'print the column mapping (inferred, or the one given) and exit')
    .action(async (table, options) =>
      done(await (await import('./import.ts')).importFile(table, options, io)),
    );

  program
    .command('check')
    .description('check inventories and report findings')
    .argument('[paths...]', '.wood files, folders, or - for standard input (default: the current folder)')
    .addOption(onOption())
    .addOption(rejectOption())
    .addOption(formOption())
    .option('--to <file>', 'write the findings to a file')
    .option(
      '--since <commit>',
      'report only findings that this git commit does not have, or has at a lower severity or as accepted',
    )
    .addOption(
      new Option(
        '--workers <number>',
        'number of threads (default: from the number of cores and the size of the inventory)',
      ).argParser(count),
    )
    .addOption(
      new Option('--part <k/n>', 'check only part k of n and write a part result for soundwood gather')
        .argParser(share)
        .conflicts(['as', 'reject', 'since']),
    )
    .action(async (paths, options) => done(await (await import('./check.ts')).check(paths, options, io)));

  program
    .command('tidy')
    .description('format inventories: changes white space only')
    .argument('[paths...]', '.wood files, folders, or - for standard input (default: the current folder)')
    .option('--check', 'only list the files that would change')
    .action(async (paths, options) => done(await (await import('./tidy.ts')).tidyFiles(paths, options, io)));

  program
    .command('explain')
    .summary('explain a rule, a limit or a word of the notation')
    .description('explain a rule, a limit or a word of the notation; without a name, list them all')
    .argument('[name...]', 'name of a rule, a limit, a head, a field or a mistake of the notation')
    .option('--here <path>', 'show what applies to this folder or file, and where it comes from')
    .action(async (words, options) => done(await (await import('./explain.ts')).explain(words, options, io)));

  program.commandsGroup('Decisions and reports:');

  program
    .command('weigh')
    .description('compare the management options for trees, with figures')
    .argument(
      '[trees-or-paths...]',
      'tags of trees, and files or folders to find them in (default: all trees with figures in the current folder)',
    )
    .addOption(onOption())
    .addOption(new Option('--as <form>', 'output format').choices(['text', 'json']).default('text'))
    .action(async (words, options) => done(await (await import('./weigh.ts')).weigh(words, options, io)));

  program
    .command('compare')
    .summary('show what changed between two states, tree by tree')
    .description(
      'show what changed between two states, tree by tree: records, sizes, doses, figures, findings',
    )
    .argument('<before>', 'a git commit or a folder (an existing folder takes precedence)')
    .argument('[after]', 'likewise (default: the working tree)')
    .addOption(onOption())
    .addOption(
      new Option('--reject <level>', 'exit with 1 if there is a new finding of this severity or above')
        .choices(['error', 'warning', 'note', 'never'])
        .default('error'),
    )
    .addOption(
      new Option('--as <form>', 'output format').choices(['text', 'markdown', 'json']).default('text'),
    )
    .option('--to <file>', 'write the changes to a file')
    .action(async (before, after, options) =>
      done(await (await import('./compare.ts')).compare(before, after, options, io)),
    );

  program
    .command('report')
    .description('write one HTML report for the client, the crew and the office')
    .argument('[paths...]', '.wood files, folders, or - for standard input (default: the current folder)')
    .addOption(onOption())
    .addOption(
      new Option('--for <reader>', 'audience').choices(['client', 'crew', 'office', 'all']).default('all'),
    )
    .option('--to <file>', 'write the report to a file')
    .action(async (paths, options) => done(await (await import('./report.ts')).report(paths, options, io)));

  program
    .command('export')
    .summary('export trees for maps, spreadsheets and queries')
    .description('export trees for maps, spreadsheets and queries, or all facts as JSON Lines')
    .argument('[paths...]', '.wood files, folders, or - for standard input (default: the current folder)')
    .addOption(
      new Option('--as <form>', 'output format (required)').choices(['geojson', 'csv', 'jsonl', 'parquet']),
    )
    .option('--to <file>', 'write the export to a file (required for Parquet)')
    .action(async (paths, options) =>
      done(await (await import('./export.ts')).exportFacts(paths, options, io)),
    );

  program
    .command('calendar')
    .summary('export due dates as a calendar (iCalendar)')
    .description('export due dates as a calendar (iCalendar): work windows, checks, follow-ups, deadlines')
    .argument('[paths...]', '.wood files, folders, or - for standard input (default: the current folder)')
    .addOption(onOption())
    .option('--to <file>', 'write the calendar to a file')
    .action(async (paths, options) =>
      done(await (await import('./calendar.ts')).calendar(paths, options, io)),
    );

  program.commandsGroup('Editors, git and CI:');

  program
    .command('serve')
    .description('run the language server on standard input and output')
    .option('--stdio', 'accepted because editors pass it; there is no other transport')
    .allowUnknownOption()
    .allowExcessArguments()
    .action(async () => void (await import('../lsp/node.ts')));

  program
    .command('gather')
    .description('combine the results of check --part into those of a single run')
    .argument('<parts...>', 'all part results of one inventory')
    .addOption(rejectOption())
    .addOption(formOption())
    .option('--to <file>', 'write the findings to a file')
    .action(async (paths, options) => done(await (await import('./gather.ts')).gather(paths, options, io)));

  program
    .command('git-setup')
    .summary('make git diffs name trees, and git merges work fact by fact')
    .description(
      'make git diffs name trees and ignore white space, and git merges work fact by fact; shows the changes and asks first',
    )
    .option('--yes', 'write without asking')
    .option('--undo', 'undo the setup')
    .option('--program <command>', 'command with which git starts soundwood (default: the running program)')
    .action(async options => done(await (await import('./git-setup.ts')).gitSetup(options, io)));

  program
    .command('print')
    .description('print an inventory in canonical form')
    .argument('<file>', 'the inventory, or - for standard input')
    .action(async (file, _options) => done(await (await import('./print.ts')).print(file, io)));

  program
    .command('merge')
    .description('merge two versions of an inventory fact by fact (called by git)')
    .argument('<base>', 'the common ancestor')
    .argument('<ours>', 'one version; replaced by the result')
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
