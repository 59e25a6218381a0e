/**
 * The form of a line, written once as people would write it (`from <base:length> [, <spread:length> wide]`)
 * and compiled into a small tree. Reading, completion, hover and the reference all use the same form.
 *
 *   word           stands for itself          <name:type>    a value, kept under its name
 *   [ ... ]        may be left out            ( a | b )      one of these
 *   { ... }        none, one or several       <name:a|b c>   one of these words
 *                                             <name:person>  the name of a person, as a person head declares it
 *
 * Neighbouring optional parts that begin with a comma may come in any order.
 */

import type { Dimension } from '../server/base/quantity.ts';
import type { NameKind } from './entries.ts';

export type ValueType =
  | Exclude<Dimension, 'number'>
  /** A number without unit: a ratio, a count. */
  | 'number'
  | 'date'
  | 'window'
  | 'monthDays'
  | 'text'
  | 'path'
  /** The user's own name for something: letters, digits and - . _ / without spaces. */
  | 'name'
  | 'species'
  | 'bearing'
  | 'region'
  | 'rule'
  | 'limit';

/** Types of values that refer to a head: how they are written, and which kinds of name they may be. */
export const REFERENCES = {
  person: { written: 'name', means: ['person'] },
  crew: { written: 'name', means: ['crew'] },
  prescription: { written: 'name', means: ['prescription'] },
  part: { written: 'name', means: ['part'] },
  defect: { written: 'name', means: ['defect'] },
  target: { written: 'text', means: ['target'] },
  /** What a record is about. */
  cause: { written: 'name', means: ['defect', 'part'] },
  /** What an exception is for, where that has a name: it may be for anything that a finding is about. */
  subject: { written: 'name', means: ['defect', 'prescription'] },
} as const satisfies Readonly<
  Record<string, { readonly written: 'name' | 'text'; readonly means: readonly NameKind[] }>
>;
export type Reference = keyof typeof REFERENCES;

/** A value of a form. */
export type FormValue =
  | {
      readonly kind: 'value';
      readonly name: string;
      readonly type: ValueType;
      readonly refers: Reference | undefined;
    }
  | {
      readonly kind: 'choice';
      readonly name: string;
      readonly words: readonly string[];
      /** The same, split into words, by their first word. */
      readonly byFirst: ReadonlyMap<string, readonly (readonly string[])[]>;
    };

export type FormNode =
  | { readonly kind: 'literal'; readonly word: string }
  | { readonly kind: 'comma' }
  | FormValue
  | { readonly kind: 'sequence'; readonly nodes: readonly FormNode[] }
  | { readonly kind: 'optional'; readonly node: FormNode }
  | { readonly kind: 'anyOrder'; readonly nodes: readonly FormNode[] }
  | { readonly kind: 'repeat'; readonly node: FormNode }
  | { readonly kind: 'either'; readonly nodes: readonly FormNode[] };

/** Values that are written in a unit. */
export const DIMENSIONS: ReadonlySet<string> = new Set([
  'length',
  'share',
  'angle',
  'speed',
  'mass',
  'force',
  'duration',
  'voltage',
] satisfies Exclude<Dimension, 'number'>[]);

/** Values without one. */
const UNITLESS: ReadonlySet<string> = new Set([
  'number',
  'date',
  'window',
  'monthDays',
  'text',
  'path',
  'name',
  'species',
  'bearing',
  'region',
  'rule',
  'limit',
] satisfies ValueType[]);

const isReference = (type: string): type is Reference => Object.hasOwn(REFERENCES, type);
const isValueType = (type: string): type is ValueType => DIMENSIONS.has(type) || UNITLESS.has(type);

/** Compiles a form. Throws where the form itself is wrong: a mistake of ours that any test run shows. */
export function compileForm(form: string): FormNode {
  const parts = form.match(/<[^>]*>|[[\](){}|,]|[^\s[\](){}|,<>]+/g) ?? [];
  let index = 0;
  const sequence = (until: string | undefined): FormNode => {
    const alternatives: FormNode[][] = [[]];
    for (;;) {
      const part = parts[index];
      if (part === until) break;
      if (part === undefined) throw new Error(`The form "${form}" lacks ${until}.`);
      index++;
      const nodes = alternatives[alternatives.length - 1]!;
      if (part === '|') alternatives.push([]);
      else nodes.push(node(part));
    }
    index++;
    const built = alternatives.map(nodes => groupOptionals(nodes));
    return built.length === 1 ? built[0]! : { kind: 'either', nodes: built };
  };
  const node = (part: string): FormNode => {
    if (part === '[') return { kind: 'optional', node: sequence(']') };
    if (part === '{') return { kind: 'repeat', node: sequence('}') };
    if (part === '(') return sequence(')');
    if (part === ',') return { kind: 'comma' };
    if (part.startsWith('<')) return value(part.slice(1, -1));
    return { kind: 'literal', word: part };
  };
  const value = (inner: string): FormNode => {
    const colon = inner.indexOf(':');
    const name = inner.slice(0, colon);
    const type = inner.slice(colon + 1);
    if (isValueType(type)) return { kind: 'value', name, type, refers: undefined };
    if (isReference(type)) return { kind: 'value', name, type: REFERENCES[type].written, refers: type };
    const words = type.split('|');
    return { kind: 'choice', name, words, byFirst: byFirstWord(words) };
  };
  return sequence(undefined);
}

function byFirstWord(choices: readonly string[]): ReadonlyMap<string, readonly (readonly string[])[]> {
  const byFirst = new Map<string, (readonly string[])[]>();
  for (const words of choices.map(text => text.split(' '))) {
    const begun = byFirst.get(words[0]!);
    if (begun) begun.push(words);
    else byFirst.set(words[0]!, [words]);
  }
  return byFirst;
}

/** Calls `take` with every fixed word, comma and value of a form. */
export function eachLeaf(node: FormNode, take: (leaf: FormNode) => void): void {
  if ('nodes' in node) for (const inner of node.nodes) eachLeaf(inner, take);
  else if ('node' in node) eachLeaf(node.node, take);
  else take(node);
}

/** A form for people: values by their names in plain words, a value of one fixed word as that word. */
export const shownForm = (form: string): string =>
  form.replace(/<(\w+):([^>]*)>/g, (_, name: string, type: string) =>
    type.includes('|') || isValueType(type) || isReference(type)
      ? `<${name.replace(/[A-Z]/g, letter => ` ${letter.toLowerCase()}`)}:${type}>`
      : type,
  );

function startsWithComma(node: FormNode): boolean {
  if (node.kind !== 'optional') return false;
  const inner = node.node;
  return inner.kind === 'sequence' && inner.nodes[0]?.kind === 'comma';
}

function groupOptionals(nodes: readonly FormNode[]): FormNode {
  const grouped: FormNode[] = [];
  let run: FormNode[] = [];
  const flush = () => {
    if (run.length > 1)
      grouped.push({
        kind: 'anyOrder',
        nodes: run.map(node => (node.kind === 'optional' ? node.node : node)),
      });
    else grouped.push(...run);
    run = [];
  };
  for (const node of nodes) {
    if (startsWithComma(node)) run.push(node);
    else {
      flush();
      grouped.push(node);
    }
  }
  flush();
  return grouped.length === 1 ? grouped[0]! : { kind: 'sequence', nodes: grouped };
}
