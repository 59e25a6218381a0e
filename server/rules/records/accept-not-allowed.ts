/** An exception, or another severity, where none is possible. */

import type { WorkspaceContext } from '../context.ts';
import { isMistakeCode } from '../mistake-codes.ts';
import { type AcceptUse, NOTHING, type PlacedReport, type Report, type Rule } from '../rule.ts';

/** Why a name cannot be accepted; undefined where it can, or where no rule has it. */
function obstacle(name: string, rule: Rule | undefined): string | undefined {
  if (isMistakeCode(name)) return 'a mistake of the notation';
  if (rule === undefined || rule.acceptable) return undefined;
  return rule.group === 'records' ? 'a mistake in the records' : 'a matter of law or of safety';
}

function* checkAccepts(uses: readonly AcceptUse[]): Iterable<Report> {
  for (const { accept, rule } of uses) {
    const name = accept.rule.value;
    const reason = obstacle(name, rule);
    if (reason === undefined) continue;
    yield {
      at: { start: accept.rule.start, end: accept.rule.end },
      grade: 'stated',
      subject: name,
      message: `${name} reports ${reason}, which no exception covers.`,
      remedy: 'Mend what it reports, and take the exception out.',
    };
  }
}

function* checkWorkspace({ workspace, ruleNamed }: WorkspaceContext): Iterable<PlacedReport> {
  for (const practices of workspace.practices.values()) {
    for (const placed of practices) {
      for (const { rule } of placed.fact.severities) {
        const named = ruleNamed(rule.value);
        // Rules about the records can't be accepted case by case, but an office may weigh them as it likes.
        const reason = named?.group === 'records' ? undefined : obstacle(rule.value, named);
        if (reason === undefined) continue;
        yield {
          in: placed,
          at: { start: rule.start, end: rule.end },
          grade: 'stated',
          subject: rule.value,
          message: `${rule.value} reports ${reason} and keeps its severity.`,
          remedy: 'Take the line out.',
        };
      }
    }
  }
}

export const acceptNotAllowed: Rule = {
  name: 'accept-not-allowed',
  group: 'records',
  level: 'error',
  summary: 'an exception or another severity where none is possible',
  sources: [],
  explanation: `Mistakes of the notation, mistakes in the records and prohibitions by law or for safety cannot be accepted by a record, and a practice block does not change the severity of such a prohibition. The exception is passed over; what it should cover is still reported.`,
  whenNot: 'Never.',
  looksAt: [],
  acceptable: false,
  examples: [
    {
      title: 'Mistakes of the notation and of the records',
      text: `practice "Office limits"
  severity missing-unit note #! stated
    because "we all know what is meant"
  severity duplicate-tag warning
    because "inventories are being merged"

person RV "Ruth Varga"

tree 14
  accept missing-unit #! stated
    until 2027-03-01
    by RV
    because "we all know what is meant"
  accept duplicate-tag #! stated
    until 2027-03-01
    by RV
    because "inventories are being merged"
`,
    },
  ],
  check: () => NOTHING,
  checkAccepts,
  checkWorkspace,
};
