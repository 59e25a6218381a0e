/** Holds a property over ordinary trees, and tells how often it fails and in which smallest trees. */

import fc from 'fast-check';
import { expect } from 'vitest';
import { type OrdinaryTree, showTree, withoutBlock, withoutLine } from './record.ts';
import { ordinaryTree, TREES } from './trees.ts';

/** What is wrong with a tree, in a sentence; undefined where nothing is, or where the property does not speak of it. */
export type Property = (tree: OrdinaryTree) => string | undefined | Promise<string | undefined>;

/** Of which kind a fault is: its first words up to a colon; one example of each is shown. */
const kindOf = (fault: string) => fault.split(':')[0]!;

const MOST_EXAMPLES = 5;

/** The same tree without all that the fault can do without. */
async function smallest(tree: OrdinaryTree, property: Property, kind: string): Promise<OrdinaryTree> {
  const stillFails = async (smaller: OrdinaryTree) => {
    const fault = await faultOf(smaller, property);
    return fault !== undefined && kindOf(fault) === kind;
  };
  let now = tree;
  for (let changed = true; changed; ) {
    changed = false;
    for (let block = now.blocks.length - 1; block >= 0; block--) {
      if (block > 0) {
        const smaller = withoutBlock(now, block);
        if (await stillFails(smaller)) {
          now = smaller;
          changed = true;
          continue;
        }
      }
      for (let line = now.blocks[block]!.lines.length - 1; line >= 0; line--) {
        const smaller = withoutLine(now, block, line);
        if (await stillFails(smaller)) {
          now = smaller;
          changed = true;
        }
      }
    }
  }
  return now;
}

async function faultOf(tree: OrdinaryTree, property: Property): Promise<string | undefined> {
  try {
    return await property(tree);
  } catch (error) {
    // One tree that fails must not hide the others.
    return `the program fails: ${(error as Error).message}`;
  }
}

interface Failures {
  readonly trees: number;
  /** By kind of fault: how many trees, and one of them made small. */
  readonly kinds: readonly { readonly kind: string; readonly count: number; readonly example: string }[];
}

async function failuresOf(property: Property): Promise<Failures> {
  const kinds = new Map<string, { count: number; tree: OrdinaryTree }>();
  const drawn = fc.sample(ordinaryTree, TREES);
  for (const tree of drawn) {
    const fault = await faultOf(tree, property);
    if (fault === undefined) continue;
    const known = kinds.get(kindOf(fault));
    if (known) known.count++;
    else kinds.set(kindOf(fault), { count: 1, tree });
  }
  const shown = [...kinds].sort(([, a], [, b]) => b.count - a.count).slice(0, MOST_EXAMPLES);
  const examples = [];
  for (const [kind, { count, tree }] of shown) {
    const small = await smallest(tree, property, kind);
    examples.push({ kind, count, example: `${await faultOf(small, property)}\n${showTree(small)}` });
  }
  const rest = [...kinds].filter(([kind]) => !shown.some(([one]) => one === kind));
  return {
    trees: drawn.length,
    kinds: [...examples, ...rest.map(([kind, { count }]) => ({ kind, count, example: '' }))],
  };
}

export async function holds(property: Property): Promise<void> {
  const { trees, kinds } = await failuresOf(property);
  const told = kinds.map(({ kind, count, example }) => `${count} of ${trees}: ${kind}\n${example}`);
  expect(told.join('\n')).toBe('');
}
