/**
 * A text with all habits rewritten that have one meaning, and questions about those that have several. What is rewritten
 * is of one line: no line comes or goes.
 */

import { splitBlocks } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { dayInOrder } from '../../grammar/habits.ts';
import { type RewriteLine, rewrites } from '../../grammar/rewrite.ts';
import { FIRST_WORDS } from '../../grammar/said.ts';
import { type PlacedBlock, sectionAt } from '../../grammar/syntax.ts';
import { type Replacement, splitLines, textWith } from '../../grammar/text.ts';
import { organismsCalled, treesCalled } from '../practice/common-names.ts';
import { type DateOrder, dateOrderIn } from '../practice/date-orders.ts';
import { lookupGenus } from '../practice/species.ts';
import { DANGER, KIND } from './note-words.ts';

/** Something that only the writer knows. */
export interface Question {
  /** The same question has the same key in every run; its answer holds for all lines that ask it. */
  readonly key: string;
  readonly asks: string;
  readonly choices: readonly string[];
  /** Lines that wait for the answer, 0-based. */
  readonly lines: readonly number[];
}

export interface FixContext {
  /** ISO 3166 code of the place. */
  readonly region?: string | undefined;
  /** By key: one of the choices, or a text of one's own in its place. */
  readonly answers?: ReadonlyMap<string, string>;
}

/** A line that has a mistake which nobody can guess at. */
interface LeftLine {
  readonly line: number;
  readonly message: string;
}

export interface Fixed {
  readonly text: string;
  readonly questions: readonly Question[];
  readonly left: readonly LeftLine[];
  /** Lines that became comments, 0-based. */
  readonly unread: readonly number[];
}

/** Before what could not be read. */
const UNREAD = '# not read: ';

export function fixText(text: string, context: FixContext): Fixed {
  const order = orderOf(text, context.region);
  const rewritten = textWith(text, rewrites(text, rewriteLine(context, order)));
  const { text: now, unread } = withComments(rewritten);
  const questions = new Map<string, Question>();
  const left: LeftLine[] = [];
  for (const placed of splitBlocks(now))
    placed.block.lines.forEach(({ mistake }, i) => {
      const line = placed.firstLine + i;
      const asked = questionAt(placed, i, context);
      if (asked) {
        const { key, asks, shown } = asked;
        const lines = [...(questions.get(key)?.lines ?? []), line];
        questions.set(key, { key, asks, choices: shown, lines });
      } else if (mistake) left.push({ line, message: `${mistake.message} ${mistake.remedy}` });
    });
  return { text: now, questions: [...questions.values()], left, unread };
}

/** What is asked about a line, with what each choice rewrites. */
interface Asked {
  readonly key: string;
  readonly asks: string;
  readonly choices: readonly string[];
  /** The choices as people see them. */
  readonly shown: readonly string[];
  readonly start: number;
  readonly end: number;
}

/**
 * What is rewritten beside the sure fixes of the notation: names of trees, days in the order of the place, and what
 * was answered.
 */
export function rewriteLine(context: FixContext, order: DateOrder | undefined): RewriteLine {
  const answers = new Map(context.answers);
  if (order !== undefined && !answers.has(DAYS)) answers.set(DAYS, order);
  return (placed, index) => {
    const name = nameAt(placed, index);
    const meant = name ? meantBy(name, context.region) : [];
    if (name && meant.length === 1) return withName(name, meant[0]!, placed, index);
    const asked = questionAt(placed, index, context);
    const answer = asked && answers.get(asked.key);
    if (!asked || !answer) return undefined;
    const chosen = asked.shown.indexOf(answer);
    if (asked.key === DAYS) return dated(asked, answer, placed, index);
    const choice = chosen < 0 ? answer : asked.choices[chosen]!;
    if (name) return withName(name, choice, placed, index);
    const { start, end } = asked;
    return choice === textOf(placed, index).slice(start, end) ? undefined : { start, end, text: choice };
  };
}

/** The botanical names that a common name at a line can mean, as rewrites. */
export function namesFor(
  placed: PlacedBlock,
  index: number,
  region: string | undefined,
): readonly { readonly name: string; readonly rewrite: Replacement }[] {
  const called = nameAt(placed, index);
  if (!called) return [];
  return meantBy(called, region).flatMap(name => {
    const rewrite = withName(called, name, placed, index);
    return rewrite ? [{ name, rewrite }] : [];
  });
}

const textOf = ({ block }: PlacedBlock, index: number): string => block.lines[index]!.syntax.text;

/** A tree, a bird or a fungus by what people call it, where a botanical or zoological name should stand. */
interface CommonNameAt {
  readonly kind: 'tree' | 'organism';
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

const NAME_AT =
  /^(\s*(?:species|found\s+(?:active|old|unclear))\s+)(\p{L}[\p{L}'’ -]*?)\s*(?:#|$|\sat\s|,)/iu;

function nameAt(placed: PlacedBlock, index: number): CommonNameAt | undefined {
  const { syntax, mistake, values } = placed.block.lines[index]!;
  const found = NAME_AT.exec(syntax.text);
  if (!found) return undefined;
  const kind = sectionAt(placed, index)?.word === 'tree' ? 'tree' : 'organism';
  const start = found[1]!.length;
  const text = found[2]!;
  // What reads is a name, unless it is a tree of a genus that nobody knows: Douglas fir.
  const species = values.find(value => value.type === 'species');
  const isUnknown =
    kind === 'tree' && species?.type === 'species' && lookupGenus(species.species.genus) === undefined;
  return mistake || isUnknown ? { kind, text, start, end: start + text.length } : undefined;
}

const meantBy = ({ kind, text }: CommonNameAt, region: string | undefined): readonly string[] =>
  kind === 'tree' ? treesCalled(text, region) : organismsCalled(text, region);

/** The botanical name, with what was written as a comment. */
function withName(
  { text: called, start, end }: CommonNameAt,
  name: string,
  placed: PlacedBlock,
  index: number,
): Replacement | undefined {
  const rest = textOf(placed, index).slice(end);
  if (name === called) return undefined;
  return {
    start,
    end: end + rest.length,
    text: `${name}${rest.trimEnd()}${rest.includes('#') ? '' : '  #'} ${called}`,
  };
}

/** Key of the question in which order the days of a text are written. */
const DAYS = 'order of days';
const ORDERS: readonly DateOrder[] = ['month first', 'day first'];
/** Key of the question which side of an opening is written first. */
const SIDES = 'order of sides';
const SIDES_FIRST = ['width first', 'height first'];
/** Where no unit says how much, in the order of the habit. */
const SIDES_IN = ['in', 'cm'].flatMap(unit => SIDES_FIRST.map(first => `${unit}, ${first}`));

const SLASHED = /(?<![\d./-])\d{1,2}\/\d{1,2}\/\d{2,4}(?![\d/])/g;

/**
 * The order in which the days of a text are written: that of the place, where one of the days bears it out and none
 * speaks against it.
 */
export function orderOf(text: string, region: string | undefined): DateOrder | undefined {
  const custom = dateOrderIn(region);
  if (custom === undefined) return undefined;
  let bornOut = false;
  for (const [day] of text.matchAll(SLASHED)) {
    const read = ORDERS.filter(order => dayInOrder(day, order) !== undefined);
    if (read.length !== 1) continue;
    if (read[0] !== custom) return undefined;
    bornOut = true;
  }
  return bornOut ? custom : undefined;
}

/** The days of a line that is asked about, in an order. */
function dated(
  { start, end }: Asked,
  order: string,
  placed: PlacedBlock,
  index: number,
): Replacement | undefined {
  const written = textOf(placed, index).slice(start, end);
  const days = [...written.matchAll(SLASHED)].map(([day]) => dayInOrder(day, order as DateOrder));
  if (days.length === 0 || days.includes(undefined)) return undefined;
  return { start, end, text: days.join('..') };
}

function questionAt(placed: PlacedBlock, index: number, { region }: FixContext): Asked | undefined {
  const { mistake, syntax } = placed.block.lines[index]!;
  const name = nameAt(placed, index);
  const meant = name ? meantBy(name, region) : [];
  if (name && meant.length > 0) {
    const { text, start, end } = name;
    return {
      key: `${name.kind}: ${text.toLowerCase()}`,
      asks: `${text} can be ${listedOr(meant)}.`,
      choices: meant,
      shown: meant,
      start,
      end,
    };
  }
  const choices = mistake?.choices ?? (mistake?.fix === undefined ? undefined : [mistake.fix]);
  if (!mistake || mistake.sure || !choices) return undefined;
  const { start, end, message: asks, code } = mistake;
  const written = syntax.text.slice(start, end).trim();
  if (code === 'bad-date' && choices.length > 1 && written.includes('/'))
    return { key: DAYS, asks, choices, shown: ORDERS, start, end };
  if (choices.length === 2 && / wide, .* tall$/.test(choices[0]!))
    return { key: SIDES, asks, choices, shown: SIDES_FIRST, start, end };
  if (choices.length === SIDES_IN.length && / wide, .* tall$/.test(choices[0]!))
    return { key: `${SIDES}, without a unit`, asks, choices, shown: SIDES_IN, start, end };
  const first = conventionOf(placed, index, choices);
  if (first) return { ...first, choices, start, end };
  // How often people are there is said in the same words everywhere; what is wrong with a tree is not.
  const isShared = sectionAt(placed, index)?.word === 'target';
  const key = isShared ? syntax.text.trim() : `${tagOf(placed)}: ${syntax.text.trim()}`;
  return { key, asks, choices, shown: choices, start, end };
}

/** A first word that several fields can be meant by: the writer means the same by it everywhere. */
function conventionOf(
  placed: PlacedBlock,
  index: number,
  choices: readonly string[],
): Pick<Asked, 'key' | 'shown' | 'asks'> | undefined {
  const section = sectionAt(placed, index)?.word;
  const [, word, rest] = /^\s*([\p{L}-]+)\s+(.*?)\s*$/u.exec(textOf(placed, index)) ?? [];
  if (section === undefined || word === undefined || rest === undefined) return undefined;
  const isAsked = FIRST_WORDS.some(
    ({ below, said, meant }) =>
      below.includes(section) && said.includes(word.toLowerCase()) && meant.length > 1,
  );
  if (!isAsked || !choices.every(choice => choice.includes(rest))) return undefined;
  const shown = choices.map(choice => choice.replace(rest, '…'));
  return {
    key: `${section}: ${word.toLowerCase()}`,
    shown,
    asks: `"${word}" below ${section} can be ${listedOr(shown)}.`,
  };
}

const listedOr = (words: readonly string[]): string => words.join(', or ');

/** The tag of a tree or the name of a site. */
const tagOf = ({ block }: PlacedBlock): string => {
  const value = block.lines[block.sections[0]?.head ?? 0]?.values[0];
  return value?.type === 'text' ? value.text : '';
};

const DEFECT_SAID = new RegExp(KIND, 'iu');
const DANGER_SAID = new RegExp(DANGER, 'iu');

const firstWordOf = (text: string): string => /^[\p{L}-]*/u.exec(text.trimStart())![0].toLowerCase();

/** First words of the notation: a line that begins with one says more than prose. */
const WORDS: ReadonlySet<string> = new Set(
  [...HEADS.values()].flatMap(head => [head.word.split(' ')[0]!, ...head.fields.keys()]),
);

/**
 * Lines that nobody can read, as comments. Only where no field stands below: it could belong to a head that the line
 * was meant for.
 */
function withComments(text: string): { readonly text: string; readonly unread: readonly number[] } {
  const { starts } = splitLines(text);
  const unread: number[] = [];
  const edits: Replacement[] = [];
  for (const placed of splitBlocks(text)) {
    const { lines, sections } = placed.block;
    lines.forEach(({ role, mistake, syntax }, i) => {
      const isProse =
        role === 'bad' &&
        mistake?.code === 'unknown-word' &&
        mistake.fix === undefined &&
        !mistake.choices &&
        !WORDS.has(firstWordOf(syntax.text)) &&
        // A tag: it may be another tree. And no word of a defect or of a danger falls silent.
        !/^\s*\d/.test(syntax.text) &&
        !DEFECT_SAID.test(syntax.text) &&
        !DANGER_SAID.test(syntax.text);
      const next = lines.slice(i + 1).find(one => one.role !== 'blank' && one.role !== 'comment');
      if (!isProse || sections.length === 0 || (next !== undefined && next.role !== 'head')) return;
      const start = starts[placed.firstLine + i]!;
      const written = syntax.text.trim();
      const indent = /^\s*/.exec(syntax.text)![0];
      unread.push(placed.firstLine + i);
      edits.push({ start, end: start + syntax.text.length, text: `${indent}${UNREAD}${written}` });
    });
  }
  return { text: textWith(text, edits), unread };
}
