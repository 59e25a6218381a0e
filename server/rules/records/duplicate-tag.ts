import { formatDate } from '../../base/dates.ts';
import { UNREAD } from '../../facts/placed.ts';
import { treeOn } from '../../facts/state.ts';
import { siteOf, treeIndex } from '../../facts/workspace.ts';
import { NOTHING, type PlacedReport, type Rule, type WorkspaceContext } from '../rule.ts';

function* checkWorkspace({ workspace, today }: WorkspaceContext): Iterable<PlacedReport> {
  for (const [first, ...others] of treeIndex(workspace).doubled()) {
    const tag = first!.fact.tag.value;
    if (tag === UNREAD) continue;
    const site = siteOf(workspace, first!.path);
    for (const again of others) {
      const { start, end } = again.fact.tag;
      const gone = treeOn(first!.fact, today).felled?.value;
      yield {
        in: again,
        at: { start, end },
        grade: 'stated',
        subject: tag,
        message: `Another tree${site ? ` of ${site.name.value}` : ''} has the tag ${tag}${gone === undefined ? '' : `. It was felled on ${formatDate(gone)} and keeps its tag`}.`,
        remedy: 'Give each tree its own tag. If one tree is recorded twice, merge the two records.',
        related: [{ ...first!.fact.at, in: first!, message: `The first tree ${tag}.` }],
      };
    }
  }
}

export const duplicateTag: Rule = {
  name: 'duplicate-tag',
  group: 'records',
  level: 'error',
  summary: 'two trees on one site with the same tag',
  sources: [],
  explanation:
    'A tag identifies one tree on its site. The trees in all files of a site are compared. The first one by file and position keeps its tag, and every later one is reported. Files that belong to no site count as one site.',
  limitations:
    'Trees on different sites, which may have the same tag. A felled tree keeps its tag with its record.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'The same tag twice',
      text: `site "Fernhollow Court"

tree 14 "Lawn maple"
tree 15
tree 14 "Gate maple" #! stated
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
