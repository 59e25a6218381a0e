/** What the rules report about one tree, with levels and exceptions. */

import { inTable, memo } from '../base/memo.ts';
import type { BlockNode } from '../facts/file.ts';
import { graver, type Settings } from '../facts/settings.ts';
import { treeOn } from '../facts/state.ts';
import type { Accept, WrittenTree } from '../facts/types.ts';
import type { RuleEnvironment, TreeContext } from './context.ts';
import { withoutEchoes } from './echoes.ts';
import { concerns, facetsOf } from './facets.ts';
import { INTERNAL_ERROR, type RawFinding } from './raw-finding.ts';
import { RULES, ruleNamed, ruleNames } from './registry.ts';
import { type AcceptUse, type Level, NOTHING, type Rule, type RuleReport, restsOn } from './rule.ts';

const acceptRules = RULES.filter(rule => rule.checkAccepts !== undefined);

/** Nothing where the block states no tree. */
export function lintTree(node: BlockNode, environment: RuleEnvironment): readonly RawFinding[] {
  const { fact } = node;
  if (fact?.kind !== 'tree') return NONE;
  const lint = (tree: WrittenTree) => findingsFor(contextFor(tree, environment));
  const found = lint(fact);
  return fact.damage ? withoutEchoes(node.block, fact, found, lint, environment) : found;
}

/** Spelled out: a spread costs more than most rules. */
export const contextFor = (recorded: WrittenTree, environment: RuleEnvironment): TreeContext => ({
  tree: treeOn(recorded, environment.today),
  recorded,
  site: environment.site,
  settings: environment.settings,
  person: environment.person,
  crew: environment.crew,
  personIds: environment.personIds,
  crewIds: environment.crewIds,
  today: environment.today,
  now: environment.now,
  nestTreesNear: environment.nestTreesNear,
  photos: environment.photos,
  photoFile: environment.photoFile,
});

const NONE: readonly RawFinding[] = [];

function findingsFor(context: TreeContext): readonly RawFinding[] {
  const { tree, settings } = context;
  let found: RawFinding[] | undefined;
  for (const { rule, severity } of rulesFor(settings, facetsOf(tree))) {
    try {
      const reports = rule.check(context);
      // Fast path: most rules return the shared empty array.
      if (reports === NOTHING) continue;
      for (const report of reports) (found ??= []).push(rawFinding(rule, report, severity));
    } catch (error) {
      (found ??= []).push(failure(rule, error, { at: tree.at }));
    }
  }
  return tree.accepts.length > 0 ? withExceptions(found ?? [], context) : (found ?? NONE);
}

interface ActiveRule {
  readonly rule: Rule;
  readonly severity: Level | undefined;
}

const rulesByFacets = memo((_settings: Settings) => new Map<number, readonly ActiveRule[]>());

/** The rules that apply to trees with these facets: there are many trees and few combinations of facets. */
const rulesFor = (settings: Settings, facets: number): readonly ActiveRule[] =>
  inTable(rulesByFacets(settings), facets, () =>
    RULES.flatMap((rule): ActiveRule[] => {
      const severity = concerns(rule, facets) ? severityOf(rule, settings) : 'off';
      return severity === 'off' ? [] : [{ rule, severity }];
    }),
  );

/** The level that a practice block gives a rule; `off` is passed over where law or safety stands behind it. */
export function severityOf(rule: Rule, settings: Settings): Level | 'off' | undefined {
  const severity = settings.severity(rule.name);
  return severity === 'off' && restsOn(rule) !== 'practice' ? undefined : severity;
}

/** What rests on law or on safety may only be made graver. */
export function rawFinding<R extends RuleReport>(
  rule: Rule,
  report: R,
  severity: Level | undefined,
): RawFinding<R> {
  const own = report.level ?? levelOf(rule, report);
  const level = severity === undefined || restsOn(rule) === 'practice' ? severity : graver(own, severity);
  return { rule: rule.name, level: level ?? own, report, caution: rule.caution };
}

function levelOf(rule: Rule, { grade }: RuleReport): Level {
  return grade === 'exceeds' ? 'error' : grade === 'may exceed' ? 'warning' : rule.level;
}

/** One finding in place of those of a rule that failed; the other rules go on. */
export function failure<P extends Pick<RuleReport, 'at'>>(
  rule: Rule,
  error: unknown,
  place: P,
): RawFinding<P & RuleReport> {
  const reason = error instanceof Error ? error.message : String(error);
  return {
    rule: INTERNAL_ERROR,
    level: 'error',
    report: {
      ...place,
      grade: 'stated',
      subject: rule.name,
      message: `The rule ${rule.name} failed here (${reason}); the others were applied.`,
      remedy: 'The mistake is in the program, not in the record: report it with this block of text.',
    },
  };
}

/** Marks what a valid exception covers, and adds findings about the exceptions themselves. */
function withExceptions(
  found: readonly RawFinding[],
  { tree, settings, today }: TreeContext,
): readonly RawFinding[] {
  const counts = new Map<string, number>();
  for (const one of found)
    for (const covered of coveredBy(one)) counts.set(covered, (counts.get(covered) ?? 0) + 1);
  const uses = tree.accepts.map((accept): AcceptUse => {
    const rule = ruleNamed(accept.rule.value);
    const matches = counts.get(coverOf(accept)) ?? 0;
    return { accept, rule, holds: rule !== undefined && holds(accept, rule, today), matches };
  });
  // Of several that cover the same, the first.
  const holding = new Map<string, number>();
  uses.forEach(({ accept, holds }, i) => {
    const cover = coverOf(accept);
    if (holds && !holding.has(cover)) holding.set(cover, i);
  });
  const marked = found.map(one => {
    const first = Math.min(...coveredBy(one).map(cover => holding.get(cover) ?? Number.POSITIVE_INFINITY));
    return Number.isFinite(first) ? { ...one, accept: uses[first]!.accept } : one;
  });
  for (const rule of acceptRules) {
    const severity = severityOf(rule, settings);
    if (severity === 'off') continue;
    try {
      for (const report of rule.checkAccepts!(uses, { ruleNames, ruleNamed, today, settings })) {
        marked.push(rawFinding(rule, report, severity));
      }
    } catch (error) {
      marked.push(failure(rule, error, { at: tree.at }));
    }
  }
  return marked;
}

/** What an exception covers: all findings of a rule about its tree, or those about one subject there. */
const coverOf = ({ rule, subject }: Accept): string =>
  subject === undefined ? rule.value : `${rule.value}\n${subject.value}`;

/** The covers under which a finding would lie. */
const coveredBy = ({ rule, report }: RawFinding): readonly string[] => [rule, `${rule}\n${report.subject}`];

const holds = ({ until, by, because }: Accept, rule: Rule, today: number): boolean =>
  rule.acceptable && until !== undefined && today <= until.value && by !== undefined && because !== undefined;
