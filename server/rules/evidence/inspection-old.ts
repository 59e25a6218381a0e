import { showCount } from '../../assess/days.ts';
import { lastLook, openDefects } from '../../assess/evidence.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { type Quantity, showQuantity } from '../../base/quantity.ts';
import type { Setting } from '../../facts/settings.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** The interval of the site, where it applies: a practice block overrides the site, and the site the table. */
function siteInterval({ site }: TreeContext, limit: Setting): Quantity | undefined {
  const interval = site?.interval?.value;
  return interval && limit.origin.from !== 'practice' && Number.isFinite(interval.high)
    ? interval
    : undefined;
}

function check(context: TreeContext): readonly RuleReport[] {
  const { tree, site, settings, today } = context;
  if (tree.felled) return NOTHING;
  const last = lastLook(tree, today);
  if (!last) return NOTHING;
  const limit = settings.limit('inspection-interval-sound');
  const ofSite = siteInterval(context, limit);
  const age = today - last.day;
  if (age <= (ofSite?.high ?? limit.value)) return NOTHING;
  const defects = openDefects(tree);
  // reinspection-overdue covers the shorter interval of trees with a defect.
  if (defects.length > 0 && age > settings.limit('inspection-interval').value) return NOTHING;
  const interval = ofSite
    ? `${showQuantity(ofSite)} (${site!.name.value})`
    : `${showNumber(limit.value, limit, 1)} (${authority(limit)})`;
  const matters =
    tree.targets.length > 0 || defects.length > 0 || openPrescriptionsOfAnyKind(tree).length > 0;
  return [
    {
      at: spanOf(last),
      grade: 'exceeds',
      level: matters ? 'warning' : 'note',
      subject: formatDate(last.day),
      message: `The last inspection, on ${formatDate(last.day)}, was ${showCount(age)} ago. The interval here is ${interval}.`,
      remedy: 'Inspect the tree and record the inspection, with vantage point and inspector.',
    },
  ];
}

export const inspectionOld: Rule = {
  name: 'inspection-old',
  group: 'evidence',
  level: 'warning',
  summary: 'a tree whose last inspection is older than the interval for its site',
  sources: [cite('practice')],
  explanation:
    'Compares the age of the last inspection with the inspection interval. A re-inspection or climbing inspection completed as a follow-up counts too. The interval is the limit inspection-interval-sound where a practice block sets it, otherwise the interval of the site, otherwise the value in the table. The finding is a warning where the tree has a target, an active defect or an open prescription, otherwise a note. Trees with an active defect that are past the shorter limit inspection-interval are reported by reinspection-overdue.',
  limitations: 'Trees with no inspection on record. Felled trees.',
  acceptable: true,
  examples: [
    {
      title: 'Two and a half years, with and without a target',
      text: `site "Wren Park"
  interval 24 months

tree 311
  inspection 2023-10-03 from ground #! warning exceeds
  target "Bandstand"
    distance 5 m

tree 312
  inspection 2023-10-03 from ground #! note exceeds
`,
    },
    {
      title: 'A longer interval set by practice',
      text: `site "Wren Park"
  interval 24 months

practice "Wood edge"
  limit inspection-interval-sound 60 months
    because "few people"

tree 313
  inspection 2023-10-03 from ground
`,
    },
    {
      title: 'Re-inspected as a follow-up; felled; a defect, covered by another rule',
      text: `site "Wren Park"
  interval 24 months

tree 314
  inspection 2023-10-03 from ground
  follow-up F1 re-inspection
    due 2025-06-01
    done 2025-05-20

tree 315
  felled 2025-02-01
  inspection 2021-10-03 from ground

tree 316
  inspection 2023-10-03 from ground
  defect A crack
`,
    },
  ],
  check,
};
