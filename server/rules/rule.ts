/** The interface of a rule. Each is one file; its examples are both documentation and tests. */

import type { Span } from '../../grammar/text.ts';
import type { PhotoRecord } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type { Accept } from '../facts/types.ts';
import type { PlacedFact, Workspace } from '../facts/workspace.ts';
import type { Citation } from '../practice/citation.ts';
import type { Rests } from '../practice/limit-row.ts';
import type { TreeContext } from './context.ts';
import type { Facet } from './facets.ts';

export type Level = 'error' | 'warning' | 'note';
/** Exceeds: the whole interval is beyond the limit; may exceed: it straddles the limit; stated: nothing is measured. */
export type Grade = 'exceeds' | 'may exceed' | 'stated';

export interface Related extends Span {
  readonly message: string;
  /** The fact whose block contains it, if not the same. */
  readonly in?: PlacedFact;
}

/**
 * Lines that a remedy suggests. Its sentence, the quick fix and the test that applies it are made from this one
 * value. Written as is, it removes the finding or lowers its level, and causes none of the same level.
 */
export interface Advice {
  /**
   * A plan can be inserted as is. A reading may be written only by the person who took it, so no quick fix offers it.
   * Lines to fill in end after their field.
   */
  readonly kind: 'plan' | 'reading' | 'to fill in';
  /** The head the lines go under; each replaces the existing line of its field, if any. */
  readonly under: Span;
  /** A new head to insert for the lines: `follow-up F1 probe`. */
  readonly head?: string;
  /** `exclusion 26 ft`, `between 2026-09-01..2026-09-13`. */
  readonly lines: readonly string[];
  /** Title of the quick fix, if other than the lines: `Move the work to 2026-09-01..2026-09-13`. */
  readonly title?: string;
}

/** What a rule reports about a tree; spans are relative to the tree's block. */
export interface RuleReport {
  readonly at: Span;
  readonly grade: Grade;
  /** Overrides the default of the grade: exceeds → error, may exceed → warning, stated → the rule's level. */
  readonly level?: Level;
  /** What the finding is about, stable across edits: a defect, a prescription, a date (`R1`, `A`, `2026-03-14`). */
  readonly subject: string;
  /** One sentence: the value, the limit, the source in short. */
  readonly message: string;
  /** One sentence: what to do. */
  readonly remedy: string;
  /** What the remedy suggests writing; each item is enough on its own. */
  readonly advice?: readonly Advice[];
  /** Text in place of `at` that would fix it, where one is likely. */
  readonly fix?: string;
  readonly related?: readonly Related[];
}

/** What to do about a finding, in words and as lines to write. */
export type Remedy = Pick<RuleReport, 'remedy' | 'advice'>;

/** Report of a rule on the whole workspace; spans are relative to the block of `in`. */
export interface PlacedReport extends RuleReport {
  readonly in: PlacedFact;
}

/** An exception on record and its effect. */
export interface AcceptUse {
  readonly accept: Accept;
  /** Undefined for an unknown rule. */
  readonly rule: Rule | undefined;
  /** It has a last day that is not past, a person and a reason, and its rule can be accepted. */
  readonly holds: boolean;
  /** Number of today's findings with its rule and subject, whether or not it holds. */
  readonly matches: number;
}

interface AllRules {
  readonly ruleNames: readonly string[];
  readonly ruleNamed: (name: string) => Rule | undefined;
  /** Day number. */
  readonly today: number;
}

/** What a rule about exceptions may look at beside them. */
export interface AcceptContext extends AllRules {
  readonly settings: Settings;
}

/** What a rule may look at that is about several trees, or about none. */
export interface WorkspaceContext extends AllRules {
  readonly workspace: Workspace;
}

export interface Example {
  readonly title: string;
  /** Today, for this example; 2026-06-01 unless stated. */
  readonly on?: string;
  /** What the camera recorded in the photograph files, by path; other files are unknown. */
  readonly photos?: Readonly<Record<string, PhotoRecord | 'missing' | 'unreadable'>>;
  /** What drill trace files hold, by path. */
  readonly traces?: Readonly<Record<string, string>>;
  /**
   * A complete inventory. A line this rule must report ends in `#! exceeds`, `#! may exceed` or `#! stated`
   * (preceded by the level where it is not the default: `#! note stated`); it must report no other line.
   */
  readonly text: string;
}

/** In the order of the documentation. */
export const GROUPS = [
  'evidence',
  'structure',
  'mitigation',
  'pruning',
  'felling',
  'wildlife',
  'people',
  'electricity',
  'aircraft',
  'permits',
  'follow-up',
  'records',
] as const;

type RuleGroup = (typeof GROUPS)[number];

export interface Rule {
  readonly name: string;
  readonly group: RuleGroup;
  /** Level of findings whose grade is `stated`. */
  readonly level: Level;
  readonly summary: string;
  readonly sources: readonly Citation[];
  /** Paragraphs: what it checks, why, and how it is computed. */
  readonly explanation: string;
  readonly limitations: string;
  /**
   * `check` is called only for trees with one of these facets; for every tree where this is left out, for none
   * where it is empty.
   */
  readonly appliesTo?: readonly Facet[];
  /** Whether an accept record may cover it; legal prohibitions cannot be accepted. */
  readonly acceptable: boolean;
  /** What it rests on, if not what its group rests on. */
  readonly rests?: Rests;
  /** Shown with the finding, for rules on law and safety. */
  readonly caution?: string;
  readonly examples: readonly Example[];
  /** Pure: the reports of an unchanged tree are reused. */
  check(context: TreeContext): Iterable<RuleReport>;
  /** Only for rules that are not about a single tree. Not acceptable by a record. */
  checkWorkspace?(context: WorkspaceContext): Iterable<PlacedReport>;
  /** Only for rules on exceptions: those of one tree, after all other rules have run. */
  checkAccepts?(uses: readonly AcceptUse[], context: AcceptContext): Iterable<RuleReport>;
}

const GROUP_RESTS: Readonly<Record<RuleGroup, Rests>> = {
  evidence: 'practice',
  structure: 'safety',
  pruning: 'practice',
  felling: 'practice',
  wildlife: 'law',
  people: 'safety',
  mitigation: 'safety',
  electricity: 'law',
  aircraft: 'law',
  permits: 'law',
  'follow-up': 'practice',
  records: 'practice',
};

/** What a rule rests on. A practice block can only raise the level of findings that rest on law or safety. */
export const restsOn = ({ group, rests }: Rule): Rests => rests ?? GROUP_RESTS[group];
/** Lines under a head, as a plan. */
export const plan = ({ start, end }: Span, ...lines: readonly string[]): Advice => ({
  kind: 'plan',
  under: { start, end },
  lines,
});

/** Lines under a head that are true only once the reading is taken or the step done. */
export const ifRead = ({ start, end }: Span, ...lines: readonly string[]): Advice => ({
  kind: 'reading',
  under: { start, end },
  lines,
});

/** The shared empty result of most rules for most trees. */
export const NOTHING: readonly RuleReport[] = [];

/** The span alone, without what a placed value carries besides. */
export const spanOf = ({ start, end }: Span): Span => ({ start, end });

/** Another place of the same block that a finding points to. */
export const pointTo = ({ start, end }: Span, message: string): Related => ({ start, end, message });
