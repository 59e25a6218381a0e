import type { Span } from '../../../grammar/text.ts';
import { showQuantity } from '../../base/quantity.ts';
import type { Placed } from '../../facts/types.ts';
import {
  type AcceptUse,
  NOTHING,
  type PlacedReport,
  type Rule,
  type RuleReport,
  type WorkspaceContext,
} from '../rule.ts';

const without = (at: Span, what: string, name: Placed<string>): RuleReport => ({
  at,
  grade: 'stated',
  subject: name.value,
  message: `The ${what} ${name.value} has no reason.`,
  remedy: 'Add a line for later readers: because, and the reason in quotation marks.',
});

function* checkAccepts(uses: readonly AcceptUse[]): Iterable<RuleReport> {
  for (const { accept } of uses) {
    if (!accept.because) yield without(accept.at, 'exception to', accept.rule);
  }
}

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of [...workspace.practices.values()].flat()) {
    const { limits, seasons, approaches, severities } = placed.fact;
    for (const { at, name, because } of limits) {
      if (!because) yield { ...without(at, 'limit', name), in: placed };
    }
    for (const { at, season, because } of seasons) {
      if (!because) yield { ...without(at, 'season', season), in: placed };
    }
    for (const { at, distance, because } of approaches) {
      if (!because)
        yield {
          ...without(at, 'distance', { ...distance, value: showQuantity(distance.value) }),
          // The same whatever the unit.
          subject: 'approach',
          in: placed,
        };
    }
    for (const { at, rule, because } of severities) {
      if (!because) yield { ...without(at, 'severity of', rule), in: placed };
    }
  }
}

export const missingReason: Rule = {
  name: 'missing-reason',
  group: 'records',
  level: 'warning',
  summary: 'a limit, season, distance, severity or exception without a reason',
  sources: [],
  explanation:
    'A practice block departs from limits that have a source, and an accept record departs from a rule. Each needs a reason beside it. A limit without a reason still applies; an exception without one does not take effect.',
  limitations:
    'Offices that keep their reasons elsewhere: give this rule another severity and state that as the reason.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'Practice and exceptions',
      text: `practice "Office limits"
  limit strength-loss 30 % #! stated
  season nesting 02-01..08-31 #! stated
  approach 6 m #! stated
  severity duplicate-tag warning #! stated
  limit wall-ratio 0.32
    because "busy play area under most crowns"

person RV "Ruth Varga"

tree 14
  accept reinspection-overdue #! stated
    until 2027-03-01
    by RV
`,
    },
  ],
  check: () => NOTHING,
  checkAccepts,
  checkWorkspace,
};
