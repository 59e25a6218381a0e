import { nearest } from '../../../grammar/nearest.ts';
import { UNREAD } from '../../facts/placed.ts';
import type { Placed } from '../../facts/types.ts';
import { isMistakeCode } from '../mistake-codes.ts';
import {
  type AcceptContext,
  type AcceptUse,
  NOTHING,
  type PlacedReport,
  type Rule,
  type RuleReport,
  type WorkspaceContext,
} from '../rule.ts';

/** Rules of earlier versions, with the rules that replaced them. */
const FORMERLY: Readonly<Record<string, string>> = {
  'strength-loss-cubic': 'strength-loss',
  'strength-loss-quartic': 'strength-loss',
  'strength-loss-opening': 'strength-loss',
  'strength-loss-section': 'strength-loss',
  'wall-ratio': 'strength-loss',
  'thumb-disagrees': 'strength-loss',
  'codominant-ratio': 'included-bark-union',
  'lean-new': 'movement',
  'soil-heaving': 'movement',
  'section-unmeasured': 'not-judged',
  'interior-unseen': 'not-judged',
  'priority-too-slow': 'mitigation-late',
};

/** @param could whether a name may be used here: not given already, and acceptable */
function unknown(
  { value, start, end }: Placed<string>,
  names: readonly string[],
  could: (name: string) => boolean,
): RuleReport | undefined {
  if (names.includes(value) || isMistakeCode(value) || value === UNREAD) return undefined;
  const near = FORMERLY[value] ?? nearest(value, names);
  const isOfUse = near !== undefined && could(near);
  return {
    at: { start, end },
    grade: 'stated',
    subject: value,
    message: `Unknown rule ${value}. ${near === undefined ? '' : value in FORMERLY ? `It is now ${near}. ` : `Did you mean ${near}? `}The line has no effect.`,
    remedy:
      near !== undefined && !isOfUse
        ? `Remove the line: ${near} is already set, or is not allowed here.`
        : `Write ${near ?? 'the name as a finding shows it in brackets'}, or remove the line.`,
    ...(isOfUse ? { fix: near } : {}),
  };
}

function* checkAccepts(
  uses: readonly AcceptUse[],
  { ruleNames, ruleNamed }: AcceptContext,
): Iterable<RuleReport> {
  for (const { accept } of uses) {
    const report = unknown(accept.rule, ruleNames, name => ruleNamed(name)?.acceptable === true);
    if (report) yield report;
  }
}

function* checkWorkspace({ workspace, ruleNames, ruleNamed }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of [...workspace.practices.values()].flat()) {
    const given = new Set(placed.fact.severities.map(({ rule }) => rule.value));
    const could = (name: string) => {
      const rule = ruleNamed(name);
      return rule !== undefined && (rule.acceptable || rule.group === 'records') && !given.has(name);
    };
    for (const { rule } of placed.fact.severities) {
      const report = unknown(rule, ruleNames, could);
      if (report) yield { ...report, in: placed };
    }
  }
}

export const unknownRule: Rule = {
  name: 'unknown-rule',
  group: 'records',
  level: 'error',
  summary: 'an exception or a severity for a rule that does not exist',
  sources: [],
  explanation:
    'An accept record and a severity name a rule as findings show it in brackets. A name that is not a rule would have no effect although the writer relies on it. The nearest name is suggested.',
  limitations: 'No exceptions.',
  appliesTo: [],
  acceptable: false,
  examples: [
    {
      title: 'In both places',
      text: `practice "Office limits"
  severity duplicate-tags warning #! stated
    because "inventories are being merged"
  severity duplicate-tag warning
    because "inventories are being merged"

person RV "Ruth Varga"

tree 14
  accept reinspect-overdu #! stated
    until 2027-03-01
    by RV
    because "scaffold goes up in February"
`,
    },
  ],
  check: () => NOTHING,
  checkAccepts,
  checkWorkspace,
};
