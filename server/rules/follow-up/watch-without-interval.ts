import { followUpWords, openFollowUps } from '../../assess/evidence.ts';
import { openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { followUp } from '../records-to-fill.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (tree.prescriptions.length === 0) return;
  for (const { id, kind, at, between, for: answers } of openPrescriptionsOfAnyKind(tree)) {
    if (kind.value !== 'watch' || between) continue;
    const planned = openFollowUps(tree).some(
      ({ of }) =>
        of.length === 0 ||
        answers.length === 0 ||
        of.some(({ value }) => answers.some(a => a.value === value)),
    );
    if (planned) continue;
    yield {
      at,
      grade: 'stated',
      subject: id.value,
      message: `Watch ${id.value} has no date for the next inspection: no follow-up is planned and no work window is set.`,
      remedy: `Plan at least a re-inspection: ${followUpWords(tree, 're-inspection', ...answers.map(id => ({ id })))}.`,
      advice: [
        followUp(
          tree,
          're-inspection',
          answers.map(({ value }) => value),
        ),
      ],
    };
  }
}

export const watchWithoutInterval: Rule = {
  name: 'watch-without-interval',
  group: 'follow-up',
  level: 'warning',
  summary: 'a tree to be monitored with no inspection date',
  sources: [cite('practice'), cite('a300-9')],
  explanation:
    'Monitoring needs a date. An open prescription to watch needs an outstanding follow-up of what it watches, or a work window of its own.',
  limitations: 'A watch that was withdrawn or replaced. Felled trees.',
  appliesTo: ['watching'],
  acceptable: true,
  examples: [
    {
      title: 'No inspection planned',
      text: `tree 326
  inspection 2026-04-02 from ground
  defect A crack
  defect B wound
  prescription R1 watch #! stated
    for A
  follow-up F1 probe
    of B
    due 2026-09-01
`,
    },
    {
      title: 'With a follow-up, with days, withdrawn',
      text: `tree 327
  inspection 2026-04-02 from ground
  defect A crack
  prescription R1 watch
    for A
  follow-up F1 re-inspection
    due 2027-04-01

tree 328
  prescription R1 watch
    between 2026-09-01..2026-09-30
  prescription R2 watch
    withdrawn 2026-05-02
`,
    },
  ],
  check,
};
