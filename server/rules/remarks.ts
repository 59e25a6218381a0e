/** What the rules say about one tree, with level and exceptions; kept with its block. */

import { asOf } from '../assess/assessment.ts';
import type { Stated } from '../facts/file.ts';
import { namesPhotos, type PhotoIndex } from '../facts/photos.ts';
import { graver, type Settings } from '../facts/settings.ts';
import type { Accept, Tree } from '../facts/types.ts';
import type { TreeContext } from './context.ts';
import { withoutEchoes } from './echoes.ts';
import { concerns, facetsOf } from './facets.ts';
import { RULES, ruleNamed, ruleNames } from './registry.ts';
import { type AcceptUse, type Level, NOTHING, type Rule, type RuleReport, restsOn } from './rule.ts';

/** The name under which a rule that failed is reported. */
export const INTERNAL_ERROR = 'internal-error';

export interface Remark<R extends RuleReport = RuleReport> {
  readonly rule: string;
  readonly level: Level;
  readonly report: R;
  readonly caution?: string | undefined;
  readonly accept?: Accept;
}

const acceptRules = RULES.filter(rule => rule.checkAccepts !== undefined);

interface Kept {
  readonly settings: Settings;
  readonly today: number;
  readonly photos: PhotoIndex | undefined;
  readonly remarks: readonly Remark[];
}

/** What applies to the trees of a file. */
export type Around = Omit<TreeContext, 'tree' | 'recorded'>;

/** What was said about a block's tree, if it was judged in this context. */
export function knownRemarks({ fact, judged }: Stated, around: Around): readonly Remark[] | undefined {
  const kept = judged as Kept | undefined;
  // Settings belong to one folder and one state of the facts shared by trees: the same settings, the same context.
  if (!kept || kept.settings !== around.settings || kept.today !== around.today) return undefined;
  return kept.photos === around.photos || !namesPhotos(fact as Tree) ? kept.remarks : undefined;
}

/** What the rules say about a block's tree; nothing where it states none. */
export function remarksOn(stated: Stated, around: Around): readonly Remark[] {
  const { fact } = stated;
  if (fact?.kind !== 'tree') return NONE;
  const known = knownRemarks(stated, around);
  if (known) return known;
  const said = remarksOf(contextFor(fact, around));
  const judge = (tree: Tree) => remarksOf(contextFor(tree, around));
  const remarks = fact.damage ? withoutEchoes(stated.block, fact, said, judge, around) : said;
  const { settings, today, photos } = around;
  stated.judged = { settings, today, photos, remarks } satisfies Kept;
  return remarks;
}

/** A tree as the rules see it. Spelled out, since a spread costs more than most rules. */
export const contextFor = (recorded: Tree, around: Around): TreeContext => ({
  tree: asOf(recorded, around.today),
  recorded,
  site: around.site,
  settings: around.settings,
  person: around.person,
  crew: around.crew,
  personIds: around.personIds,
  crewIds: around.crewIds,
  today: around.today,
  photos: around.photos,
  photoFile: around.photoFile,
});

const NONE: readonly Remark[] = [];

function remarksOf(context: TreeContext): readonly Remark[] {
  const { tree, settings } = context;
  let remarks: Remark[] | undefined;
  for (const { rule, severity } of rulesFor(settings, facetsOf(tree))) {
    try {
      const reports = rule.check(context);
      // As from most rules about most trees: to ask an empty list for its members costs more than many a rule.
      if (reports === NOTHING) continue;
      for (const report of reports) (remarks ??= []).push(remark(rule, report, severity));
    } catch (error) {
      (remarks ??= []).push(failure(rule, error, { at: tree.at }));
    }
  }
  return tree.accepts.length > 0 ? withExceptions(remarks ?? [], context) : (remarks ?? NONE);
}

interface Asked {
  readonly rule: Rule;
  readonly severity: Level | undefined;
}

const asked = new WeakMap<Settings, Map<number, readonly Asked[]>>();

/** The rules to ask about trees with these facets: trees are many, kinds of them few. */
function rulesFor(settings: Settings, facets: number): readonly Asked[] {
  let byFacets = asked.get(settings);
  if (!byFacets) asked.set(settings, (byFacets = new Map()));
  const known = byFacets.get(facets);
  if (known) return known;
  const rules = RULES.flatMap((rule): Asked[] => {
    const severity = concerns(rule, facets) ? severityOf(rule, settings) : 'off';
    return severity === 'off' ? [] : [{ rule, severity }];
  });
  byFacets.set(facets, rules);
  return rules;
}

/** The level that a practice block gives a rule; `off` is passed over where law or safety stands behind it. */
export function severityOf(rule: Rule, settings: Settings): Level | 'off' | undefined {
  const severity = settings.severity(rule.name);
  return severity === 'off' && restsOn(rule) !== 'practice' ? undefined : severity;
}

/** What rests on law or on safety may only be made graver. */
export function remark<R extends RuleReport>(rule: Rule, report: R, severity: Level | undefined): Remark<R> {
  const own = report.level ?? levelOf(rule, report);
  const level = severity === undefined || restsOn(rule) === 'practice' ? severity : graver(own, severity);
  return { rule: rule.name, level: level ?? own, report, caution: rule.caution };
}

function levelOf(rule: Rule, { grade }: RuleReport): Level {
  return grade === 'exceeds' ? 'error' : grade === 'may exceed' ? 'warning' : rule.level;
}

/** One finding in place of what a rule that failed would have said; the other rules go on. */
export function failure<P extends Pick<RuleReport, 'at'>>(
  rule: Rule,
  error: unknown,
  place: P,
): Remark<P & RuleReport> {
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

/** Marks what a standing exception covers, and adds what is to be said about the exceptions themselves. */
function withExceptions(
  remarks: readonly Remark[],
  { tree, settings, today }: TreeContext,
): readonly Remark[] {
  const counts = new Map<string, number>();
  for (const found of remarks)
    for (const covered of coveredBy(found)) counts.set(covered, (counts.get(covered) ?? 0) + 1);
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
  const marked = remarks.map(found => {
    const first = Math.min(...coveredBy(found).map(cover => holding.get(cover) ?? Number.POSITIVE_INFINITY));
    return Number.isFinite(first) ? { ...found, accept: uses[first]!.accept } : found;
  });
  for (const rule of acceptRules) {
    const severity = severityOf(rule, settings);
    if (severity === 'off') continue;
    try {
      for (const report of rule.checkAccepts!(uses, { ruleNames, ruleNamed, today, settings })) {
        marked.push(remark(rule, report, severity));
      }
    } catch (error) {
      marked.push(failure(rule, error, { at: tree.at }));
    }
  }
  return marked;
}

/** What an exception covers: all that a rule says of its tree, or of one subject there. */
const coverOf = ({ rule, subject }: Accept): string =>
  subject === undefined ? rule.value : `${rule.value}\n${subject.value}`;

/** The covers under which a finding would lie. */
const coveredBy = ({ rule, report }: Remark): readonly string[] => [rule, `${rule}\n${report.subject}`];

const holds = ({ until, by, because }: Accept, rule: Rule, today: number): boolean =>
  rule.acceptable && until !== undefined && today <= until.value && by !== undefined && because !== undefined;
