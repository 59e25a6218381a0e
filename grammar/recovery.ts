/**
 * What a line that begins with no known word was meant to be. A damaged head must not spoil the lines below it,
 * so a line counts as a head where the lines that follow fit that head better than what stands above.
 */

import { type FieldSpec, type HeadSpec, headsUnder } from './fields.ts';
import type { FormNode } from './forms.ts';
import { fits, oneOf } from './match.ts';
import { nearest, near as nearWords } from './nearest.ts';
import { contextsOf, firstWord, headNamed } from './read-line.ts';
import type { BlockLine, LineSyntax, Mistake } from './syntax.ts';

export interface Surroundings {
  readonly current: HeadSpec | undefined;
  readonly top: HeadSpec | undefined;
  /** Field words that the current head has already. */
  readonly seen: ReadonlySet<string>;
}

export interface Guess {
  /** The head that the line opens, if it does. */
  readonly head: HeadSpec | undefined;
  /** The item at which the head's values begin. */
  readonly argumentsFrom: number;
  readonly mistake: Mistake;
}

export function guess(line: BlockLine, around: Surroundings, ahead: readonly LineSyntax[]): Guess {
  const { syntax } = line;
  const spoiled = syntax.mistake;
  const word = firstWord(syntax)?.text;
  const heads = [...headsUnder(undefined), ...(around.top ? headsUnder(around.top.word) : [])];
  const fieldWords = [...(around.current?.fields.keys() ?? [])];
  const nearField = word === undefined ? undefined : nearest(word, fieldWords);
  const near = word === undefined ? undefined : nearestHead(word, heads, ahead, around.top);
  const stay = around.current ? score(around.current, ahead, around.top, around.seen) : -1;

  const dropped = bestByScore(
    heads.filter(
      head => syntax.items.length > 0 && (fits(syntax, 0, head.node) || fits(syntax, 1, head.node)),
    ),
    ahead,
    around.top,
  );
  const speaks = (head: HeadSpec) => score(head, ahead, around.top);
  const isMeant =
    near &&
    (speaks(near) > stay ||
      (nearField === undefined && fits(syntax, argumentsFrom(syntax, near), near.node)));
  if (near && isMeant && !(dropped && speaks(dropped) > Math.max(speaks(near), stay))) {
    return {
      head: near,
      argumentsFrom: argumentsFrom(syntax, near),
      mistake: spoiled ?? misspelt(syntax, near.word, near),
    };
  }
  // A line with the very words of a head (`B, C proved`) needs less help from the lines below it.
  const telling = dropped && isTelling(dropped.node) && fits(syntax, 0, dropped.node) && speaks(dropped) > 0;
  if (dropped && (speaks(dropped) > stay || (telling && speaks(dropped) === stay))) {
    const from = fits(syntax, 0, dropped.node) ? 0 : 1;
    return { head: dropped, argumentsFrom: from, mistake: spoiled ?? missingHead(syntax, dropped) };
  }
  if (nearField !== undefined) {
    const field = around.current!.fields.get(nearField)!;
    return { head: undefined, argumentsFrom: 0, mistake: spoiled ?? misspelt(syntax, nearField, field) };
  }
  return {
    head: undefined,
    argumentsFrom: 0,
    mistake: spoiled ?? nothingFits(syntax, around, heads, fieldWords),
  };
}

/** How many of the lines that follow fit below this head: its fields, and for a head of the file its inner heads. */
function score(
  head: HeadSpec,
  ahead: readonly LineSyntax[],
  top: HeadSpec | undefined,
  seen: ReadonlySet<string> = new Set(),
): number {
  const taken = new Set(seen);
  let fitting = 0;
  let inside = false;
  for (const line of ahead) {
    const inner = headNamed(line)?.head;
    if (inner) {
      // Inner heads speak for another head of the file only where they could not stand below the present one.
      if (head === top || inner.under !== head.word) break;
      inside = true;
      fitting++;
      continue;
    }
    const word = firstWord(line)?.text;
    const field = word === undefined || inside ? undefined : head.fields.get(word);
    if (!field || (taken.has(field.word) && !field.many) || !fits(line, 1, field.node)) continue;
    taken.add(field.word);
    fitting++;
  }
  return fitting;
}

/** Does the form hold words of its own, beside names, texts and quantities? */
function isTelling(node: FormNode): boolean {
  if (node.kind === 'choice') return true;
  return node.kind === 'sequence' && node.nodes.some(isTelling);
}

function bestByScore(
  heads: readonly HeadSpec[],
  ahead: readonly LineSyntax[],
  top: HeadSpec | undefined,
): HeadSpec | undefined {
  let best: HeadSpec | undefined;
  let most = -1;
  for (const head of heads) {
    const fitting = score(head, ahead, top);
    if (fitting > most) [best, most] = [head, fitting];
  }
  return best;
}

/** `chek`, `nest` or `check` for `nest check`; where several are as near, the one that the lines below fit. */
function nearestHead(
  word: string,
  heads: readonly HeadSpec[],
  ahead: readonly LineSyntax[],
  top: HeadSpec | undefined,
): HeadSpec | undefined {
  const words = new Map<string, HeadSpec[]>();
  for (const head of heads) {
    for (const part of new Set([head.word, ...head.word.split(' ')])) {
      words.set(part, [...(words.get(part) ?? []), head]);
    }
  }
  const candidates = nearWords(word, [...words.keys()]).sort((a, b) => a.apart - b.apart);
  return bestByScore(
    candidates.flatMap(({ candidate }) => words.get(candidate)!),
    ahead,
    top,
  );
}

/** Values begin behind the words that stand for the head. */
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
    message: `${found} is no word of the notation; the nearest that can stand here is ${word}.`,
    remedy: `Write it as in: ${spec.example}`,
    start: item.start,
    end: item.end,
    mend: word,
  };
}

function missingHead(syntax: LineSyntax, head: HeadSpec): Mistake {
  const end = syntax.items[syntax.items.length - 1]!.end;
  return {
    code: 'unknown-word',
    message: `This line lacks the word ${head.word}, which the lines below it call for.`,
    remedy: `Write it as in: ${head.example}`,
    start: syntax.items[0]!.start,
    end,
  };
}

/** Heads that a message names. */
const MOST_OWNERS = 5;

function nothingFits(
  syntax: LineSyntax,
  { current, top }: Surroundings,
  heads: readonly HeadSpec[],
  fieldWords: readonly string[],
): Mistake {
  const item = syntax.items[0];
  const found = item ? syntax.text.slice(item.start, item.end) : syntax.text.trim().slice(0, 20);
  const span = { start: item?.start ?? 0, end: item?.end ?? syntax.text.length };
  const could = current
    ? `Below ${current.word} can stand ${fieldWords.join(', ')}${
        top
          ? `, or a head such as ${
              headsUnder(top.word)
                .slice(0, 4)
                .map(head => head.word)
                .join(', ') || 'tree'
            }`
          : ''
      }.`
    : `A file begins with one of ${heads.map(head => head.word).join(', ')}.`;
  const owners = contextsOf(syntax).map(({ word }) => word);
  if (owners.length > 0) {
    // Those that nearly every head has would make a list of no use.
    const named = owners.length > MOST_OWNERS ? 'a head' : oneOf(owners);
    return {
      code: 'out-of-place',
      message: `${found} belongs to ${named}, but stands ${current ? `below ${current.word}` : 'before any head'}.`,
      remedy: `Move the line below the ${named.replace(/^a /, '')} that it belongs to. ${could}`,
      ...span,
    };
  }
  return { code: 'unknown-word', message: `${found} is no word of the notation.`, remedy: could, ...span };
}
