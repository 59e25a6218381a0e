import { nearest } from '../../../grammar/nearest.ts';
import { UNREAD } from '../../facts/placed.ts';
import { findLimit, limitNames } from '../../practice/limits.ts';
import { NOTHING, type PlacedReport, type Rule, spanOf, type WorkspaceContext } from '../rule.ts';

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of [...workspace.practices.values()].flat()) {
    const given = new Set(placed.fact.limits.map(({ name }) => name.value));
    for (const { name } of placed.fact.limits) {
      if (findLimit(name.value) || name.value === UNREAD) continue;
      const near = nearest(name.value, limitNames);
      const isGiven = near !== undefined && given.has(near);
      yield {
        in: placed,
        at: spanOf(name),
        grade: 'stated',
        subject: name.value,
        message: `Unknown limit ${name.value}. ${near === undefined ? '' : `Did you mean ${near}? `}The line has no effect.`,
        remedy: isGiven
          ? `Remove the line: ${near} is already set in this block.`
          : `Write ${near ?? 'the name of a limit that the rules use'}, or remove the line.`,
        ...(near === undefined || isGiven ? {} : { fix: near }),
      };
    }
  }
}

export const unknownLimit: Rule = {
  name: 'unknown-limit',
  group: 'records',
  level: 'error',
  summary: 'a practice block that overrides a limit which does not exist',
  sources: [],
  explanation:
    'A practice block sets limits by name. A name that is not in the table of limits would have no effect although the writer relies on it. The nearest name is suggested.',
  limitations: 'No exceptions.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'A misspelled limit',
      text: `practice "Office limits"
  limit strenght-loss 30 % #! stated
    because "busy play area under most crowns"
  limit strength-loss 30 %
    because "busy play area under most crowns"
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
