/** The commands: what each takes. Its own code is loaded when it runs. Long because it is one table, read as one. */

import { type Command, Option } from 'commander';
import type { LanguageCode } from '../report/languages/translation.ts';
import type { Io } from './io.ts';
import {
  addOptions,
  count,
  date,
  failOn,
  findingsFormat,
  format,
  output,
  portNumber,
  shard,
  sinceDay,
} from './options.ts';

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

const INVENTORY = 'Inventories:';
const DECIDE = 'Decisions and reports:';
const PROGRAMS = 'Editors, git and CI:';

const PATHS = [
  '[paths...]',
  '.wood files, folders, or - for standard input (default: the current folder)',
] as const;

const init: CommandSpec = {
  name: 'init',
  earlierName: 'begin',
  group: INVENTORY,
  define: (command, { io, done }) =>
    command
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
      .option('--encoding <label>', 'encoding of the table, such as windows-1252 (default: UTF-8)')
      .option('--crs <code>', 'EPSG code of the grid of the coordinates, such as EPSG:25833')
      .option('--layer <name>', 'layer of a GeoPackage that has several')
      .action(async (folder, options) => done(await (await import('./begin.ts')).begin(folder, options, io))),
};

const importTable: CommandSpec = {
  name: 'import',
  group: INVENTORY,
  define: (command, { io, done }) => {
    command
      .summary('convert a table of trees, or add a folder of photographs to the records')
      .description(
        'convert a table of trees (CSV, GeoJSON or GeoPackage) to an inventory; or match the photographs in a folder to the trees that they show, by position, direction of view and time, and record them after you confirm',
      )
      .argument(
        '<table-or-folder>',
        'the file (.csv, .geojson, .json, .gpkg), - for CSV on standard input, or a folder of pictures',
      )
      .option('--mapping <file>', 'JSON file with the column mapping')
      .option('--tag <column>', 'column with the tags of the trees')
      .option('--no-tag', 'the table has no tags: assign new ones')
      .option('--encoding <label>', 'encoding of the table, such as windows-1252 (default: UTF-8)')
      .option('--crs <code>', 'EPSG code of the grid of the coordinates, such as EPSG:25833')
      .option('--layer <name>', 'layer of a GeoPackage that has several')
      .option(
        '--region <code>',
        'ISO 3166 code of the place (default: that of the site of the new inventory)',
      )
      .option('--show-mapping', 'print the column mapping (inferred, or the one given) and exit')
      .option('--into <paths...>', 'pictures: the inventory of the trees (default: the current folder)')
      .addOption(
        new Option('--from <vantage>', 'pictures: where they were taken from')
          .choices(['ground', 'drone', 'rope', 'lift', 'platform', 'window'])
          .default('ground'),
      )
      .option('--by <name>', 'pictures: short name of the person who took them')
      .option('--as-text', 'pictures: print the records and the open questions; ask and write nothing')
      .option('--answers <file>', 'pictures: file of answers, one per line, such as: IMG_0012.jpg 14')
      .option('--yes', 'pictures: write without asking')
      .action(async (source, options) =>
        done(await (await import('./import.ts')).importSource(source, options, io)),
      );
    addOptions(command, output('write the inventory to this file, which must not exist'));
  },
};

const measure: CommandSpec = {
  name: 'measure',
  group: INVENTORY,
  define: (command, { io, done }) => {
    command
      .summary('measure the size of an object in a photograph')
      .description(
        'measure the size of an object in a photograph, as a range, from two points and either the distance or a known length beside it',
      )
      .argument('<photo>', 'the photograph')
      .argument(...PATHS)
      .requiredOption('--points <x,y...>', 'two points, in pixels from the left and the top')
      .option('--from <distance>', 'distance from the camera to the object: 20ft, 19..21ft')
      .option('--known <length>', 'a known length in the picture, at the same distance as the object')
      .option('--known-points <x,y...>', 'its two points')
      .option('--lens <length>', '35 mm-equivalent focal length, instead of the one in the file')
      .option('--oblique <angle>', 'largest angle by which the object is turned from square: 10deg')
      .option('--tree <tag>', 'the tree to write it into')
      .option('--defect <name>', 'the defect to write it into')
      .addOption(
        new Option('--field <field>', 'the field to write').choices([
          'length',
          'width',
          'opening-width',
          'opening-height',
        ]),
      )
      .option('--write', 'record it, with the photograph as its source')
      .action(async (photo, paths, options) =>
        done(await (await import('./measure.ts')).measure(photo, paths, options, io)),
      );
    addOptions(command, format('text', 'json').default('text'));
  },
};

const check: CommandSpec = {
  name: 'check',
  group: INVENTORY,
  define: (command, { io, done }) => {
    command
      .description('check inventories and report findings')
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
        'report only findings that are new since this git commit, or that were less severe or accepted there',
      ),
      // Accepted without effect: scripts may still pass it.
      new Option('--workers <number>').argParser(count).hideHelp(),
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
      .description('format inventories (white space only)')
      .argument(...PATHS)
      .option('--check', 'only list the files that would change')
      .action(async (paths, options) =>
        done(await (await import('./tidy.ts')).tidyFiles(paths, options, io)),
      ),
};

const fix: CommandSpec = {
  name: 'fix',
  group: INVENTORY,
  define: (command, { io, done }) =>
    command
      .summary('rewrite common habits of writing into the notation')
      .description(
        'rewrite common habits of writing into the notation: shows the changes, and asks about anything ambiguous',
      )
      .argument(...PATHS)
      .option('--write', 'write the changes; at a terminal, ask about anything ambiguous')
      .option('--from <notes>', 'turn field notes, dictated or typed on a phone, into an inventory')
      .option('-o, --output <file>', 'write the inventory from the notes to this file, which must not exist')
      .option('--show-questions', 'print the open questions as JSON, for you to fill in')
      .option('--answers <file>', 'JSON file with the answers')
      .action(async (paths, options) => done(await (await import('./fix.ts')).fix(paths, options, io))),
};

const explain: CommandSpec = {
  name: 'explain',
  group: INVENTORY,
  define: (command, { io, done }) =>
    command
      .summary('explain a rule, a limit or a word of the notation')
      .description('explain a rule, a limit or a word of the notation; without a name, list them all')
      .argument('[name...]', 'name of a rule, a limit, a head, a field or a notation error')
      .option('--here <path>', 'show what applies to this folder or file, and where it comes from')
      .option('--regions', 'list the regions for which law, guidance and custom are on record, by subject')
      .action(async (words, options) =>
        done(await (await import('./explain.ts')).explain(words, options, io)),
      ),
};

const weigh: CommandSpec = {
  name: 'weigh',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .description('compare the management options for trees, with figures')
      .argument(
        '[trees-or-paths...]',
        'tags of trees, and files or folders to find them in (default: all trees with figures in the current folder)',
      )
      .action(async (words, options) => done(await (await import('./weigh.ts')).weigh(words, options, io)));
    addOptions(command, date(), format('text', 'json').default('text'));
  },
};

const history: CommandSpec = {
  name: 'history',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .summary('show the history of trees: events, growth, decay, outstanding work')
      .description(
        'show the history of trees by date: inspections, readings, work, nests, permits, ratings and photographs; rates of growth and decay; what is outstanding',
      )
      .argument(
        '[trees-or-paths...]',
        'tags of trees, and files or folders to find them in (default: all trees in the current folder)',
      )
      .option('--git', 'also show who changed what in the record and when, from the git commits')
      .action(async (words, options) =>
        done(await (await import('./history.ts')).history(words, options, io)),
      );
    addOptions(
      command,
      date('show the history up to this date instead of today'),
      format('text', 'json', 'svg').default('text'),
      output('write the history to a file'),
    );
  },
};

const compare: CommandSpec = {
  name: 'compare',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .summary('show what changed between two states, tree by tree')
      .description(
        'show what changed between two states, tree by tree: records, sizes, doses, figures, findings; or, with --since, the work done in a period, what changed and what is due',
      )
      .argument('[before]', 'a git commit, a folder (an existing one takes precedence), or commits as A..B')
      .argument('[after]', 'the same (default: the working tree); after A..B, paths to compare')
      .argument('[paths...]', 'after A..B: more paths')
      .action(async (before, after, paths, options) =>
        done(await (await import('./compare.ts')).compare(before, after, paths, options, io)),
      );
    addOptions(
      command,
      sinceDay(),
      date(),
      failOn('exit with 1 if there is a new finding of this severity or above'),
      format('text', 'markdown', 'json').default('text'),
      output('write the changes to a file'),
    );
  },
};

const report: CommandSpec = {
  name: 'report',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .description('write one HTML report for the client, the crew and the office')
      .argument(...PATHS)
      .action(async (paths, options) => done(await (await import('./report.ts')).report(paths, options, io)));
    addOptions(
      command,
      date(),
      sinceDay(),
      new Option('--for <reader>', 'audience').choices(['client', 'crew', 'office', 'all']).default('all'),
      new Option(
        '--crew-language <code>',
        'language of all work orders (default: the one stated for their crew, or English)',
      ).choices(['en', 'es'] satisfies LanguageCode[]),
      output(
        'write the report to a file (report.html; report.pdf by an installed browser), or into a folder (report/): an index and a page for each area',
      ),
    );
  },
};

const exportTrees: CommandSpec = {
  name: 'export',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .summary('export trees for maps, spreadsheets and queries')
      .description('export trees for maps, spreadsheets and queries, or all facts as JSON Lines')
      .argument(...PATHS)
      .action(async (paths, options) =>
        done(await (await import('./export.ts')).exportFacts(paths, options, io)),
      );
    addOptions(
      command,
      format('geojson', 'geopackage', 'csv', 'jsonl', 'parquet', 'kml', 'gpx'),
      new Option('--table <table>', 'what each row describes: a tree, work to do, or an inspection')
        .choices(['trees', 'work', 'inspections'])
        .default('trees'),
      date('report what is found and due as of this date instead of today'),
      output('write the export to a file (required for GeoPackage and Parquet)'),
    );
  },
};

const calendar: CommandSpec = {
  name: 'calendar',
  group: DECIDE,
  define: (command, { io, done }) => {
    command
      .summary('export due dates as a calendar (iCalendar)')
      .description('export due dates as a calendar (iCalendar): work windows, checks, follow-ups, deadlines')
      .argument(...PATHS)
      .action(async (paths, options) =>
        done(await (await import('./calendar.ts')).calendar(paths, options, io)),
      );
    addOptions(
      command,
      date(),
      new Option(
        '--for <names...>',
        'only dates of these persons and crews, by short name, and unassigned dates',
      ),
      output('write the calendar to a file'),
    );
  },
};

const serve: CommandSpec = {
  name: 'serve',
  group: PROGRAMS,
  define: (command, { io, done }) =>
    command
      .description('run the language server on standard input and output, or serve the page for browsers')
      .option('--stdio', 'accepted because editors pass it; the only transport')
      .option('--page', 'serve the page to this machine only, and print its address')
      .addOption(
        new Option('--port <port>', 'port of the page (default: any free port)').argParser(portNumber),
      )
      .allowUnknownOption()
      .allowExcessArguments()
      .action(async ({ page, port }) => {
        if (page) done(await (await import('./serve-page.ts')).servePage(port ?? 0, io));
        else await import('../lsp/node.ts');
      }),
};

const gather: CommandSpec = {
  name: 'gather',
  group: PROGRAMS,
  define: (command, { io, done }) => {
    command
      .description('combine the results of check --shard into those of a single run')
      .argument('<parts...>', 'all part results of the inventory')
      .action(async (paths, options) => done(await (await import('./gather.ts')).gather(paths, options, io)));
    addOptions(command, failOn(), findingsFormat(), output('write the findings to a file'));
  },
};

const gitSetup: CommandSpec = {
  name: 'git-setup',
  group: PROGRAMS,
  define: (command, { io, done }) =>
    command
      .summary('make git diffs name trees, and git merges work fact by fact')
      .description(
        'make git diffs name trees and ignore white space, and git merges work fact by fact; shows the changes and asks first',
      )
      .option('--yes', 'write without asking')
      .option('--undo', 'undo the setup')
      .option('--program <command>', 'command with which git starts soundwood (default: the running program)')
      .action(async options => done(await (await import('./git-setup.ts')).gitSetup(options, io))),
};

const print: CommandSpec = {
  name: 'print',
  group: PROGRAMS,
  define: (command, { io, done }) =>
    command
      .description('print an inventory in canonical form')
      .argument('<file>', 'the inventory, or - for standard input')
      .action(async (file, _options) => done(await (await import('./print.ts')).print(file, io))),
};

const merge: CommandSpec = {
  name: 'merge',
  group: PROGRAMS,
  define: (command, { io, done }) =>
    command
      .description('merge two versions of an inventory fact by fact (called by git)')
      .argument('<base>', 'the common ancestor')
      .argument('<ours>', 'one version; replaced by the result')
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
  measure,
  check,
  fix,
  fmt,
  explain,
  weigh,
  history,
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
