/** Changes in a block, in the words of the notation: new, removed and closed records, changed fields. */

import { ENDING_FIELDS } from '../../grammar/fields.ts';
import { lineMeaning, valueMeaning } from '../../grammar/meaning.ts';
import { isNaming, namedHeads, namesReadAgain } from '../../grammar/names.ts';
import type { Block, Line } from '../../grammar/syntax.ts';
import { printValues } from '../../grammar/tidy.ts';

/** Fields that end a record. */
type Ending = 'closed' | 'withdrawn';
const isEnding = (word: string): word is Ending => ENDING_FIELDS.has(word);

export interface FieldChange {
  /** The record: `defect A`; empty for the tree, site or person itself. */
  readonly record: string;
  /** The field: `diameter`; empty where the whole record is new or removed. */
  readonly field: string;
  /** `closed` and `withdrawn`: the record is kept and marked as ended. */
  readonly kind: 'new' | 'gone' | 'changed' | Ending;
  /** In canonical format; absent where there was nothing. */
  readonly before?: string;
  readonly after?: string;
}

interface PrintedField {
  readonly word: string;
  readonly meaning: string;
  readonly text: string;
}

interface PrintedRecord {
  readonly name: string;
  readonly fields: readonly PrintedField[];
}

/** Changes between two states of a block; ignores order, formatting, units and comments. */
export function blockChanges(before: Block, after: Block): readonly FieldChange[] {
  const again = new Set([...namesReadAgain(before), ...namesReadAgain(after)]);
  const [first, ...earlier] = recordsOf(before, again);
  const [now, ...later] = recordsOf(after, again);
  const changes = [...fieldChanges('', first?.fields ?? [], now?.fields ?? [])];
  const old = new Map(earlier.map(record => [record.name, record]));
  const kept = new Set<string>();
  for (const { name, fields } of later) {
    const same = old.get(name);
    kept.add(name);
    if (same) changes.push(...fieldChanges(name, same.fields, fields));
    else changes.push({ record: name, field: '', kind: 'new', after: summary(fields) });
  }
  for (const { name, fields } of earlier) {
    if (!kept.has(name)) changes.push({ record: name, field: '', kind: 'gone', before: summary(fields) });
  }
  return changes;
}

/** One change per record of a block that is entirely new or removed. */
export const recordChanges = (block: Block, kind: 'new' | 'gone'): readonly FieldChange[] =>
  recordsOf(block)
    .slice(1)
    .map(({ name, fields }) => ({
      record: name,
      field: '',
      kind,
      ...(kind === 'new' ? { after: summary(fields) } : { before: summary(fields) }),
    }));

/** Fields of the block itself, without its records. */
export const blockSummary = (block: Block): string => summary(recordsOf(block)[0]?.fields ?? []);

const summary = (fields: readonly PrintedField[]): string =>
  fields.map(({ word, text }) => (text === '' ? word : `${word} ${text}`)).join('; ');

function recordsOf(block: Block, again?: ReadonlySet<string>): readonly PrintedRecord[] {
  return namedHeads(block, again).map(({ name, line }, i) => {
    const head = block.lines[line]!;
    const fields = block.sections[i]!.fields.map(index => fieldOf(block.lines[index]!));
    return { name, fields: [...headFields(head), ...fields] };
  });
}

const fieldOf = (line: Line): PrintedField =>
  line.mistake
    ? { word: line.word ?? '', meaning: lineMeaning(line), text: `(${line.syntax.text.trim()})` }
    : { word: line.word ?? '', meaning: lineMeaning(line), text: printValues(line) };

/** Values in a head other than its name: the kind of a defect, the name of a tree. */
const headFields = ({ word, values, syntax }: Line): readonly PrintedField[] =>
  values
    .filter(value => word !== undefined && !isNaming(word, value))
    .map(value => ({
      word: value.name,
      meaning: valueMeaning(value),
      text: syntax.text.slice(value.start, value.end),
    }));

function fieldChanges(
  record: string,
  before: readonly PrintedField[],
  after: readonly PrintedField[],
): readonly FieldChange[] {
  const changes: FieldChange[] = [];
  const words = new Set([...after, ...before].map(({ word }) => word));
  for (const word of words) {
    const [gone, come] = [of(before, word, after), of(after, word, before)];
    for (let i = 0; i < Math.max(gone.length, come.length); i++) {
      const [old, now] = [gone[i], come[i]];
      changes.push({
        record,
        field: word,
        kind: old ? (now ? 'changed' : 'gone') : isEnding(word) ? word : 'new',
        ...(old ? { before: old.text } : {}),
        ...(now ? { after: now.text } : {}),
      });
    }
  }
  return changes;
}

/** Multiset difference: fields with this word that `others` lacks. */
function of(
  fields: readonly PrintedField[],
  word: string,
  others: readonly PrintedField[],
): readonly PrintedField[] {
  const known = new Map<string, number>();
  for (const other of others) {
    if (other.word === word) known.set(other.meaning, (known.get(other.meaning) ?? 0) + 1);
  }
  return fields.filter(field => {
    if (field.word !== word) return false;
    const left = known.get(field.meaning) ?? 0;
    known.set(field.meaning, left - 1);
    return left <= 0;
  });
}
