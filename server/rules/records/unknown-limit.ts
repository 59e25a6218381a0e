/** A practice block overrides a limit that does not exist. */

import { nearest } from '../../../grammar/nearest.ts';
import { UNREAD } from '../../facts/lines.ts';
import { findLimit, limitNames } from '../../practice/limits.ts';
import { NOTHING, type PlacedReport, type Rule, type WorkspaceContext } from '../rule.ts';

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  for (const practices of workspace.practices.values()) {
    for (const placed of practices) {
      const given = new Set(placed.fact.limits.map(({ name }) => name.value));
      for (const { name } of placed.fact.limits) {
        if (findLimit(name.value) || name.value === UNREAD) continue;
        const near = nearest(name.value, limitNames);
        const isGiven = near !== undefined && given.has(near);
        yield {
          in: placed,
          at: { start: name.start, end: name.end },
          grade: 'stated',
          subject: name.value,
          message: `No limit is named ${name.value}${near === undefined ? '' : `; the nearest is ${near}`}, so the line has no effect.`,
          remedy: isGiven
            ? `Take the line out: ${near} is given in this block already.`
            : `Write ${near ?? 'the name of a limit that the rules use'}, or take the line out.`,
          ...(near === undefined || isGiven ? {} : { mend: near }),
        };
      }
    }
  }
}

export const unknownLimit: Rule = {
  name: 'unknown-limit',
  group: 'records',
  level: 'error',
  summary: 'a practice block overrides a limit that does not exist',
  sources: [],
  explanation: `A practice block gives limits by name. A name that the table of limits does not have would be without effect while its writer relies on it; the nearest name is offered.`,
  limitations: 'Never.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'A misspelt limit',
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
