import { type AcceptUse, NOTHING, type Rule, type RuleReport } from '../rule.ts';

function* checkAccepts(uses: readonly AcceptUse[]): Iterable<RuleReport> {
  for (const { accept } of uses) {
    const missing = [...(accept.until ? [] : ['until']), ...(accept.by ? [] : ['by'])];
    if (missing.length === 0) continue;
    yield {
      at: accept.at,
      grade: 'stated',
      subject: accept.rule.value,
      message: `The exception to ${accept.rule.value} is not valid: ${missing.join(' and ')} ${missing.length > 1 ? 'are' : 'is'} missing.`,
      remedy: 'Add until with its last day, and by with the person who decided it.',
    };
  }
}

export const acceptIncomplete: Rule = {
  name: 'accept-incomplete',
  group: 'records',
  level: 'warning',
  summary: 'an exception with no last day or no person',
  sources: [],
  explanation:
    'An exception is a decision that a person takes responsibility for, for a limited time. It takes effect only if it names its last day, the person and the reason. Otherwise the finding remains. A missing reason is reported by missing-reason.',
  limitations: 'No exceptions.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'No end date, no person',
      text: `person RV "Ruth Varga"

tree 14
  accept reinspection-overdue #! stated
    by RV
    because "scaffold goes up in February"
  accept reinspection-overdue #! stated
    until 2027-03-01
    because "scaffold goes up in February"
`,
    },
  ],
  check: () => NOTHING,
  checkAccepts,
};
