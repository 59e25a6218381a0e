import { graver } from '../../facts/settings.ts';
import { isMistakeCode } from '../mistake-codes.ts';
import {
  type AcceptUse,
  type Level,
  NOTHING,
  type PlacedReport,
  type Rule,
  type RuleReport,
  restsOn,
  spanOf,
  type WorkspaceContext,
} from '../rule.ts';

const MISTAKE = 'a syntax error';
const LAW_OR_SAFETY = 'a matter of law or of safety';

/** Why a rule cannot be accepted; undefined where it can, or for an unknown name. */
function obstacle(name: string, rule: Rule | undefined): string | undefined {
  if (isMistakeCode(name)) return MISTAKE;
  if (rule === undefined || rule.acceptable) return undefined;
  return restsOn(rule) === 'practice' ? 'a mistake in the records' : LAW_OR_SAFETY;
}

/** Why a practice block cannot give a rule this level; undefined where it can, as for any raised level. */
function obstacleToLevel(name: string, level: string, rule: Rule | undefined): string | undefined {
  if (isMistakeCode(name)) return MISTAKE;
  if (rule === undefined || restsOn(rule) === 'practice') return undefined;
  const raises = level !== 'off' && level !== 'note' && graver(level as Level, rule.level) === level;
  return raises ? undefined : LAW_OR_SAFETY;
}

function* checkAccepts(uses: readonly AcceptUse[]): Iterable<RuleReport> {
  for (const { accept, rule } of uses) {
    const name = accept.rule.value;
    const reason = obstacle(name, rule);
    if (reason === undefined) continue;
    yield {
      at: spanOf(accept.rule),
      grade: 'stated',
      subject: name,
      message: `${name} reports ${reason}, for which no exception is allowed.`,
      remedy: 'Correct what it reports, and remove the exception.',
    };
  }
}

function* checkWorkspace({ workspace, ruleNamed }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of [...workspace.practices.values()].flat()) {
    for (const { rule, level } of placed.fact.severities) {
      const reason = obstacleToLevel(rule.value, level.value, ruleNamed(rule.value));
      if (reason === undefined) continue;
      yield {
        in: placed,
        at: spanOf(rule),
        grade: 'stated',
        subject: rule.value,
        message: `${rule.value} reports ${reason}, for which a practice block can only raise the severity. Severity ${level.value} has no effect.`,
        remedy:
          'Remove the line. If an exception is allowed for the rule, record one on the tree, with a name and a last day.',
      };
    }
  }
}

export const acceptNotAllowed: Rule = {
  name: 'accept-not-allowed',
  group: 'records',
  level: 'error',
  summary: 'an exception or a changed severity where none is allowed',
  sources: [],
  explanation:
    'No exception is allowed for syntax errors, errors in the records, and prohibitions by law or for safety. For a rule that rests on law or safety, a practice block may only raise the severity. The line is ignored, and what it was meant to cover is still reported.',
  limitations: 'No exceptions.',
  appliesTo: [],
  rests: 'safety',
  acceptable: false,
  examples: [
    {
      title: 'Syntax errors and errors in the records',
      text: `practice "Office limits"
  severity missing-unit note #! stated
    because "we all know what is meant"
  severity duplicate-tag warning
    because "inventories are being merged"
  severity conductor-distance off #! stated
    because "the utility trims here"
  severity strength-loss note #! stated
    because "veterans stand hollow"
  severity nest-check-coarse error
    because "tall crowns are looked into from above here"

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
