/** What a rule is: one file with its name, source, explanation, examples (its documentation and its tests) and check. */

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
/** The whole interval lies beyond the limit, or straddles it; `stated` where nothing is measured against a limit. */
export type Grade = 'exceeds' | 'may exceed' | 'stated';

export interface Related extends Span {
  readonly message: string;
  /** The fact in whose block it lies, where that is another one. */
  readonly in?: PlacedFact;
}

/**
 * Lines that a remedy tells to write. Its sentence, the quick fix and the test that follows it are made of this one
 * value. Written as it stands, it takes the finding away, or leaves a milder one, and brings none as grave.
 */
export interface Advice {
  /**
   * A plan may be written at once. A reading only by who took it, so that nothing offers to write it. What is to be
   * filled in lacks what only a person knows: lines that end after their field.
   */
  readonly kind: 'plan' | 'reading' | 'to fill in';
  /** The head that the lines belong to; each takes the place of the line of its field, where there is one. */
  readonly under: Span;
  /** A head that the tree does not have yet, for the lines to stand under: `follow-up F1 probe`. */
  readonly head?: string;
  /** `exclusion 26 ft`, `between 2026-09-01..2026-09-13`. */
  readonly lines: readonly string[];
  /** How an editor offers it, where the lines do not say it all: `Move the work to 2026-09-01..2026-09-13`. */
  readonly title?: string;
}

/** What a rule says about a tree; spans are relative to the tree's block. */
export interface RuleReport {
  readonly at: Span;
  readonly grade: Grade;
  /** Only where it differs from what the grade gives: exceeds → error, may exceed → warning, stated → the rule's level. */
  readonly level?: Level;
  /** What the finding is about, stable over edits: a defect, a prescription, a date (`R1`, `A`, `2026-03-14`). */
  readonly subject: string;
  /** One sentence: the value, the limit, the source in short. */
  readonly message: string;
  /** One sentence: what to do. */
  readonly remedy: string;
  /** What the remedy tells to write, each by itself enough. */
  readonly advice?: readonly Advice[];
  /** Text in place of `at` that would mend it, where one is likely. */
  readonly mend?: string;
  readonly related?: readonly Related[];
}

/** What a rule says that looks at the whole workspace: spans are relative to the block of this fact. */
export interface PlacedReport extends RuleReport {
  readonly in: PlacedFact;
}

/** An exception on record, with what it was good for. */
export interface AcceptUse {
  readonly accept: Accept;
  /** Undefined where no rule has the name. */
  readonly rule: Rule | undefined;
  /** It says until when, by whom and why, the day is not past, and its rule can be accepted. */
  readonly holds: boolean;
  /** How many findings of today have its rule and subject, whether it holds or not. */
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
  /** What the camera recorded in the files of photographs, by path; of others nothing is known. */
  readonly photos?: Readonly<Record<string, PhotoRecord | 'missing' | 'unreadable'>>;
  /**
   * A whole inventory. A line on which this rule must report ends in `#! exceeds`, `#! may exceed` or `#! stated`
   * (with a level before it where it differs: `#! note stated`); no other line may be reported by it.
   */
  readonly text: string;
}

export interface Rule {
  readonly name: string;
  readonly group:
    | 'evidence'
    | 'structure'
    | 'mitigation'
    | 'pruning'
    | 'felling'
    | 'wildlife'
    | 'people'
    | 'electricity'
    | 'aircraft'
    | 'permits'
    | 'follow-up'
    | 'records';
  /** Level of findings whose grade is `stated`. */
  readonly level: Level;
  readonly summary: string;
  readonly sources: readonly Citation[];
  /** Paragraphs: what it looks at, why, how it is computed. */
  readonly explanation: string;
  readonly limitations: string;
  /**
   * `check` is asked only about trees that have one of these, since it has nothing to say about others; about
   * every tree where this is left out, about none where it is empty.
   */
  readonly appliesTo?: readonly Facet[];
  /** Can it be accepted by a record? Legal prohibitions can't. */
  readonly acceptable: boolean;
  /** What stands behind it, where that is not what stands behind its group. */
  readonly rests?: Rests;
  /** The caution that a legal or safety finding carries. */
  readonly caution?: string;
  readonly examples: readonly Example[];
  /** Depends on the context alone: a tree that did not change keeps its reports. */
  check(context: TreeContext): Iterable<RuleReport>;
  /** Only for what is not about one tree: other facts, and trees side by side. Not acceptable by a record. */
  checkWorkspace?(context: WorkspaceContext): Iterable<PlacedReport>;
  /** Only for rules about exceptions: those of one tree, after all other rules have spoken. */
  checkAccepts?(uses: readonly AcceptUse[], context: AcceptContext): Iterable<RuleReport>;
}

const GROUP_RESTS: Readonly<Record<Rule['group'], Rests>> = {
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

/** What stands behind a rule: a practice block only ever makes the findings of law and safety graver. */
export const restsOn = ({ group, rests }: Rule): Rests => rests ?? GROUP_RESTS[group];
/** Lines below a head, as a plan. */
export const plan = ({ start, end }: Span, ...lines: readonly string[]): Advice => ({
  kind: 'plan',
  under: { start, end },
  lines,
});

/** Lines below a head, true once somebody has read or done it. */
export const ifRead = ({ start, end }: Span, ...lines: readonly string[]): Advice => ({
  kind: 'reading',
  under: { start, end },
  lines,
});

/** What a rule says about most trees: a list that is there already costs less than one that is begun. */
export const NOTHING: readonly RuleReport[] = [];
