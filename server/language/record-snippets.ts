/** Whole records as LSP snippets: a head with the fields that most records of it need. */

import { parseBlock } from '../../grammar/blocks.ts';
import { type FieldSpec, HEADS, type HeadSpec } from '../../grammar/fields.ts';
import type { Line, Value } from '../../grammar/syntax.ts';
import { formatDate } from '../base/dates.ts';
import { choiceOf, escapeSnippet } from './snippet.ts';

interface SnippetOfRecord {
  readonly fields: readonly string[];
  /** A head inside it. */
  readonly inside?: string;
}

/** The fields that the rules expect. */
const RECORDS: Readonly<Record<string, SnippetOfRecord>> = {
  site: { fields: ['region', 'position', 'wind', 'interval'] },
  person: { fields: ['qualified'] },
  crew: { fields: ['members', 'rope'] },
  practice: { fields: ['note'] },
  tree: {
    fields: ['species', 'position', 'dbh', 'height', 'crown', 'age', 'vigor'],
    inside: 'inspection',
  },
  limit: { fields: ['because'] },
  season: { fields: ['because'] },
  approach: { fields: ['because'] },
  severity: { fields: ['because'] },
  inspection: { fields: ['by', 'level', 'unseen'] },
  stem: { fields: ['from', 'diameter', 'union'] },
  limb: { fields: ['from', 'diameter', 'length', 'union'] },
  defect: { fields: ['on', 'diameter', 'opening', 'depth', 'wall'] },
  joined: { fields: ['note'] },
  target: { fields: ['distance', 'occupied', 'kind'] },
  risk: { fields: ['failure', 'impact', 'consequences', 'rating'] },
  conductor: { fields: ['voltage', 'distance', 'height'] },
  drilling: { fields: ['by', 'wall'] },
  tomogram: { fields: ['by', 'sound'] },
  'nest check': { fields: ['by', 'stand-off', 'found'] },
  'bat check': { fields: ['by', 'found'] },
  'pull test': { fields: ['by', 'force', 'rope', 'inclination', 'soil'] },
  support: { fields: ['holds', 'fixed', 'rated', 'installed', 'inspected'] },
  view: { fields: ['eye', 'hide'] },
  prescription: { fields: ['dose', 'cuts', 'method', 'between', 'priority', 'because'] },
  work: { fields: ['by', 'dose'] },
  'follow-up': { fields: ['of', 'due', 'because'] },
  accept: { fields: ['until', 'by', 'because'] },
};

/**
 * The placeholder of a tab stop. Never a figure or a reason that could pass for evidence: a quantity is unseen, a text
 * is empty, and anything else shows the name of the value, which every check rejects.
 */
function placeholder(value: Value, spec: FieldSpec, example: string, stop: number, today: number): string {
  const known = spec.values.get(value.name);
  if (known?.kind === 'choice') return `\${${stop}${choiceOf(value.name, known.words)}}`;
  if (value.type === 'text' && example.startsWith('"')) return `"$${stop}"`;
  if (value.type === 'quantity' && value.quantity.dimension !== 'number') return `\${${stop}:unseen}`;
  if (value.type === 'dates' && value.from === value.to) return `\${${stop}:${formatDate(today)}}`;
  return `\${${stop}:${escapeSnippet(value.name)}}`;
}

/** A line of a block as a template, with a tab stop for each value. */
function template(read: Line, spec: FieldSpec, nextStop: () => number, today: number): string {
  const { text } = read.syntax;
  let at = 0;
  let written = '';
  for (const value of [...read.values].sort((a, b) => a.start - b.start)) {
    written += escapeSnippet(text.slice(at, value.start));
    written += placeholder(value, spec, text.slice(value.start, value.end), nextStop(), today);
    at = value.end;
  }
  return written + escapeSnippet(text.slice(at));
}

/** The parent line that the example of a head needs to be read. */
const parentLine = (head: HeadSpec) => (head.under ? `${HEADS.get(head.under)!.example}\n` : '');

function lines(head: HeadSpec, today: number, nextStop: () => number): readonly string[] {
  const { fields, inside } = RECORDS[head.word]!;
  const specs = [head, ...fields.map(word => head.fields.get(word)!)];
  const read = parseBlock(`${parentLine(head)}${specs.map(({ example }) => example).join('\n')}`).lines;
  const own = read.slice(read.length - specs.length);
  return [
    ...specs.map((spec, i) => `${i === 0 ? '' : '  '}${template(own[i]!, spec, nextStop, today)}`),
    ...(inside === undefined ? [] : lines(HEADS.get(inside)!, today, nextStop).map(line => `  ${line}`)),
  ];
}

/** @param today day number, the default of dates */
export function recordSnippet(head: HeadSpec, today: number): string {
  let stop = 0;
  return lines(head, today, () => ++stop).join('\n');
}

/** What the record has below its head, for people: `by, level, unseen`. */
export function recordContent({ word }: HeadSpec): string {
  const { fields, inside } = RECORDS[word]!;
  return [...fields, ...(inside === undefined ? [] : [inside])].join(', ');
}
