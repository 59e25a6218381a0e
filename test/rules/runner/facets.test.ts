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
  'pull tests': tree => ({ ...tree, pullTests: [] }),
  views: tree => ({ ...tree, views: [] }),
  prescriptions: tree => ({ ...tree, prescriptions: [] }),
  works: tree => ({ ...tree, works: [] }),
  'follow-ups': tree => ({ ...tree, followUps: [] }),
  dead: tree => ({ ...tree, vigor: undefined }),
  lean: tree => ({ ...tree, lean: undefined }),
  condition: tree => ({ ...tree, soil: undefined, dieback: undefined }),
  photos: tree => ({
    ...tree,
    photos: [],
    inspections: tree.inspections.map(one => ({ ...one, photos: [] })),
    defects: tree.defects.map(one => ({ ...one, photos: [] })),
    nestChecks: tree.nestChecks.map(one => ({ ...one, photos: [] })),
    drillings: tree.drillings.map(one => ({ ...one, traces: [] })),
  }),
  'dated sizes': tree => ({
    ...tree,
    inspections: tree.inspections.map(one => ({
      ...one,
      height: undefined,
      crownSpread: undefined,
      diameters: [],
    })),
    works: tree.works.map(one => ({ ...one, height: undefined, spread: undefined })),
  }),
  'repeated fields': tree => ({ ...tree, repeated: undefined }),
  felled: tree => ({ ...tree, felled: undefined }),
  stressed: tree => ({ ...tree, stressed: undefined }),
  permits: tree => ({
    ...tree,
    protection: undefined,
    prescriptions: tree.prescriptions.map(one => ({ ...one, permit: undefined })),
  }),
  'several prescriptions': tree => ({ ...tree, prescriptions: tree.prescriptions.slice(0, 1) }),
  watching: withoutKinds('watch'),
  felling: withoutKinds('fell', 'monolith'),
  'crown changes': tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(one => ({
      ...one,
      height: undefined,
      spread: undefined,
      base: undefined,
    })),
  }),
  methods: tree => ({ ...tree, prescriptions: tree.prescriptions.map(one => ({ ...one, methods: [] })) }),
  'painted cuts': tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(one => ({ ...one, paint: undefined })),
  }),
  'measured cuts': tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(one => ({ ...one, cutDiameter: undefined, laterals: undefined })),
    works: tree.works.map(one => ({ ...one, cutDiameter: undefined, laterals: undefined })),
  }),
  pieces: tree => ({
    ...tree,
    prescriptions: tree.prescriptions.map(one => ({ ...one, piece: undefined })),
  }),
  flights: tree => ({
    ...tree,
    inspections: tree.inspections.filter(({ from, flown }) => from.value !== 'drone' && !flown),
  }),
};

describe('a rule says nothing about a tree that has nothing of what it looks at', () => {
  for (const rule of RULES) {
    const { appliesTo } = rule;
    if (appliesTo === undefined) continue;
    it(rule.name, () => {
      expect(contexts.length).toBeGreaterThan(100);
      for (const context of contexts) {
        const own: Tree = { ...context.tree, written: undefined };
        const tree = appliesTo.reduce((left, facet) => WITHOUT[facet](left), own);
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
