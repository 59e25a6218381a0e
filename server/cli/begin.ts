/** `soundwood init`: a new inventory with its site, its people, and the trees of a table or an example tree. */

import { mkdir, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { parseBlock } from '../../grammar/blocks.ts';
import { NO_TEXT } from '../../grammar/text.ts';
import { tidy } from '../../grammar/tidy.ts';
import { formatDate } from '../base/dates.ts';
import { UserError } from '../base/user-error.ts';
import { shown } from '../host/paths.ts';
import { writeNewText } from '../host/write-text.ts';
import { mappingWords, showMapping } from '../import/index.ts';
import { sanitizeForLog } from '../show/sanitize.ts';
import { withTable, writeInventory } from './import.ts';
import { EXIT_CLEAN, type Io } from './io.ts';
import { type MappingOptions, mappingOf, requireSettled, showMappingRemarks } from './table-mapping.ts';

export interface BeginOptions extends MappingOptions {
  readonly name?: string;
  readonly region?: string;
  readonly units?: 'imperial' | 'metric';
  readonly person?: string;
  /** The table of its trees. */
  readonly from?: string;
}

interface Answers {
  readonly name: string;
  readonly region: string;
  readonly units: 'imperial' | 'metric';
  readonly person: string;
}

/** Countries that measure trees in inches and feet. */
const IMPERIAL = /^(US|LR|MM)\b/;

export async function begin(
  folder: string | undefined,
  options: BeginOptions,
  terminal: Io,
): Promise<number> {
  // Output contains file names and table cells.
  const io: Io = { ...terminal, out: text => terminal.out(sanitizeForLog(text)) };
  const { from, mapping } = options;
  if (from === undefined && mapping !== undefined)
    throw new UserError('--mapping needs a table: name it with --from.');
  const target = targetIn(resolve(io.cwd, folder ?? '.'), io);
  await target.requireNew([
    'site.wood',
    'people.wood',
    'trees.wood',
    ...(from && !mapping ? ['mapping.json'] : []),
  ]);
  const again = folder === undefined ? '' : ` ${folder}`;
  if (from !== undefined) return beginWithTable(from, target, again, options, io);
  const answers = await answer(options, io);
  await target.make();
  await writeSite(answers, target);
  await target.write('trees.wood', tidy(treesText(answers, io.today)).text);
  io.out(`Next: fill in trees.wood, then run soundwood check${again}\n`);
  return EXIT_CLEAN;
}

/** @param again the folder as an argument of the next command */
function beginWithTable(
  from: string,
  target: NewFolder,
  again: string,
  options: BeginOptions,
  io: Io,
): Promise<number> {
  const { mapping } = options;
  const region = options.region?.toUpperCase();
  return withTable(from, io, options, async (table, showProgress) => {
    const placed = { ...options, ...(region === undefined ? {} : { region }) };
    const guess = await mappingOf(table.ahead, placed, from, io);
    requireSettled(guess, from, io);
    io.out(`How ${from} is read, with the first value of each column:\n`);
    io.out(mappingWords(table.ahead, guess.mapping));
    showMappingRemarks(guess, from, io);
    if (mapping === undefined && !(await agrees(io))) {
      await target.make();
      await target.write('mapping.json', showMapping(guess.mapping));
      io.out(
        `Next: edit it, then run soundwood init${again} --from ${from} --mapping ${target.shown('mapping.json')}\n`,
      );
      return EXIT_CLEAN;
    }
    const answers = await answer(options, io);
    await target.make();
    // First: if it fails, nothing is written yet and the command can be repeated.
    const trees = target.path('trees.wood');
    await writeInventory(
      table,
      guess.mapping,
      { file: from, target: trees, region: answers.region, showProgress },
      io,
    );
    const treesShown = target.shown('trees.wood');
    io.out(`${treesShown}\n`);
    const used = mapping ?? target.shown('mapping.json');
    if (mapping === undefined) await target.write('mapping.json', showMapping(guess.mapping));
    await writeSite(answers, target);
    io.out(
      `If a column is misread: correct ${used}, delete ${treesShown}, and run soundwood import ${from} --mapping ${used} --output ${treesShown}\n`,
    );
    io.out(`Next: soundwood check${again}\n`);
    return EXIT_CLEAN;
  });
}

/** The folder of the new inventory; files are named relative to it. */
interface NewFolder {
  readonly path: (file: string) => string;
  /** As shown to people. */
  readonly shown: (file: string) => string;
  /** Throws UserError if one of the files exists. */
  readonly requireNew: (files: readonly string[]) => Promise<void>;
  readonly make: () => Promise<void>;
  /** Writes a new file and prints its name. */
  readonly write: (file: string, text: string) => Promise<void>;
}

function targetIn(folder: string, io: Io): NewFolder {
  const path = (file: string) => join(folder, file);
  const shownAs = (file: string) => shown(io.cwd, path(file));
  return {
    path,
    shown: shownAs,
    async requireNew(files) {
      for (const file of files) {
        const existing = await stat(path(file)).catch(() => undefined);
        if (existing) throw new UserError(`${shownAs(file)} already exists and will not be overwritten.`);
      }
    },
    async make() {
      await mkdir(folder, { recursive: true }).catch((error: Error) => {
        throw new UserError(`${shown(io.cwd, folder)} can't be made: ${error.message}.`);
      });
    },
    async write(file, text) {
      await writeNewText(path(file), text, io.cwd);
      io.out(`${shownAs(file)}\n`);
    },
  };
}

async function writeSite(answers: Answers, target: NewFolder): Promise<void> {
  await target.write('site.wood', tidy(siteText(answers)).text);
  await target.write('people.wood', tidy(peopleText(answers)).text);
}

/** True without a terminal: the guess is shown in the output and in mapping.json. */
async function agrees(io: Io): Promise<boolean> {
  if (!io.interactive) return true;
  const answer = await io.ask('Is the table read correctly (yes, or no to correct it in a file)?', 'yes');
  return /^y(es)?$/i.test(answer);
}

/**
 * From the options, otherwise from the terminal, which repeats a question until its answer is valid so that the earlier
 * answers are not lost. Throws UserError if an answer is missing and there is no terminal, or an option is invalid.
 */
async function answer(options: BeginOptions, io: Io): Promise<Answers> {
  const of = async (
    option: 'name' | 'region' | 'units' | 'person',
    given: string | undefined,
    question: string,
    proposal = '',
  ): Promise<string> => {
    if (given === undefined && !io.interactive)
      throw new UserError(`--${option} is missing, and there is no terminal to ask on.`);
    for (;;) {
      const text = READ[option](given ?? (await io.ask(question, proposal)));
      const fault = faultOf(option, text);
      if (fault === undefined) return text;
      if (given !== undefined) throw new UserError(fault);
      io.out(`${fault}\n`);
    }
  };
  const name = await of('name', options.name, 'Name of the site?');
  const region = await of(
    'region',
    options.region,
    'Country and state or province (ISO 3166, such as US-OR or GB)?',
  );
  const proposed = IMPERIAL.test(region) ? 'imperial' : 'metric';
  // The units of the example tree; a table has its own.
  const given = options.units ?? (io.interactive && options.from === undefined ? undefined : proposed);
  const units = await of('units', given, 'Units (imperial or metric)?', proposed);
  const person = await of('person', options.person, 'Full name of the inspector?');
  return { name, region, units: units === 'imperial' ? 'imperial' : 'metric', person };
}

const READ = {
  name: (text: string) => oneLine(text),
  region: (text: string) => text.trim().toUpperCase(),
  units: (text: string) => text.trim().toLowerCase(),
  person: (text: string) => oneLine(text),
} as const;

/** What is wrong with an answer; undefined if it is valid. */
function faultOf(option: keyof typeof READ, text: string): string | undefined {
  switch (option) {
    case 'name':
      return text === '' ? 'The site needs a name.' : undefined;
    case 'region': {
      const mistake = parseBlock(`site "x"\nregion ${text}`).lines[1]!.mistake;
      return mistake && (text === '' ? mistake.remedy : `${mistake.message} ${mistake.remedy}`);
    }
    case 'units':
      return text === 'imperial' || text === 'metric' ? undefined : `${text} is neither imperial nor metric.`;
    case 'person':
      return text === '' ? 'The name of the inspector is required.' : undefined;
  }
}

const BLANKS = new RegExp(`[\\s${NO_TEXT}]+`, 'g');
const oneLine = (text: string) => text.replace(BLANKS, ' ').trim();
const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

/** The short name of a person: initials in capitals. */
function initials(person: string): string {
  const letters = person
    .split(/[\s.-]+/)
    .map(part => [...part].find(letter => /[\p{L}]/u.test(letter)) ?? '')
    .join('')
    .toUpperCase();
  return parseBlock(`person ${letters} "x"`).lines[0]!.mistake ? 'P1' : letters;
}

const siteText = ({ name, region }: Answers) => `site ${quoted(name)}
  region      ${region}
  # position  latitude, longitude in decimal degrees
  # client    "name of the client"
`;

const peopleText = ({ person }: Answers) => `person ${initials(person)} ${quoted(person)}
  # qualified consulting arborist
`;

/** The example tree in either system of units, in whole numbers. */
const EXAMPLE = {
  imperial: {
    dbh: '16 in',
    girth: '50 in',
    height: '48 ft',
    between: '45..50 ft',
    base: '8 ft',
    spread: '36 ft',
  },
  metric: {
    dbh: '41 cm',
    girth: '129 cm',
    height: '15 m',
    between: '14..16 m',
    base: '2.5 m',
    spread: '11 m',
  },
} as const;

function treesText({ units, person }: Answers, today: number): string {
  const { dbh, girth, height, between, base, spread } = EXAMPLE[units];
  return `# An example: change it, and copy it for every tree. A # begins a comment.

tree 1 "Example oak"                # your own tag, then a name if it has one
  species     Quercus robur         # botanical name; the genus alone if that is all you know
  dbh         ${dbh.padEnd(22)}# diameter at breast height; girth ${girth} works, too
  height      ${height.padEnd(22)}# ~ before a number: estimated; or ${between}: between
  crown       from ${base}, ${spread} wide
  age         semi-mature
  vigor       good

  inspection ${formatDate(today)} from ground
    by        ${initials(person)}
    level     basic
`;
}
