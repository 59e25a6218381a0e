/** Generates the data files of editors from the tables: highlighting, brackets and indentation. */

import { COMPASS_POINTS } from '../../grammar/bearing.ts';
import { type FieldSpec, FORM_WORDS, HEADS, headsUnder } from '../../grammar/fields.ts';
import { UNITS, unitWords } from '../base/quantity.ts';

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

/** A line that begins with one of these words; `nameScope` is the scope of a name after a head. */
const line = (words: readonly string[], scope: string, nameScope?: string): GrammarRule => ({
  begin: `^[ \\t\\x{FEFF}]*(${anyOf(words)})${WORD_END}${nameScope ? '(?:[ \\t]+([\\p{L}\\p{N}][^ \\t"#,]*))?' : ''}`,
  end: '$',
  beginCaptures: { 1: { name: scope }, ...(nameScope ? { 2: { name: nameScope } } : {}) },
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
      line(byName(topHeads, true), 'keyword.control.head.soundwood', 'entity.name.type.soundwood'),
      line(byName(topHeads, false), 'keyword.control.head.soundwood'),
      line(byName(innerHeads, true), 'keyword.control.head.soundwood', 'entity.name.function.soundwood'),
      line(byName(innerHeads, false), 'keyword.control.head.soundwood'),
      line(fieldWords, 'support.type.property-name.soundwood'),
    ],
    repository: {
      comment: { name: 'comment.line.number-sign.soundwood', match: '#.*$' },
      values: {
        patterns: [
          { include: '#comment' },
          { name: 'string.quoted.double.soundwood', match: '"[^"]*(?:""[^"]*)*"' },
          { name: 'invalid.illegal.unclosed.soundwood', match: '"[^"]*$' },
          { name: 'string.quoted.single.cultivar.soundwood', match: "'[^']+'" },
          {
            name: 'string.unquoted.path.soundwood',
            match:
              '[\\p{L}\\p{N}./\\\\()_-]+\\.(?i:jpe?g|png|tiff?|heic|webp|dng|gif|pdf|svg|csv|txt|mp4|mov)(?![A-Za-z0-9])',
          },
          {
            name: 'constant.numeric.date.soundwood',
            match: '\\d{4}-\\d{2}-\\d{2}(?![\\w-])|\\d{2}-\\d{2}(?![\\w-])',
          },
          {
            match: `${WORD_START}([-+]?\\d+(?:\\.\\d+|/\\d+)?)(?:[ \\t]*(${anyOf(UNITS.flatMap(unitWords))})${WORD_END})?(?![\\p{L}\\p{N}_-])`,
            captures: {
              1: { name: 'constant.numeric.soundwood' },
              2: { name: 'keyword.other.unit.soundwood' },
            },
          },
          { name: 'keyword.operator.soundwood', match: '\\.\\.|[~<>×]' },
          { name: 'constant.language.unseen.soundwood', match: `${WORD_START}unseen${WORD_END}` },
          {
            name: 'constant.language.soundwood',
            match: `${WORD_START}(?:${anyOf(choices)})${WORD_END}`,
          },
          { name: 'constant.other.bearing.soundwood', match: `${WORD_START}(?:${bearings})${WORD_END}` },
          {
            name: 'keyword.other.soundwood',
            match: `${WORD_START}(?:${anyOf(FORM_WORDS)})${WORD_END}`,
          },
          {
            name: 'entity.name.tag.species.soundwood',
            match: '\\b\\p{Lu}\\p{Ll}{2,}(?:[ \\t]+[x×])?[ \\t]+\\p{Ll}[\\p{Ll}-]{2,}',
          },
        ],
      },
    },
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
