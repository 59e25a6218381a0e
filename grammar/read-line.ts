/**
 * Reads one line in its context (the last head above): which head or field it is, and its values. Equal lines below
 * equal heads are read once and shared.
 */

import { type FieldSpec, HEADS, type HeadSpec, TWO_WORD_HEADS } from './fields.ts';
import { habitOf, type Stage } from './habits.ts';
import { withoutLexicalErrors } from './lexical-errors.ts';
import { matchLine } from './match.ts';
import { parseLine } from './parser.ts';
import { Shapes } from './shapes.ts';
import type { Line, LineSyntax, Mistake, WordItem } from './syntax.ts';
import { inQuotes } from './text.ts';

/** Size of the cache; cleared when full. Inventories repeat a few thousand lines. */
const CACHED_LINES = 20_000;

/** Cache of lines below one head, or above the first. */
export interface KeptLines {
  readonly current: HeadSpec | undefined;
  readonly lines: Map<string, Line>;
  /** For lines that do not repeat. */
  readonly shapes: Shapes;
}

const keptBelow = new Map(
  [undefined, ...HEADS.values()].map((current): [HeadSpec | undefined, KeptLines] => [
    current,
    { current, lines: new Map(), shapes: new Shapes() },
  ]),
);

/** Look it up once per head, not per line. */
export const linesBelow = (current: HeadSpec | undefined): KeptLines => keptBelow.get(current)!;

/** @param syntax of the line, if it was parsed before */
export function readLine(text: string, { current, lines, shapes }: KeptLines, syntax?: LineSyntax): Line {
  const known = lines.get(text) ?? shapes.read(text);
  if (known) return known;
  const read = readUncached(syntax ?? parseLine(text), current);
  if (!isShort(read.syntax)) return read;
  if (lines.size >= CACHED_LINES) lines.clear();
  if (mayRepeat(read, current)) lines.set(read.syntax.text, read);
  else shapes.keep(read);
  return read;
}

/** Long texts cost more memory than parsing them again. */
export const isShort = ({ text }: LineSyntax): boolean => text.length <= 200;

/** Tags and positions are unique to a tree; mistakes tend to repeat. */
function mayRepeat({ role, word, mistake }: Line, current: HeadSpec | undefined): boolean {
  if (mistake) return true;
  const spec = word === undefined ? undefined : role === 'head' ? HEADS.get(word) : current?.fields.get(word);
  return !spec?.distinct;
}

export function firstWord(syntax: LineSyntax): WordItem | undefined {
  const item = syntax.items[0];
  return item?.kind === 'word' ? item : undefined;
}

/** The head that a line's first words name, and how many words that takes. */
export function headNamed(syntax: LineSyntax): { head: HeadSpec; words: number } | undefined {
  const word = firstWord(syntax)?.text;
  if (word === undefined) return undefined;
  const single = HEADS.get(word);
  if (single) return { head: single, words: 1 };
  const double = TWO_WORD_HEADS.get(word);
  const second = syntax.items[1];
  if (double && second?.kind === 'word' && double.word === `${word} ${second.text}`)
    return { head: double, words: 2 };
  return undefined;
}

/** The heads that have a field of the line's first word. */
export function contextsOf(syntax: LineSyntax): readonly HeadSpec[] {
  const word = firstWord(syntax)?.text;
  return (word === undefined ? undefined : OWNERS.get(word)) ?? [];
}

const OWNERS: ReadonlyMap<string, readonly HeadSpec[]> = new Map(
  [...HEADS.values()].flatMap(({ fields }) =>
    [...fields.keys()].map(word => [word, [...HEADS.values()].filter(head => head.fields.has(word))]),
  ),
);

export function readHead(syntax: LineSyntax, head: HeadSpec, firstItem: number): Line {
  const example = head.example;
  let { values, mistake } = matchLine(syntax, firstItem, head.node, example);
  if (mistake) values = matchLine(syntax, firstItem, head.node, example, true).values;
  // An invalid date is not a value.
  if (syntax.mistake?.code === 'bad-date') values = values.filter(value => value.type !== 'dates');
  return { syntax, role: 'head', word: head.word, values, mistake: syntax.mistake ?? mistake };
}

function readField(syntax: LineSyntax, field: FieldSpec): Line {
  if (syntax.mistake) return { syntax, role: 'field', word: field.word, values: [], mistake: syntax.mistake };
  const { values, mistake } = matchLine(syntax, 1, field.node, field.example);
  return { syntax, role: 'field', word: field.word, values, mistake };
}

/** Reads a line without the cache; of a mistake, what is meant by it. */
export function readUncached(syntax: LineSyntax, current: HeadSpec | undefined): Line {
  const line = readAsWritten(syntax, current);
  const mistakeHere = line.mistake;
  if (!mistakeHere || mistakeHere.code === 'out-of-place') return line;
  const mistake = habitOf({
    text: syntax.text,
    found: mistakeHere,
    stage: stageOf(syntax),
    isFormless: line.role === 'bad',
    isHead: line.role === 'head',
    takesText: takesText(line, current),
    reread: text => {
      const again = parseLine(text);
      const { word, mistake } = readAsWritten(again, current);
      // Another field is not what was meant.
      const isOther = word !== line.word;
      return { mistake: isOther ? { ...mistakeHere, start: -1, end: -1 } : mistake, stage: stageOf(again) };
    },
  });
  if (!mistake) return line;
  // What a line was meant to be is found by its syntax (recovery.ts).
  return line.role === 'bad'
    ? { ...line, mistake, syntax: { ...line.syntax, mistake } }
    : { ...line, mistake };
}

const stageOf = ({ mistake }: LineSyntax): Stage =>
  mistake === undefined
    ? 'form'
    : mistake.code === 'stray-mark' || mistake.code === 'unclosed-quote'
      ? 'marks'
      : 'items';

/** Whether a text or a path can stand in a line. */
function takesText({ role, word }: Line, current: HeadSpec | undefined): boolean {
  const spec = word === undefined ? undefined : role === 'head' ? HEADS.get(word) : current?.fields.get(word);
  return spec !== undefined && TAKE_TEXT.has(spec);
}

const hasText = ({ values }: FieldSpec): boolean =>
  [...values.values()].some(one => one.kind === 'value' && (one.type === 'text' || one.type === 'path'));

const TAKE_TEXT: ReadonlySet<FieldSpec> = new Set(
  [...HEADS.values()].flatMap(head => [head, ...head.fields.values()]).filter(hasText),
);

function readAsWritten(syntax: LineSyntax, current: HeadSpec | undefined): Line {
  if (syntax.mistake && syntax.items.length === 0) return readWithLexicalError(syntax, current);
  const role = syntax.comment ? 'comment' : 'blank';
  if (syntax.items.length === 0) return { syntax, role, word: undefined, values: [], mistake: undefined };
  return classify(syntax, current);
}

function classify(syntax: LineSyntax, current: HeadSpec | undefined): Line {
  const named = headNamed(syntax);
  if (named) return readHead(syntax, named.head, named.words);
  const word = firstWord(syntax);
  const field = word && current?.fields.get(word.text);
  if (field) return readField(syntax, field);
  const parent = current?.under === undefined ? undefined : HEADS.get(current.under);
  const above = word && parent?.fields.get(word.text);
  if (above && current) {
    const mistake: Mistake = {
      code: 'out-of-place',
      message: `${inQuotes(word.text)} is a field of the ${parent!.word}, not of the ${current.word} above it.`,
      remedy: `Move this line up, before the first head inside the ${parent!.word}.`,
      start: word.start,
      end: word.end,
    };
    return { syntax, role: 'field', word: word.text, values: [], mistake };
  }
  return { syntax, role: 'bad', word: undefined, values: [], mistake: syntax.mistake };
}

/** A line with a lexical error: classified as far as possible; the lexical error stays its only mistake. */
function readWithLexicalError(syntax: LineSyntax, current: HeadSpec | undefined): Line {
  const mistake = syntax.mistake!;
  const { text } = syntax;
  const spoiled = (role: 'field' | 'bad', word?: string): Line => ({
    syntax,
    role,
    word,
    values: [],
    mistake,
  });
  if (mistake.code === 'line-too-long' || mistake.code === 'merge-conflict') return spoiled('bad');
  const clean = withoutLexicalErrors(text);
  // If no mark was removed, the order of the words is wrong.
  const whole = clean === text ? syntax : parseLine(clean);
  const rest = whole.items.length > 0 ? whole : parseLine(withoutLexicalErrors(text.slice(0, mistake.start)));
  if (rest.items.length === 0) return spoiled('bad');
  const read = classify(rest, current);
  if (read.role === 'head') return { ...read, syntax, mistake };
  return spoiled(read.role === 'field' ? 'field' : 'bad', read.word);
}
