/** The mapping of a table: from a file, or guessed, with questions to who sits at the terminal. */

import { resolve } from 'node:path';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { readBytes } from '../host/folders.ts';
import { readText } from '../host/read-text.ts';
import {
  type ColumnQuestion,
  type Guess,
  guessMapping,
  inventoryWriter,
  isKnownGrid,
  type Mapping,
  MappingError,
  type Meaning,
  mappingWords,
  type NameQuestion,
  questionWords,
  readGrid,
  readMapping,
  readMeaning,
  showMapping,
  showMeaning,
  type Table,
  type TagColumns,
  withTag,
} from '../import/index.ts';
import { sanitizeForLog, sanitizeLine } from '../show/sanitize.ts';
import { askChoice } from './ask.ts';
import { reasonOf } from './files.ts';
import type { Io } from './io.ts';

/** How to read the columns of a table. */
export interface MappingOptions {
  /** Path of the mapping file. */
  readonly mapping?: string;
  /** The column with the tags; false for none. */
  readonly tag?: string | false;
  /** Label of the encoding of the table. */
  readonly encoding?: string;
  /** EPSG code of the grid of its coordinates. */
  readonly crs?: string;
  /** The layer of a GeoPackage. */
  readonly layer?: string;
  /** ISO 3166 code of the place. */
  readonly region?: string;
}

/** The mapping in use, and remarks about it for the user. */
interface MappingInUse {
  readonly mapping: Mapping;
  /** What somebody has to settle first. */
  readonly doubts: readonly string[];
  readonly warnings: readonly string[];
  readonly notes: readonly string[];
  /** Whether somebody answered questions. */
  readonly isAnswered: boolean;
}

/** Prints the remarks about a mapping. */
export function showMappingRemarks({ doubts, warnings, notes }: MappingInUse, file: string, io: Io): void {
  for (const doubt of doubts) io.err(`${sanitizeLine(`${file}: open: ${doubt}`)}\n`);
  for (const warning of warnings) io.err(`${sanitizeLine(`${file}: warning: ${warning}`)}\n`);
  for (const note of notes) io.err(`${sanitizeLine(`${file}: note: ${note}`)}\n`);
}

/** Throws UserError where something is open: nothing is taken that nobody is sure of. */
export function requireSettled({ doubts, mapping }: MappingInUse, file: string, io: Io): void {
  if (doubts.length === 0) return;
  for (const doubt of doubts) io.err(`${sanitizeLine(`${file}: open: ${doubt}`)}\n`);
  io.err(sanitizeForLog(`The mapping so far:\n${showMapping(mapping)}`));
  throw new UserError(
    `${sanitizeLine(file)} was not imported: ${counted(doubts.length, 'question')} to settle, and there is no terminal to ask on. ` +
      'Write the mapping to a file with --show-mapping, settle the entries that end in a question mark, and pass it with --mapping.',
  );
}

/** The mapping from the mapping file or guessed, with the chosen column of tags. Throws UserError and MappingError. */
export async function mappingOf(
  table: Table,
  { mapping: given, tag, region, crs }: MappingOptions,
  file: string,
  io: Io,
): Promise<MappingInUse> {
  const tagged = (mapping: Mapping): Mapping => {
    if (tag === undefined) return mapping;
    try {
      return withTag(table, mapping, tag === false ? undefined : tag);
    } catch (error) {
      throw error instanceof MappingError ? new UserError(`--tag: ${error.message}`) : error;
    }
  };
  if (given !== undefined) {
    const mapping = tagged(await mappingIn(given, io));
    return { mapping, doubts: [], warnings: [], notes: [], isAnswered: false };
  }
  // Features have their places in degrees by now.
  const grid = crs === undefined || table.rowsAre ? undefined : readGrid(crs);
  if (crs !== undefined && !table.rowsAre && (grid === undefined || !isKnownGrid(grid)))
    throw new UserError(`--crs: ${crs} is not a known grid code; write it like EPSG:25833.`);
  const guess = guessMapping(table, { region, grid });
  const { tags, told } = guess;
  // A column that was named as the tag is not asked about.
  const asked = guess.questions.filter(({ column }) => column !== tag);
  const isTagOpen = tag === undefined && (tags.doubtful || tags.taken === undefined);
  const mapping = tagged(guess.mapping);
  const remarks = {
    warnings: tag === undefined && !isTagOpen && tags.warning ? [tags.warning] : [],
    notes: [...(tag === undefined && tags.note ? [tags.note] : []), ...told],
  };
  if (io.interactive) {
    const answered = await askedMapping({ ...guess, questions: asked, mapping }, table, file, region, io);
    return {
      ...remarks,
      mapping: isTagOpen ? await askForTag(table, answered.mapping, tags, io) : answered.mapping,
      doubts: [],
      isAnswered: answered.isAnswered || isTagOpen,
    };
  }
  return {
    ...remarks,
    notes: [...remarks.notes, ...asked.filter(({ isOptional }) => isOptional).map(questionWords)],
    mapping: isTagOpen && tags.taken !== undefined ? open(mapping, tags.taken) : mapping,
    doubts: [
      ...(guess.saysNothing ? ['No column was recognized as information about trees.'] : []),
      ...(guess.counted === undefined
        ? []
        : [
            `According to "${guess.counted}", most rows are for several trees. An inventory needs a record for each tree.`,
          ]),
      ...(isTagOpen ? [tags.warning ?? NO_TAGS] : []),
      ...asked.filter(({ isOptional }) => !isOptional).map(questionWords),
    ],
    isAnswered: false,
  };
}

const NO_TAGS =
  'No column was recognized as the tags of the trees. Name it with --tag COLUMN, or pass --no-tag to assign new tags.';

const open = (mapping: Mapping, column: string): Mapping =>
  new Map(mapping).set(column, { ...mapping.get(column)!, isOpen: true });

/** Trees shown before the questions. */
const TREES_SHOWN = 2;

/** Shows the first rows as they are understood, and asks what is doubtful. */
async function askedMapping(
  { mapping: guessed, questions, names }: Guess,
  table: Table,
  file: string,
  region: string | undefined,
  io: Io,
): Promise<{ readonly mapping: Mapping; readonly isAnswered: boolean }> {
  const mapping = new Map(guessed);
  const say = (text: string) => io.err(sanitizeForLog(text));
  say(`How ${file} is read, with the first value of each column:\n${mappingWords(table, mapping)}`);
  for (const question of questions) settle(mapping, question.column, await answerTo(question, io));
  for (const question of names) {
    const answer = await askChoice(nameChoice(question), { proposal: '', empty: 'Enter leaves it' }, io);
    if (answer === '') continue;
    const { column, name } = question;
    const meaning = mapping.get(column)!;
    mapping.set(column, { ...meaning, values: new Map([...(meaning.values ?? []), [name, answer]]) });
  }
  const writer = inventoryWriter(table, mapping, file, region);
  const trees = table.rows.slice(0, TREES_SHOWN).map(row => writer.tree(row).text);
  say(`The first rows:\n${trees.join('').replace(/^(?=.)/gm, '  ')}\n`);
  return { mapping, isAnswered: questions.length + names.length > 0 };
}

/** Sets the meaning of a column; another one that had it becomes a note. */
function settle(mapping: Map<string, Meaning>, column: string, meaning: Meaning): void {
  for (const [other, { kind }] of mapping)
    if (other !== column && kind === meaning.kind && !['note', 'repeated', 'inspected', 'job'].includes(kind))
      mapping.set(other, { kind: 'note' });
  mapping.set(column, meaning);
}

async function answerTo({ column, asks, choices }: ColumnQuestion, io: Io): Promise<Meaning> {
  const words = choices.map(showMeaning);
  for (;;) {
    const answer = await askChoice(
      { key: `"${sanitizeLine(column)}"`, asks: sanitizeLine(asks), choices: words },
      { proposal: words[0]!, empty: 'Enter takes the first' },
      io,
    );
    const chosen = choices[words.indexOf(answer)];
    if (chosen) return chosen;
    try {
      return readMeaning(column, answer);
    } catch (error) {
      if (!(error instanceof MappingError)) throw error;
      io.out(`${sanitizeLine(error.message)}\n`);
    }
  }
}

const nameChoice = ({ column, name, choices }: NameQuestion) => ({
  key: `"${sanitizeLine(name)}" in "${sanitizeLine(column)}"`,
  asks: 'can mean several trees; which one is it here?',
  choices,
});

/** Asks for the column with the tags until the answer is valid. */
async function askForTag(
  table: Table,
  mapping: Mapping,
  { taken, others }: TagColumns,
  io: Io,
): Promise<Mapping> {
  const all = [...(taken === undefined ? [] : [taken]), ...others];
  const shownColumns = all.map(column => {
    const index = table.columns.indexOf(column);
    const first = table.rows.slice(0, EXAMPLES).map(({ cells }) => cells[index] || 'empty');
    return `"${column}" (${first.join(', ')} …)`;
  });
  const question = `Which column has the tags of the trees: ${[...shownColumns, 'another'].join(', ')}, or none?`;
  for (;;) {
    const answer = await io.ask(sanitizeLine(question), taken ?? NONE);
    if (answer.toLowerCase() === NONE) return withTag(table, mapping, undefined);
    try {
      return withTag(table, mapping, answer);
    } catch (error) {
      if (!(error instanceof MappingError)) throw error;
      io.out(`${sanitizeLine(error.message)}\n`);
    }
  }
}

const EXAMPLES = 3;
const NONE = 'none';

async function mappingIn(file: string, io: Io): Promise<Mapping> {
  const bytes = await readBytes(resolve(io.cwd, file)).catch((error: unknown) => {
    throw new UserError(`${file} ${reasonOf(error)}.`);
  });
  const text = readText(bytes);
  if ('problem' in text) throw new UserError(`${file} ${text.problem}.`);
  return readMapping(text.text);
}
