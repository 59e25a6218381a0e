import type { WrittenTree } from '../../facts/types.ts';
import { type PlacedFact, treeIndex } from '../../facts/workspace.ts';
import { cite } from '../../practice/citation.ts';
import { NOTHING, type PlacedReport, type Rule, type WorkspaceContext } from '../rule.ts';

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  for (const { former, trees } of treeIndex(workspace).reused()) {
    const { value, start, end } = former;
    const [tree, other] = trees as readonly [PlacedFact<WrittenTree>, PlacedFact<WrittenTree>];
    yield {
      in: tree,
      at: { start, end },
      grade: 'stated',
      subject: value,
      message: `Tree ${tree.fact.tag.value} was formerly ${value}, and another tree now has the tag ${value}. In older documents the two can be confused.`,
      remedy: `Give the tree that now has ${value} a tag that was never used.`,
      related: [{ ...other.fact.at, in: other, message: `Tree ${value} of today` }],
    };
  }
}

export const tagReuse: Rule = {
  name: 'tag-reuse',
  group: 'records',
  level: 'warning',
  summary: 'a former tag of one tree that another tree now has',
  sources: [cite('practice')],
  explanation:
    'Compares the former tags of each tree with the tags in use on its site. Reports, permits and photographs keep the tag of their date, so a reused tag sends a crew to the wrong tree.',
  limitations: 'Trees on different sites.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'L-1 is in use again',
      text: `site "Fernhollow Court"

tree S-01
  formerly L-1 #! stated

tree L-1
`,
    },
    {
      title: 'Not in use',
      text: `site "Fernhollow Court"

tree S-01
  formerly L-1

tree S-02
  formerly L-2
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
