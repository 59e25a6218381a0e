import { describe, expect, it } from 'vitest';
import type { Tree } from '../../../server/facts/types.ts';
import { buildWorkspace, readFile, withPhotos } from '../../../server/facts/workspace.ts';
import { treeContext } from '../../../server/rules/check.ts';
import { examplePhotos } from '../../../server/rules/example-photos.ts';
import { concerns, type Facet, facetsOf } from '../../../server/rules/facets.ts';
import { RULES } from '../../../server/rules/registry.ts';

/** 2026-06-01. */
const TODAY = 20605;

const contexts = RULES.flatMap(({ examples }) => examples).flatMap(example => {
  const file = readFile('example.wood', example.text);
  const workspace = withPhotos(buildWorkspace([file]), examplePhotos(example) ?? new Map());
  return file.trees.map(({ fact }) => treeContext(workspace, file, fact, TODAY));
});

const withoutKinds =
  (...kinds: readonly string[]) =>
  (tree: Tree): Tree => ({
    ...tree,
    prescriptions: tree.prescriptions.filter(({ kind }) => !kinds.includes(kind.value)),
  });

const WITHOUT: Record<Facet, (tree: Tree) => Tree> = {
  defects: tree => ({ ...tree, defects: [] }),
  joined: tree => ({ ...tree, joined: [] }),
  parts: tree => ({ ...tree, parts: [] }),
  targets: tree => ({ ...tree, targets: [] }),
  risks: tree => ({ ...tree, risks: [] }),
  conductors: tree => ({ ...tree, conductors: [] }),
  'nest checks': tree => ({ ...tree, nestChecks: [] }),
  nests: tree => ({
    ...tree,
    nestChecks: tree.nestChecks.map(one => ({
      ...one,
      found: one.found.filter(({ use }) => use !== 'active' && use !== 'unclear'),
    })),
  }),
  'bat checks': tree => ({ ...tree, batChecks: [] }),
  views: tree => ({ ...tree, views: [] }),
  prescriptions: tree => ({ ...tree, prescriptions: [] }),
  works: tree => ({ ...tree, works: [] }),
  'follow-ups': tree => ({ ...tree, followUps: [] }),
  dead: ({ vigor: _vigor, ...tree }) => tree,
  lean: ({ lean: _lean, ...tree }) => tree,
  soil: ({ soil: _soil, ...tree }) => tree,
  photos: tree => ({
    ...tree,
    photos: [],
    inspections: tree.inspections.map(one => ({ ...one, photos: [] })),
    defects: tree.defects.map(one => ({ ...one, photos: [] })),
    nestChecks: tree.nestChecks.map(one => ({ ...one, photos: [] })),
  }),
  'dated sizes': tree => ({
    ...tree,
    inspections: tree.inspections.map(({ height: _height, ...one }) => ({ ...one, diameters: [] })),
    works: tree.works.map(({ height: _height, ...one }) => one),
  }),
  'repeated fields': ({ repeated: _repeated, ...tree }) => tree,
  felled: ({ felled: _felled, ...tree }) => tree,
  stressed: ({ stressed: _stressed, ...tree }) => tree,
  permits: ({ protection: _protection, ...tree }) => ({
    ...tree,
    prescriptions: tree.prescriptions.map(({ permit: _permit, ...one }) => one),
  }),
  'several prescriptions': tree => ({ ...tree, prescriptions: tree.prescriptions.slice(0, 1) }),
  watching: withoutKinds('watch'),
  felling: withoutKinds('fell', 'monolith'),
  'crown changes': tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(({ height: _height, spread: _spread, base: _base, ...one }) => one),
  }),
  methods: tree => ({ ...tree, prescriptions: tree.prescriptions.map(one => ({ ...one, methods: [] })) }),
  'painted cuts': tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(({ painted: _painted, ...one }) => one),
  }),
  'measured cuts': tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(({ cutDiameter: _cut, laterals: _laterals, ...one }) => one),
    works: tree.works.map(({ cutDiameter: _cut, laterals: _laterals, ...one }) => one),
  }),
  pieces: tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(({ piece: _piece, ...one }) => one),
  }),
  flights: tree => ({
    ...tree,
    inspections: tree.inspections.filter(({ from, flown }) => from !== 'drone' && !flown),
  }),
};

describe('a rule says nothing about a tree that has nothing of what it looks at', () => {
  for (const rule of RULES) {
    const { appliesTo } = rule;
    if (appliesTo === undefined) continue;
    it(rule.name, () => {
      expect(contexts.length).toBeGreaterThan(100);
      for (const context of contexts) {
        const tree = appliesTo.reduce((left, facet) => WITHOUT[facet](left), context.tree);
        expect(concerns(rule, facetsOf(tree))).toBe(false);
        expect([...rule.check({ ...context, tree })]).toEqual([]);
      }
    });
  }
});

it('a tree has the facets that its records give it', () => {
  for (const { tree } of contexts) {
    for (const [facet, without] of Object.entries(WITHOUT) as [Facet, (tree: Tree) => Tree][]) {
      const lost = facetsOf(tree) & ~facetsOf(without(tree));
      const asks = { ...RULES[0]!, appliesTo: [facet] };
      expect(lost !== 0).toBe(concerns(asks, facetsOf(tree)));
    }
  }
});
