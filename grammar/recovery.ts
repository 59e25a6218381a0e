/**
 * Error recovery: what a line that begins with an unknown word was meant to be. It counts as a damaged head if the
 * lines below fit that head better than the current one, so that one bad line costs one line.
 */

import { type FieldSpec, type HeadSpec, headsUnder } from './fields.ts';
import type { FormNode, FormValue } from './forms.ts';
import { type Evidence, type Scores, scoresOf } from './lookahead.ts';
import { fits, oneOf } from './match.ts';
import { isSlip, nearest, near as nearWords } from './nearest.ts';
import { contextsOf, firstWord, isShort, linesBelow, readLine } from './read-line.ts';
import { FIRST_WORDS } from './said.ts';
import type { LineSyntax, Mistake } from './syntax.ts';
import { inQuotes } from './text.ts';

export interface RecoveryContext {
  readonly current: HeadSpec | undefined;
  readonly top: HeadSpec | undefined;
  /** Field words that the current head already has. */
  readonly seen: ReadonlySet<string>;
}

export interface Guess {
  /** The head that the line opens, if any. */
  readonly head: HeadSpec | undefined;
  /** The item at which the head's values begin. */
  readonly argumentsFrom: number;
  readonly mistake: Mistake;
}

/** Size of the cache in each context; cleared when full. */
const CACHED_GUESSES = 20_000;

/** @param ahead evidence in the lines below; without any, the result depends on the line alone and is cached */
export function guess(syntax: LineSyntax, around: RecoveryContext, ahead: readonly Evidence[]): Guess {
  const place = allowedIn(around.current, around.top);
  if (ahead.length > 0) return guessUncached(syntax, around, place, ahead);
  const { alone } = place;
  const known = alone.get(syntax.text);
  if (known) return known;
  const guessed = guessUncached(syntax, around, place, ahead);
  if (alone.size >= CACHED_GUESSES) alone.clear();
  if (isShort(syntax)) alone.set(syntax.text, guessed);
  return guessed;
}

function guessUncached(
  syntax: LineSyntax,
  { current, top, seen }: RecoveryContext,
  { heads, fieldWords, parts, byPart, could }: Allowed,
  ahead: readonly Evidence[],
): Guess {
  const spoiled = syntax.mistake;
  const word = firstWord(syntax)?.text;
  const inCapitals = headInCapitals(syntax, heads, current);
  if (inCapitals) return inCapitals;
  const said = saidElsewhere(syntax, current);
  if (said) return said;
  const nearField = word === undefined ? undefined : nearest(word, fieldWords);
  const scores = scoresOf(ahead, current, top, seen);
  const { of: scoreOf, stay } = scores;
  // `chek`, `nest` or `check` for `nest check`; of equally near heads, the one that the lines below fit best.
  const nearHeads =
    word === undefined
      ? []
      : nearWords(word, parts)
          .sort((a, b) => a.apart - b.apart)
          .flatMap(({ candidate }) => byPart.get(candidate)!);
  const near = best(nearHeads, scores);

  // Other heads would not fit the lines below any better.
  const isWorth = (head: HeadSpec) => scoreOf(head) > stay || (stay > 0 && scoreOf(head) === stay);
  const dropped =
    syntax.items.length === 0
      ? undefined
      : best(
          heads.filter(head => isWorth(head) && (fits(syntax, 0, head.node) || fits(syntax, 1, head.node))),
          scores,
        );
  const isMeant =
    near &&
    (scoreOf(near) > stay ||
      (nearField === undefined && fits(syntax, argumentsFrom(syntax, near), near.node)));
  if (near && isMeant && !(dropped && scoreOf(dropped) > Math.max(scoreOf(near), stay))) {
    return {
      head: near,
      argumentsFrom: argumentsFrom(syntax, near),
      mistake: spoiled ?? misspelt(syntax, near.word, near),
    };
  }
  // A line with fixed words of a head's form (`B, C proved`) needs less evidence from the lines below.
  const telling =
    dropped && hasFixedWords(dropped.node) && fits(syntax, 0, dropped.node) && scoreOf(dropped) > 0;
  if (dropped && (scoreOf(dropped) > stay || (telling && scoreOf(dropped) === stay))) {
    const from = fits(syntax, 0, dropped.node) ? 0 : 1;
    return { head: dropped, argumentsFrom: from, mistake: spoiled ?? missingHead(syntax, dropped) };
  }
  if (nearField !== undefined) {
    const field = current!.fields.get(nearField)!;
    return { head: undefined, argumentsFrom: 0, mistake: spoiled ?? misspelt(syntax, nearField, field) };
  }
  return {
    head: undefined,
    argumentsFrom: 0,
    mistake: spoiled ?? nothingFits(syntax, current, could),
  };
}

/** What is allowed in a context. */
interface Allowed {
  readonly heads: readonly HeadSpec[];
  readonly fieldWords: readonly string[];
  /** The words of the heads, whole and one by one. */
  readonly parts: readonly string[];
  readonly byPart: ReadonlyMap<string, readonly HeadSpec[]>;
  /** The same as a sentence. */
  readonly could: string;
  /** Cache of guesses made without evidence from other lines, by text. */
  readonly alone: Map<string, Guess>;
}

const known = new Map<HeadSpec | undefined, Map<HeadSpec | undefined, Allowed>>();

function allowedIn(current: HeadSpec | undefined, top: HeadSpec | undefined): Allowed {
  let byTop = known.get(current);
  if (!byTop) known.set(current, (byTop = new Map()));
  let found = byTop.get(top);
  if (!found) byTop.set(top, (found = computeAllowed(current, top)));
  return found;
}

function computeAllowed(current: HeadSpec | undefined, top: HeadSpec | undefined): Allowed {
  const heads = [...headsUnder(undefined), ...(top ? headsUnder(top.word) : [])];
  const byPart = new Map<string, HeadSpec[]>();
  for (const head of heads) {
    for (const part of new Set([head.word, ...head.word.split(' ')])) {
      byPart.set(part, [...(byPart.get(part) ?? []), head]);
    }
  }
  const fieldWords = [...(current?.fields.keys() ?? [])];
  const inner =
    top &&
    (headsUnder(top.word)
      .slice(0, 4)
      .map(({ word }) => word)
      .join(', ') ||
      'tree');
  const could = current
    ? `Allowed below ${current.word}: ${fieldWords.join(', ')}${inner ? `, or a head such as ${inner}` : ''}.`
    : `A file must begin with one of the words ${oneOf(heads.map(({ word }) => word))}.`;
  return { heads, fieldWords, parts: [...byPart.keys()], byPart, could, alone: new Map() };
}

/** The head with most evidence; the first of equals. */
function best(heads: readonly HeadSpec[], { of: scoreOf }: Scores): HeadSpec | undefined {
  let found: HeadSpec | undefined;
  for (const head of heads) if (!found || scoreOf(head) > scoreOf(found)) found = head;
  return found;
}

/** Whether the form contains fixed words, not only names, texts and quantities. */
function hasFixedWords(node: FormNode): boolean {
  if (node.kind === 'choice') return true;
  return node.kind === 'sequence' && node.nodes.some(hasFixedWords);
}

/** The item after the words of the head. */
function argumentsFrom(syntax: LineSyntax, head: HeadSpec): number {
  const second = syntax.items[1];
  const twoWords =
    head.word.includes(' ') && second?.kind === 'word' && nearest(second.text, [head.word.split(' ')[1]!]);
  return twoWords ? 2 : 1;
}

function misspelt(syntax: LineSyntax, word: string, spec: FieldSpec): Mistake {
  const item = syntax.items[0]!;
  const found = syntax.text.slice(item.start, item.end);
  return {
    code: 'unknown-word',
    message: `Unknown word ${inQuotes(found)}. Did you mean ${inQuotes(word)}?`,
    remedy: `Example: ${spec.example}`,
    start: item.start,
    end: item.end,
    ...(isSlip(found, word) ? { fix: word, sure: true } : {}),
  };
}

function missingHead(syntax: LineSyntax, head: HeadSpec): Mistake {
  const end = syntax.items[syntax.items.length - 1]!.end;
  return {
    code: 'unknown-word',
    message: `The word ${inQuotes(head.word)} is missing at the start of this line; the lines below it need it.`,
    remedy: `Example: ${head.example}`,
    start: syntax.items[0]!.start,
    end,
  };
}

/** `TREE 14`, `Defect B conk`: a head that is written in capitals. What may be a sentence is none. */
function headInCapitals(
  { text }: LineSyntax,
  heads: readonly HeadSpec[],
  current: HeadSpec | undefined,
): Guess | undefined {
  const found = /^(\s*)(\p{Lu}[\p{L}-]*(?:\s+(?:check|test))?)\s+(?=\S)/iu.exec(text);
  if (!found) return undefined;
  const [whole, blanks, written] = found as unknown as [string, string, string];
  const word = written.toLowerCase().replace(/\s+/g, ' ');
  const head = heads.find(one => one.word === word);
  if (!head || written === word) return undefined;
  const rest = text.slice(whole.length);
  if (head.word === 'tree' ? !/^\S*\d/.test(rest) : !isHeadLine(`${head.word} ${rest}`, head, rest, current))
    return undefined;
  return {
    head,
    argumentsFrom: head.word.split(' ').length,
    mistake: {
      code: 'unknown-word',
      message: `Unknown word ${inQuotes(written)}. Did you mean ${inQuotes(head.word)}?`,
      remedy: `Write ${head.word}.`,
      start: blanks.length,
      end: blanks.length + written.length,
      fix: head.word,
      sure: true,
    },
  };
}

/** Longest name without quotation marks, in words, that is no sentence. */
const LONGEST_BARE_NAME = 4;

function isHeadLine(line: string, head: HeadSpec, rest: string, current: HeadSpec | undefined): boolean {
  const { mistake } = readLine(line, linesBelow(undefined));
  if (mistake && !mistake.sure && !mistake.choices) return false;
  const isBare = mistake !== undefined && !rest.includes('"') && [...head.values.values()].some(isText);
  if (!isBare) return true;
  // `Site visited by the owner` below a tree.
  return rest.split(/\s+/).length <= LONGEST_BARE_NAME && (head.under !== undefined || current === undefined);
}

const isText = (value: FormValue): boolean => value.kind === 'value' && value.type === 'text';

/** A field by a word from elsewhere, where the rest of the line reads with the word of the notation. */
function saidElsewhere(syntax: LineSyntax, current: HeadSpec | undefined): Guess | undefined {
  if (!current) return undefined;
  const { text, comment } = syntax;
  const whole = text.slice(0, comment?.start ?? text.length).trimEnd();
  for (const { said, meant } of firstWordsBelow(current.word)) {
    const found = said.exec(whole);
    if (!found) continue;
    const start = found[1]!.length;
    const rest = whole.slice(found[0].length).replace(/^\s*[:=]?\s*/, '');
    if (rest === '') continue;
    const all = meant
      .map(one => one.replace('{}', rest))
      .filter(one => {
        const { role, mistake } = readLine(`  ${one}`, linesBelow(current));
        return role === 'field' && (mistake === undefined || mistake.sure || mistake.choices !== undefined);
      });
    if (all.length === 0) continue;
    const only = all.length === 1 && meant.length === 1 ? all[0]! : undefined;
    return {
      head: undefined,
      argumentsFrom: 0,
      mistake: {
        code: 'unknown-word',
        message: `The word ${inQuotes(found[2]!)} is not used here.`,
        remedy: `Write ${all.map(inQuotes).join(', or ')}${only === undefined ? ', whichever is meant' : ''}.`,
        start,
        end: whole.length,
        ...(only === undefined ? { choices: all } : { fix: only, sure: true }),
      },
    };
  }
  return undefined;
}

interface FirstWordsOf {
  /** The blanks before it, then the word. */
  readonly said: RegExp;
  readonly meant: readonly string[];
}

/** By head; longer words first. */
const FIRST_WORDS_BELOW = new Map<string, readonly FirstWordsOf[]>();

function firstWordsBelow(head: string): readonly FirstWordsOf[] {
  const known = FIRST_WORDS_BELOW.get(head);
  if (known) return known;
  const rows = FIRST_WORDS.filter(({ below }) => below.includes(head))
    .flatMap(({ said, meant }) => said.map(word => ({ word, meant })))
    .sort((a, b) => b.word.length - a.word.length)
    .map(({ word, meant }) => ({
      said: new RegExp(`^(\\s*)(${word.replaceAll(' ', '[\\s-]+')})(?![\\p{L}-])`, 'iu'),
      meant,
    }));
  FIRST_WORDS_BELOW.set(head, rows);
  return rows;
}

/** Maximum number of heads named in a message. */
const MOST_OWNERS = 5;

function nothingFits(syntax: LineSyntax, current: HeadSpec | undefined, could: string): Mistake {
  const item = syntax.items[0];
  const found = item ? syntax.text.slice(item.start, item.end) : syntax.text.trim().slice(0, 20);
  const span = { start: item?.start ?? 0, end: item?.end ?? syntax.text.length };
  const owners = contextsOf(syntax).map(({ word }) => word);
  if (owners.length > 0) {
    // A field that nearly every head has would make a useless list.
    const named = owners.length > MOST_OWNERS ? 'a head' : oneOf(owners);
    return {
      code: 'out-of-place',
      message: `${inQuotes(found)} belongs below ${named}, not ${current ? `below ${current.word}` : 'before the first head'}.`,
      remedy: `Move the line below the ${named.replace(/^a /, '')} that it belongs to. ${could}`,
      ...span,
    };
  }
  return { code: 'unknown-word', message: `Unknown word ${inQuotes(found)}.`, remedy: could, ...span };
}
