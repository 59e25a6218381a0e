/** The commands: what each takes. Its own code is loaded when it runs. */

import { type Command, Option } from 'commander';
import type { Io } from './io.ts';
import { addOptions, count, date, failOn, findingsFormat, format, output, shard } from './options.ts';

/** Where a command runs. */
export interface Running {
  readonly io: Io;
  /** Takes the exit code. */
  readonly done: (code: number) => void;
}

export interface CommandSpec {
  readonly name: string;
  /** Its name in 0.9.0, which is still accepted. */
  readonly earlierName?: string;
  /** Heading of the help that it is listed under. */
  readonly group: string;
  /** Adds arguments, options and what it does to the empty command. */
  readonly define: (command: Command, running: Running) => void;
}

const INVENTORY = 'An inventory:';
const DECIDE = 'To decide and to hand over:';
const PROGRAMS = 'For editors, git and build servers:';

const PATHS = [
  '[paths...]',
  'files that end in .wood, folders with them, - for standard input (default: this folder)',
] as const;

const init: CommandSpec = {
  name: 'init',
  earlierName: 'begin',
  group: INVENTORY,
  define: (command, { io, done }) =>
    command
      .description('start a new inventory')
      .argument('[folder]', 'where (default: this folder)')
      .option('--name <name>', 'name of the site')
      .option('--region <code>', 'ISO 3166 code of the country, with state or province: US-OR, GB')
      .addOption(new Option('--units <units>', 'units of the example').choices(['imperial', 'metric']))
      .option('--person <name>', 'who inspects')
      .option('--from <table>', 'start with the trees of this table (CSV)')
      .option(
        '--mapping <file>',
        'JSON file that says what the columns of the table mean (default: guessed and shown)',
      )
      .option('--tag <column>', 'column of the table that holds the tags of the trees')
      .option('--no-tag', 'no column holds them: the trees get new tags')
      .action(async (folder, options) => done(await (await import('./begin.ts')).begin(folder, options, io))),
};

const importTable: CommandSpec = {
  name: 'import',
  group: INVENTORY,
  define: (command, { io, done }) => {
    command
      .description('turn a table of trees (CSV) into an inventory')
      .argument('<table>', 'the CSV file, or - for standard input')
      .option('--mapping <file>', 'JSON file that says what the columns mean')
      .option('--tag <column>', 'column that holds the tags of the trees')
      .option('--no-tag', 'no column holds them: the trees get new tags')
      .option('--show-mapping', 'show the mapping (the guessed one, unless one is given) and end')
      .action(async (table, options) =>
        done(await (await import('./import.ts')).importFile(table, options, io)),
      );
    addOptions(command, output('write the inventory to this file, which must not exist yet'));
  },
};

const check: CommandSpec = {
  name: 'check',
  group: INVENTORY,
  define: (command, { io, done }) => {
    command
      .description('check inventories and show what is found')
      .argument(...PATHS)
      .action(async (paths, options) => done(await (await import('./check.ts')).check(paths, options, io)));
    addOptions(
      command,
      date(),
      failOn(),
      findingsFormat(),
      output('write the findings to a file'),
      new Option(
        '--since <commit>',
        'only findings that this commit of git does not have, or has at a lower level or as accepted',
      ),
      new Option(
        '--workers <number>',
        'threads to check with (default: by the cores of the machine and the size of the inventory)',
      ).argParser(count),
      shard(),
    );
  },
};

const fmt: CommandSpec = {
  name: 'fmt',
  earlierName: 'tidy',
  group: INVENTORY,
  define: (command, { io, done }) =>
    command
      .description('set the white space of inventories canonically; words and comments stay')
      .argument(...PATHS)
      .option('--check', 'only name the files that would change')
      .action(async (paths, options) =>
        done(await (await import('./tidy.ts')).tidyFiles(paths, options, io)),
      ),
};

const explain: CommandSpec = {
  name: 'explain',
  group: INVENTORY,
  define: (command, { io, done }) =>
    command
      .summary('explain a rule, a limit or a word of the notation')
      .description('explain a rule, a limit or a word of the notation; without a name, list them')
      .argument('[name...]', 'a rule, a limit, a head, a field, or a mistake of the notation')
      .option('--here <path>', 'show what applies in this folder or file, and from where')
      .action(async (words, options) =>
        done(await (await import('./explain.ts')).explain(words, options, io)),
      ),
};

const weigh: CommandSpec = {
  name: 'weigh',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .description('weigh what is open to trees, side by side, with figures')
      .argument(
        '[trees-or-paths...]',
        'tags of trees, and files and folders to find them in (default: all trees with figures in this folder)',
      )
      .action(async (words, options) => done(await (await import('./weigh.ts')).weigh(words, options, io)));
    addOptions(command, date(), format('format of the figures', ['text', 'json']).default('text'));
  },
};

const compare: CommandSpec = {
  name: 'compare',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .summary('show what changed between two states, tree by tree')
      .description(
        'show what changed between two states, tree by tree: records, sizes, doses, figures, findings',
      )
      .argument('<before>', 'a commit of git, or a folder by itself (one that exists is taken for a folder)')
      .argument('[after]', 'likewise (default: the working tree)')
      .action(async (before, after, options) =>
        done(await (await import('./compare.ts')).compare(before, after, options, io)),
      );
    addOptions(
      command,
      date(),
      failOn('exit with 1 if a finding of this level or above came'),
      format('format of the changes', ['text', 'markdown', 'json']).default('text'),
      output('write the changes to a file'),
    );
  },
};

const report: CommandSpec = {
  name: 'report',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .description('write one HTML page for the owner, the crew and the office')
      .argument(...PATHS)
      .action(async (paths, options) => done(await (await import('./report.ts')).report(paths, options, io)));
    addOptions(
      command,
      date(),
      new Option('--for <reader>', 'whom it is for')
        .choices(['client', 'crew', 'office', 'all'])
        .default('all'),
      output('write the page to a file'),
    );
  },
};

const exportTrees: CommandSpec = {
  name: 'export',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .summary('write trees for maps, spreadsheets and queries')
      .description('write trees for maps, spreadsheets and queries, or all facts as JSON Lines')
      .argument(...PATHS)
      .action(async (paths, options) =>
        done(await (await import('./export.ts')).exportFacts(paths, options, io)),
      );
    addOptions(
      command,
      format('format of the table (required)', ['geojson', 'csv', 'jsonl', 'parquet']),
      output('write it to a file; Parquet always goes to one'),
    );
  },
};

const calendar: CommandSpec = {
  name: 'calendar',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .summary('write the days to keep as a calendar (iCalendar)')
      .description('write the days to keep as a calendar (iCalendar): windows, checks, follow-ups, last days')
      .argument(...PATHS)
      .action(async (paths, options) =>
        done(await (await import('./calendar.ts')).calendar(paths, options, io)),
      );
    addOptions(command, date(), output('write it to a file'));
  },
};

const serve: CommandSpec = {
  name: 'serve',
  group: PROGRAMS,
  define: command =>
    command
      .description('serve editors: a language server on standard input and output')
      .option('--stdio', 'as editors ask for it; there is no other way')
      .allowUnknownOption()
      .allowExcessArguments()
      .action(async () => void (await import('../lsp/node.ts'))),
};

const gather: CommandSpec = {
  name: 'gather',
  group: PROGRAMS,
  define: (command, { io, done }) => {
    command
      .description('put the results of check --shard together, as if one run had checked all')
      .argument('<parts...>', 'the files of all parts of one inventory')
      .action(async (paths, options) => done(await (await import('./gather.ts')).gather(paths, options, io)));
    addOptions(command, failOn(), findingsFormat(), output('write the findings to a file'));
  },
};

const gitSetup: CommandSpec = {
  name: 'git-setup',
  group: PROGRAMS,
  define: (command, { io, done }) =>
    command
      .summary('let git name trees in diffs, and merge fact by fact')
      .description(
        'let git name trees in diffs, compare the canonical print, and merge fact by fact: shows what it would write, and asks',
      )
      .option('--yes', 'write it without asking')
      .option('--undo', 'take all of it back')
      .option('--program <command>', 'how git is to start soundwood (default: this very program)')
      .action(async options => done(await (await import('./git-setup.ts')).gitSetup(options, io))),
};

const print: CommandSpec = {
  name: 'print',
  group: PROGRAMS,
  define: (command, { io, done }) =>
    command
      .description('show the canonical print of an inventory')
      .argument('<file>', 'the inventory, or - for standard input')
      .action(async (file, _options) => done(await (await import('./print.ts')).print(file, io))),
};

const merge: CommandSpec = {
  name: 'merge',
  group: PROGRAMS,
  define: (command, { io, done }) =>
    command
      .description('merge two versions of an inventory fact by fact, as git asks for it')
      .argument('<base>', 'the version that both grew from')
      .argument('<ours>', 'one version; the result replaces it')
      .argument('<theirs>', 'the other version')
      .addOption(
        new Option('--marker-size <length>', 'length of the conflict markers').argParser(count).default(7),
      )
      .action(async (base, ours, theirs, options) =>
        done(await (await import('./merge.ts')).merge(base, ours, theirs, options, io)),
      ),
};

/** In the order of the help. */
export const COMMANDS: readonly CommandSpec[] = [
  init,
  importTable,
  check,
  fmt,
  explain,
  weigh,
  compare,
  report,
  exportTrees,
  calendar,
  serve,
  gather,
  gitSetup,
  print,
  merge,
];
