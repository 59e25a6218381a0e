/** The lookahead of recovery: how many of the lines below a damaged one fit each head. */

import { type FieldSpec, HEADS, type HeadSpec, TWO_WORD_HEADS } from './fields.ts';
import { fits } from './match.ts';
import { parseLine } from './parser.ts';
import { firstWord, headNamed } from './read-line.ts';
import type { LineSyntax } from './syntax.ts';

/** A line that fits some heads. */
export interface Evidence {
  /** The head that it names. */
  readonly inner: HeadSpec | undefined;
  /** The heads it may belong to, each with its field. */
  readonly fields: readonly Owned[];
}

interface Owned {
  readonly head: HeadSpec;
  readonly field: FieldSpec;
}

/** Fields by word, grouped by form: a line fits all of a group or none. */
const OWNED: ReadonlyMap<string, readonly (readonly Owned[])[]> = (() => {
  const byWord = new Map<string, Map<string, Owned[]>>();
  for (const head of HEADS.values()) {
    for (const field of head.fields.values()) {
      let forms = byWord.get(field.word);
      if (!forms) byWord.set(field.word, (forms = new Map()));
      const owned = forms.get(field.form);
      if (owned) owned.push({ head, field });
      else forms.set(field.form, [{ head, field }]);
    }
  }
  return new Map([...byWord].map(([word, forms]) => [word, [...forms.values()]]));
})();

const NO_FIELDS: readonly Owned[] = [];
const FIRST_WORD = /[ \t\u00A0\uFEFF]*([a-z][a-z-]*)/y;

/** Indentation and first word of any head or field. */
const LONGEST_START = 200;

/** Most lines of non-inventories do not begin with a word of the notation: skip parsing them. */
function mayBeEvidence(line: string): boolean {
  FIRST_WORD.lastIndex = 0;
  // Not of a whole line: of one of 50 MB the engine may run out of stack.
  const word = FIRST_WORD.exec(line.slice(0, LONGEST_START))?.[1];
  return word !== undefined && (HEADS.has(word) || TWO_WORD_HEADS.has(word) || OWNED.has(word));
}

/** A line that was parsed ahead. */
export interface ParsedAhead {
  readonly syntax: LineSyntax;
  readonly evidence: Evidence | undefined;
}

/** Undefined for a line that is no evidence. */
export function parseAhead(line: string): ParsedAhead | undefined {
  if (!mayBeEvidence(line)) return undefined;
  const syntax = parseLine(line);
  return { syntax, evidence: evidenceOf(syntax) };
}

function evidenceOf(syntax: LineSyntax): Evidence | undefined {
  const inner = headNamed(syntax)?.head;
  if (inner) return { inner, fields: NO_FIELDS };
  const forms = OWNED.get(firstWord(syntax)?.text ?? '');
  const fields = forms?.flatMap(owned => (fits(syntax, 1, owned[0]!.field.node) ? owned : NO_FIELDS));
  return fields && fields.length > 0 ? { inner: undefined, fields } : undefined;
}

export interface Scores {
  /** How many of the lines fit below this head: its fields, and for a head of the file its inner heads. */
  readonly of: (head: HeadSpec) => number;
  /** How many fit below the current head, without fields it already has; -1 if there is no current head. */
  readonly stay: number;
}

const NOTHING_SAID = [-1, 0].map((stay): Scores => ({ of: () => 0, stay }));

/**
 * @param current the current head @param seen its fields above
 * @param top the current head of the file
 */
export function scoresOf(
  evidence: readonly Evidence[],
  current: HeadSpec | undefined,
  top: HeadSpec | undefined,
  seen: ReadonlySet<string>,
): Scores {
  if (evidence.length === 0) return NOTHING_SAID[current ? 1 : 0]!;
  const counts = new Map<HeadSpec, number>();
  const taken = new Set<FieldSpec>();
  let stay = 0;
  let i = 0;
  for (; i < evidence.length && !evidence[i]!.inner; i++) {
    for (const { head, field } of evidence[i]!.fields) {
      if (taken.has(field) && !field.many) continue;
      taken.add(field);
      counts.set(head, (counts.get(head) ?? 0) + 1);
      if (head === current && (field.many || !seen.has(field.word))) stay++;
    }
  }
  // Inner heads are evidence for another head of the file only if they are not allowed below the current one.
  const under = evidence[i]?.inner?.under;
  const outer = under === undefined ? undefined : HEADS.get(under)!;
  if (outer && outer !== top) {
    let inside = 0;
    for (; i < evidence.length; i++) {
      const { inner } = evidence[i]!;
      if (inner && inner.under !== under) break;
      if (inner) inside++;
    }
    counts.set(outer, (counts.get(outer) ?? 0) + inside);
    if (outer === current) stay += inside;
  }
  return { of: head => counts.get(head) ?? 0, stay: current ? stay : -1 };
}
