/** What the form of a line allows next, for completion and for fixes that insert a word. */

import { parseCompassPoint } from '../../grammar/bearing.ts';
import { type FormNode, UNITLESS, type ValueType } from '../../grammar/forms.ts';
import { readSpecies, type SpeciesPart } from '../../grammar/species.ts';
import type { Item, LineSyntax } from '../../grammar/syntax.ts';

export type ExpectedNext =
  | { readonly kind: 'word'; readonly words: string; readonly name: string | undefined }
  | { readonly kind: 'comma' }
  | { readonly kind: 'value'; readonly name: string; readonly type: ValueType }
  /** The number before the cursor has no unit yet. */
  | { readonly kind: 'unit'; readonly type: ValueType };

/** What the form allows after the items of the line from `firstItem` on. */
export function expectedAfter(line: LineSyntax, firstItem: number, form: FormNode): readonly ExpectedNext[] {
  const walk = new FormWalker(line);
  walk.ends(form, new Set([firstItem]));
  return walk.found;
}

/** Follows every reading of the items in parallel, and collects what each allows at the end of the line. */
class FormWalker {
  readonly found: ExpectedNext[] = [];
  private readonly seen = new Set<string>();

  constructor(private readonly line: LineSyntax) {}

  ends(node: FormNode, from: ReadonlySet<number>): ReadonlySet<number> {
    const out = new Set<number>();
    for (const at of from) for (const end of this.from(node, at)) out.add(end);
    return out;
  }

  private from(node: FormNode, at: number): readonly number[] {
    switch (node.kind) {
      case 'literal':
        return this.words(node.word, undefined, at);
      case 'choice':
        return node.words.flatMap(words => this.words(words, node.name, at));
      case 'comma':
        if (this.atEnd(at)) return this.note({ kind: 'comma' });
        return this.items[at]!.kind === 'comma' ? [at + 1] : [];
      case 'value':
        return this.value(node.name, node.type, at);
      case 'sequence': {
        let ends: ReadonlySet<number> = new Set([at]);
        for (const part of node.nodes) ends = this.ends(part, ends);
        return [...ends];
      }
      case 'optional':
        return [at, ...this.from(node.node, at)];
      case 'either':
        return node.nodes.flatMap(part => this.from(part, at));
      case 'repeat': {
        const all = new Set([at]);
        let latest: ReadonlySet<number> = new Set([at]);
        while (latest.size > 0) {
          const next = [...this.ends(node.node, latest)].filter(end => !all.has(end));
          for (const end of next) all.add(end);
          latest = new Set(next);
        }
        return [...all];
      }
      case 'anyOrder': {
        const all = new Set([at]);
        node.nodes.forEach((part, i) => {
          const others = node.nodes.filter((_, j) => j !== i);
          for (const end of this.from(part, at)) {
            all.add(end);
            if (others.length > 0)
              for (const further of this.from({ kind: 'anyOrder', nodes: others }, end)) all.add(further);
          }
        });
        return [...all];
      }
    }
  }

  private get items(): readonly Item[] {
    return this.line.items;
  }

  private atEnd(at: number): boolean {
    return at === this.items.length;
  }

  private note(expected: ExpectedNext): readonly number[] {
    const key = JSON.stringify(expected);
    if (!this.seen.has(key)) {
      this.seen.add(key);
      this.found.push(expected);
    }
    return [];
  }

  private words(words: string, name: string | undefined, at: number): readonly number[] {
    const parts = words.split(' ');
    for (let i = 0; i < parts.length; i++) {
      if (this.atEnd(at + i)) return this.note({ kind: 'word', words: parts.slice(i).join(' '), name });
      const item = this.items[at + i]!;
      if (item.kind !== 'word' || item.text !== parts[i]) return [];
    }
    return [at + parts.length];
  }

  private value(name: string, type: ValueType, at: number): readonly number[] {
    if (this.atEnd(at)) return this.note({ kind: 'value', name, type });
    const item = this.items[at]!;
    switch (type) {
      case 'date':
      case 'window':
        return item.kind === 'date' ? [at + 1] : [];
      case 'monthDays':
        return item.kind === 'monthDays' ? [at + 1] : [];
      case 'text':
        return item.kind === 'text' ? [at + 1] : [];
      case 'path':
        return item.kind === 'path' || item.kind === 'text' ? [at + 1] : [];
      case 'name':
      case 'region':
      case 'rule':
      case 'limit':
        return this.touching(at);
      case 'species':
        return this.species(at);
      case 'bearing':
        if (item.kind === 'word') return parseCompassPoint(item.text) === undefined ? [] : [at + 1];
        return this.quantity(item, at, 'angle');
      default:
        if (item.kind === 'word') return item.text === 'unseen' ? [at + 1] : [];
        return this.quantity(item, at, type);
    }
  }

  private quantity(item: Item, at: number, type: ValueType): readonly number[] {
    if (item.kind !== 'quantity') return [];
    const { unit, dimension } = item.quantity;
    if (unit) return dimension === type ? [at + 1] : [];
    if (!UNITLESS.has(type) && this.atEnd(at + 1)) return this.note({ kind: 'unit', type });
    // 0 needs no unit, and `28 x 24 in` states it once.
    return [at + 1];
  }

  private touching(at: number): readonly number[] {
    let next = at;
    while (!this.atEnd(next) && this.items[next]!.kind !== 'comma' && this.items[next]!.kind !== 'text') {
      if (next > at && this.items[next]!.start !== this.items[next - 1]!.end) break;
      next++;
    }
    return next > at ? [next] : [];
  }

  private species(at: number): readonly number[] {
    const parts: SpeciesPart[] = [];
    for (let i = at; i < this.items.length; i++) {
      const item = this.items[i]!;
      if (item.kind !== 'word' && item.kind !== 'cultivar') break;
      parts.push(item as SpeciesPart);
    }
    const read = readSpecies(parts);
    return read ? [at + read.length] : [];
  }
}
