/** Generates the data files of editors from the tables: highlighting, brackets and indentation. */

import { COMPASS_POINTS } from '../../grammar/bearing.ts';
import { type FieldSpec, FORM_WORDS, HEADS, headsUnder } from '../../grammar/fields.ts';
import { UNITS, unitWords } from '../base/quantity.ts';
import type { TokenType } from '../language/semantic-tokens.ts';

const escapePattern = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Matches one of these words; longest first, because the first alternative wins. */
const anyOf = (words: Iterable<string>) =>
  [...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(word => escapePattern(word).replaceAll(' ', '[ \\t]+'))
    .join('|');

/** A word ends where no letter, digit or hyphen follows. */
const WORD_END = '(?![\\p{L}\\p{N}_-])';
const WORD_START = '(?<![\\p{L}\\p{N}_-])';

const specs: readonly FieldSpec[] = [...HEADS.values()].flatMap(head => [head, ...head.fields.values()]);

const choices = specs.flatMap(({ values }) =>
  [...values.values()].flatMap(value => (value.kind === 'choice' ? value.words : [])),
);

const topHeads = headsUnder(undefined).map(head => head.word);
const innerHeads = [...HEADS.values()].filter(head => head.under !== undefined).map(head => head.word);
const fieldWords = [...HEADS.values()].flatMap(head => [...head.fields.keys()]);

interface GrammarRule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly beginCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly include?: string;
  readonly patterns?: readonly GrammarRule[];
}

/**
 * By the type of a semantic token the scope that editors color it as (Visual Studio Code, Semantic Highlight Guide,
 * predefined scope mappings). Words look the same before the server answers, and where it is not asked, as in diffs.
 */
const SCOPES = {
  keyword: 'keyword.control',
  property: 'variable.other.property',
  enumMember: 'variable.other.enummember',
  number: 'constant.numeric',
  string: 'string',
  comment: 'comment',
  variable: 'variable.other.readwrite',
  type: 'entity.name.type',
} as const satisfies Record<TokenType, string>;

const scope = (type: TokenType, kind: string): string => `${SCOPES[type]}.${kind}.soundwood`;
const HEAD = scope('keyword', 'head');
const NAME = scope('variable', 'name');

/** A line that begins with one of these words; `nameScope` is the scope of a name after a head. */
const line = (words: readonly string[], wordScope: string, nameScope?: string): GrammarRule => ({
  begin: `^[ \\t\\x{FEFF}]*(${anyOf(words)})${WORD_END}${nameScope ? '(?:[ \\t]+([\\p{L}\\p{N}][^ \\t"#,]*))?' : ''}`,
  end: '$',
  beginCaptures: { 1: { name: wordScope }, ...(nameScope ? { 2: { name: nameScope } } : {}) },
  patterns: [{ include: '#values' }],
});

const byName = (heads: readonly string[], named: boolean) =>
  heads.filter(word => {
    const first = HEADS.get(word)!.values.values().next().value!;
    return (first.kind === 'value' && first.type === 'name') === named;
  });

/** The TextMate grammar, for highlighting before the server has read the file. */
export function textMateGrammar(): object {
  const bearings = anyOf(COMPASS_POINTS);
  return {
    name: 'Soundwood',
    scopeName: 'source.soundwood',
    patterns: [
      { include: '#comment' },
      line(byName(topHeads, true), HEAD, NAME),
      line(byName(topHeads, false), HEAD),
      line(byName(innerHeads, true), HEAD, NAME),
      line(byName(innerHeads, false), HEAD),
      line(fieldWords, scope('property', 'field')),
    ],
    repository: {
      comment: { name: scope('comment', 'line.number-sign'), match: '#.*$' },
      values: {
        patterns: [
          { include: '#comment' },
          { name: scope('string', 'quoted.double'), match: '"[^"]*(?:""[^"]*)*"' },
          { name: 'invalid.illegal.unclosed.soundwood', match: '"[^"]*$' },
          { name: scope('type', 'cultivar'), match: "'[^']+'" },
          {
            name: scope('string', 'unquoted.path'),
            match:
              '[\\p{L}\\p{N}./\\\\()_-]+\\.(?i:jpe?g|png|tiff?|heic|webp|dng|gif|pdf|svg|csv|txt|mp4|mov)(?![A-Za-z0-9])',
          },
          {
            name: scope('number', 'date'),
            match: '\\d{4}-\\d{2}-\\d{2}(?![\\w-])|\\d{2}-\\d{2}(?![\\w-])',
          },
          {
            match: `${WORD_START}([-+]?\\d+(?:\\.\\d+|/\\d+)?)(?:[ \\t]*(${anyOf(UNITS.flatMap(unitWords))})${WORD_END})?(?![\\p{L}\\p{N}_-])`,
            captures: {
              1: { name: scope('number', 'quantity') },
              2: { name: scope('number', 'unit') },
            },
          },
          { name: scope('number', 'mark'), match: '\\.\\.|[~<>×]' },
          { name: scope('number', 'unseen'), match: `${WORD_START}unseen${WORD_END}` },
          {
            name: scope('enumMember', 'choice'),
            match: `${WORD_START}(?:${anyOf(choices)})${WORD_END}`,
          },
          { name: scope('enumMember', 'bearing'), match: `${WORD_START}(?:${bearings})${WORD_END}` },
          {
            name: scope('keyword', 'form'),
            match: `${WORD_START}(?:${anyOf(FORM_WORDS)})${WORD_END}`,
          },
          {
            name: scope('type', 'species'),
            match: '\\b\\p{Lu}\\p{Ll}{2,}(?:[ \\t]+[x×])?[ \\t]+\\p{Ll}[\\p{Ll}-]{2,}',
          },
        ],
      },
    },
  };
}

/** Colors inventories in the fenced blocks of Markdown; none of their constructs spans lines, so a fence always ends them. */
export function markdownInjection(): object {
  const info = {
    3: { name: 'punctuation.definition.markdown' },
    4: { name: 'fenced_code.block.language.markdown' },
  };
  return {
    scopeName: 'markdown.soundwood.codeblock',
    injectionSelector: 'L:text.html.markdown',
    patterns: [
      {
        name: 'markup.fenced_code.block.markdown',
        begin: '(^|\\G)([ \\t]*)(`{3,}|~{3,})[ \\t]*((?i:wood|soundwood))(?=[\\s:,{?]|$)[^`]*$',
        beginCaptures: info,
        end: '(^|\\G)[ \\t]*(\\3)[ \\t]*$',
        endCaptures: { 2: { name: 'punctuation.definition.markdown' } },
        contentName: 'meta.embedded.block.soundwood',
        patterns: [{ include: 'source.soundwood' }],
      },
    ],
  };
}

/** The language configuration: comments, pairs and indentation. */
export function languageConfiguration(): object {
  const opens = `^[ \\t]*(?:${anyOf(HEADS.keys())})(?![\\w-]).*$`;
  return {
    comments: { lineComment: '#' },
    brackets: [],
    autoClosingPairs: [{ open: '"', close: '"', notIn: ['string', 'comment'] }],
    surroundingPairs: [['"', '"']],
    wordPattern: { pattern: '[\\p{L}\\p{N}_](?:[\\p{L}\\p{N}_.-]*[\\p{L}\\p{N}_])?', flags: 'u' },
    indentationRules: {
      increaseIndentPattern: opens,
      decreaseIndentPattern: `^[ \\t]*(?:${anyOf(topHeads)})(?![\\w-]).*$`,
    },
    folding: { offSide: true },
  };
}
