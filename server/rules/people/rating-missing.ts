import { called } from '../../assess/called.ts';
import { isOpen } from '../../assess/evidence.ts';
import { RATING_CAUTION } from '../../assess/risks.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (tree.felled) return;
  const open = tree.defects.filter(isOpen);
  if (open.length === 0) return;
  const rated = new Set(tree.risks.map(({ target }) => target.value));
  const defects = `${open.length === 1 ? 'defect' : 'defects'} ${listed(open.map(({ id }) => id.value))}`;
  for (const { at, name } of tree.targets) {
    if (rated.has(name.value)) continue;
    yield {
      at,
      grade: 'stated',
      subject: name.value,
      message: `${capital(called('target', name))}: no risk rating on record, although ${defects} ${open.length === 1 ? 'is' : 'are'} active.`,
      remedy: `Add a risk for ${called('target', name)} with its failure, impact, consequences and rating.`,
    };
  }
}

export const ratingMissing: Rule = {
  name: 'rating-missing',
  group: 'people',
  level: 'note',
  summary: 'a target under a tree with an active defect, with no risk rating',
  sources: [cite('bmp-risk-2017'), cite('a300-9')],
  explanation:
    'Checks standing trees with a defect that is neither closed nor healed and reports each target with no risk. Limits on wood and walls describe how weak a part is. Only a rating covers what that means for people and property below.',
  limitations: 'Surveys that only list trees, and targets recorded for the work site alone.',
  appliesTo: ['targets'],
  rests: 'practice',
  acceptable: true,
  caution: RATING_CAUTION,
  examples: [
    {
      title: 'A cavity over a play lawn, not rated; the shed is rated',
      text: `tree 33 "Swing oak"
  defect A cavity
    depth 8 in
  target "Play lawn" #! stated
    distance 12 ft
    occupied frequent
  target "Shed"
    distance 20 ft
    occupied rare
  risk "Shed" from A
    failure possible
    impact low
    consequences minor
    rating low
`,
    },
    {
      title: 'Closed or healed defects need no rating',
      text: `tree 34
  defect A crack
    closed 2026-01-29 "limb removed"
  defect B wound
    state healed
  target "Play lawn"
    distance 12 ft
    occupied frequent
`,
    },
  ],
  check,
};
