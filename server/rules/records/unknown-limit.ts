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
        message: `No limit is named ${name.value}${near === undefined ? '' : `; the nearest is ${near}`}, so the line has no effect.`,
        remedy: isGiven
          ? `Take the line out: ${near} is given in this block already.`
          : `Write ${near ?? 'the name of a limit that the rules use'}, or take the line out.`,
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
    'A practice block sets limits by name. A name that is not in the table of limits would have no effect although the writer relies on it; the nearest name is suggested.',
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
