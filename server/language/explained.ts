/** What can be explained by name: rules, limits, heads and fields; and the page on each. */

import { type FieldSpec, HEADS, type HeadSpec } from '../../grammar/fields.ts';
import { inUnit, unitOf } from '../base/quantity.ts';
import { findLimit, type LimitEntry, limits } from '../practice/limits.ts';
import { rulePage } from '../rules/reference.ts';
import { RULES, ruleNamed } from '../rules/registry.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';
import { entryText } from './terms.ts';

export interface NamedThing {
  readonly name: string;
  readonly kind: string;
  readonly summary: string;
}

const fieldsNamed = (name: string): readonly (readonly [string, FieldSpec])[] =>
  [...HEADS.values()].flatMap(head => {
    const field = head.fields.get(name);
    return field ? [[head.word, field] as const] : [];
  });

/** Each name once for each kind of thing that has it. */
export function namedThings(): readonly NamedThing[] {
  const heads = [...HEADS.values()];
  const fields = new Map(heads.flatMap(head => [...head.fields.values()].map(field => [field.word, field])));
  return [
    ...RULES.map(({ name, group, summary }) => ({ name, kind: `rule, ${group}`, summary })),
    ...limits.map(({ name, summary }) => ({ name, kind: 'limit', summary })),
    ...heads.map(({ word, summary }) => ({ name: word, kind: 'head', summary })),
    ...[...fields.values()].map(({ word, summary }) => ({
      name: word,
      kind: `field of ${fieldsNamed(word)
        .map(([head]) => head)
        .join(', ')}`,
      summary,
    })),
  ];
}

/** A page in Markdown on all that has this name; undefined if nothing has. */
export function pageOn(name: string): string | undefined {
  const rule = ruleNamed(name);
  const limit = findLimit(name);
  const head = HEADS.get(name);
  const pages = [
    ...(rule ? [rulePage(rule)] : []),
    ...(limit ? [limitPage(limit)] : []),
    ...(head ? [headPage(head)] : []),
    ...fieldPages(name),
  ];
  return pages.length > 0 ? `${pages.join('\n\n')}\n` : undefined;
}

function limitPage({ name, summary, direction, value, unit, rests, note, citation }: LimitEntry): string {
  const known = unitOf(unit);
  const amount = known ? inUnit(value, known, 2) : String(value);
  return paragraphs(
    `# ${escapeMarkdown(name)}`,
    `A limit: ${escapeMarkdown(`${summary}, ${direction} ${amount}`)}.`,
    note && escapeMarkdown(note),
    `Based on ${rests}${rests === 'practice' ? '' : ', so a practice block can only make it stricter'}. Hover over its name in a practice block to see the value that applies there.`,
    `Source: ${escapeMarkdown(`${citation.full} (${citation.confidence})`)}.`,
    `To change it:\n\n\`\`\`wood\npractice "..."\n  limit ${name} ${amount}\n    because "..."\n\`\`\``,
  );
}

const headPage = (head: HeadSpec): string =>
  paragraphs(
    `# ${escapeMarkdown(head.word)}`,
    head.under === undefined ? 'A head at the top level.' : `A head inside a ${head.under}.`,
    entryText(head),
    head.fields.size > 0 ? '## Fields' : undefined,
    ...[...head.fields.values()].map(entryText),
  );

/** Fields of one name in different heads may take different values. */
function fieldPages(name: string): readonly string[] {
  const texts = new Map<string, string[]>();
  for (const [head, field] of fieldsNamed(name)) {
    const text = entryText(field);
    texts.set(text, [...(texts.get(text) ?? []), head]);
  }
  return [...texts].map(([text, heads]) =>
    paragraphs(`# ${escapeMarkdown(name)}`, `A field of ${heads.join(', ')}.`, text),
  );
}
