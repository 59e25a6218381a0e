import { type AcceptUse, NOTHING, type Rule, type RuleReport } from '../rule.ts';

function* checkAccepts(uses: readonly AcceptUse[]): Iterable<RuleReport> {
  for (const { accept, holds, matches } of uses) {
    if (!holds || matches > 0) continue;
    const { rule, subject } = accept;
    yield {
      at: accept.at,
      grade: 'stated',
      subject: rule.value,
      message: `The exception to ${rule.value}${subject ? ` for ${subject.value}` : ''} covers nothing: the rule does not report this today.`,
      remedy: 'Remove it, so that it does not hide a later finding.',
    };
  }
}

export const acceptStale: Rule = {
  name: 'accept-stale',
  group: 'records',
  level: 'warning',
  summary: 'an exception that no longer covers anything',
  sources: [],
  explanation:
    'Compares an exception with what its rule reports today: the same rule and, where one is named, the same subject. An exception that covers nothing is outdated or never matched. Left in place, it would silently cover the next finding of that kind.',
  limitations:
    'Exceptions written before the finding they are to cover: give this rule the severity note in that folder.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'Covered, no longer covered, and never matching',
      text: `person RV "Ruth Varga"

tree 14
  age mature
  prescription R1 reduce
    dose 18 %
    between 2026-10-05..2026-10-30
  prescription R2 clean
    dose 5 %
    between 2028-10-05..2028-10-30
  accept season-dose for R1
    until 2026-12-31
    by RV
    because "the storm damage leaves no smaller cut"
  accept season-dose for R2 #! stated
    until 2026-12-31
    by RV
    because "the storm damage leaves no smaller cut"

tree 15
  age mature
  prescription R1 reduce
    dose 18 %
  accept season-dose
    until 2026-12-31
    by RV
    because "the storm damage leaves no smaller cut"
`,
    },
  ],
  check: () => NOTHING,
  checkAccepts,
};
