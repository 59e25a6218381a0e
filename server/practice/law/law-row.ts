/** The form of the rows of law, guidance and custom. Lengths in m, voltages in V, shares of one, windows by month and day. */

import type { YearlyWindow } from '../../base/yearly-window.ts';

/** `logging law` binds logging employers, not arborists as such. */
export type Force = 'law' | 'logging law' | 'guidance' | 'custom';

/**
 * What was read for a row:
 *
 * - `text`: the words or the table, in a copy of the law or on a page that states it;
 * - `older text`: the same, of an earlier version;
 * - `second-hand`: a page that reports it without its words;
 * - `in part`: `doubt` says which part is from memory;
 * - `name`: the document was found, its figures were not;
 * - `memory`: nothing;
 * - `conclusion`: it follows from other rows, or from finding nothing.
 */
export type ReadState = 'text' | 'older text' | 'second-hand' | 'in part' | 'name' | 'memory' | 'conclusion';

export const LAW_SUBJECTS = [
  'birds',
  'bats',
  'closed seasons',
  'pests',
  'lines',
  'felling zones',
  'permits',
  'drones',
  'work',
  'measuring',
] as const;
export type LawSubject = (typeof LAW_SUBJECTS)[number];

/** Those whom a distance to a line binds; the first is everybody without any qualification for it. */
export type LineClass = 'anyone' | 'instructed' | 'line clearance' | 'qualified';

/** Distances up to a voltage, V, in ascending order; the last may be Infinity. */
export type Steps = readonly (readonly [upTo: number, distance: number])[];

/** Kinds of land that rows tell apart. */
export type Land = 'garden' | 'orchard' | 'churchyard' | 'street' | 'open space' | 'forest' | 'farm' | 'open';

/** Land that a row covers, and land left out; all if neither is stated. */
export interface OnLand {
  readonly land?: readonly Land[];
  readonly notOn?: readonly Land[];
}

export interface ApproachRule {
  readonly kind: 'approach';
  readonly who: LineClass | 'machine';
  /** What the voltages of the table are: between two phases (nominal), or from a phase to the ground. */
  readonly reference: 'between phases' | 'to ground';
  /** `column`: everything straight above the line is inside as well. */
  readonly shape: 'sphere' | 'column';
  /** Of a column: so is everything straight below it. */
  readonly below?: true;
  readonly steps: Steps;
  /** Between two steps the distance grows evenly. */
  readonly even?: true;
  /** Beyond the last step: `distance` for each `volts` or part of it. */
  readonly beyond?: { readonly distance: number; readonly volts: number };
  /** Where two phases are within reach. */
  readonly betweenPhases?: Steps;
  /** Factors by altitude above the sea, m. */
  readonly altitude?: Steps;
  /** For a line of unknown voltage; else the greatest of the steps. */
  readonly unknown?: number;
  /** Whether the tree worked on, and what can fall from it, counts like a person. */
  readonly tree?: true;
  /** Whether a distance that the owner of the line allows in writing takes the place of these. */
  readonly consent?: true;
}

/** Near a line whose owner is to be asked before any work. */
interface AskOwnerRule {
  readonly kind: 'ask owner';
  readonly within: number;
}

interface SecondWorkerRule {
  readonly kind: 'second worker';
  /** Nearer than this to a line of more than `above` volts; undefined at any distance. */
  readonly within?: number;
  readonly above?: number;
  /** Anybody aloft above this height. */
  readonly aloft?: number;
  /** Whether a trainee will do. */
  readonly trainee?: true;
}

interface FellingZoneRule {
  readonly kind: 'felling zone';
  /** Times the height of the tree, for everyone but the feller. */
  readonly ratio: number;
  /** For people on a rope or line of the felling crew. */
  readonly ropeHands?: number;
}

/** Beyond the zone in which pieces land while a tree is trimmed. */
interface DropZoneRule {
  readonly kind: 'drop zone';
  readonly beyond: number;
}

/** `bats`: trees in which they may roost are not felled; `bat maternity`: while they have young. */
export type SeasonOf =
  | 'birds'
  | 'birds of prey'
  | 'eagles'
  | 'colony birds'
  | 'bats'
  | 'bat maternity'
  | 'hollow trees'
  | 'cutting';

interface SeasonRule extends OnLand {
  readonly kind: 'season';
  readonly of: SeasonOf;
  /** Closed days. */
  readonly closed: YearlyWindow;
  /** Work that it closes. */
  readonly acts?: 'felling' | 'felling and pruning' | 'all';
  /** Whom alone it binds on such land, where the inventory can't tell: `farmers with aid`. */
  readonly only?: string;
  /** Pruning without motor tools is free. */
  readonly motorTools?: true;
  /** Free is what safety asks for and can't be had otherwise, or at another time. */
  readonly unlessDangerous?: true;
  /** Trees from this height on, whatever is in them. */
  readonly tallerThan?: number;
  /** Where it holds in a part of the region alone, a clause: `it applies only in Suffolk County`. */
  readonly onlyIf?: string;
}

/** Pests and pathogens attracted to or entering through fresh wounds. */
const WOUND_PESTS = [
  'oak wilt',
  'Dutch elm disease',
  'fire blight',
  'silver leaf',
  'pine bark beetles',
] as const;
export type WoundPest = (typeof WOUND_PESTS)[number];

interface PestRule {
  readonly kind: 'pest';
  readonly pest: WoundPest;
  /** Host genera, for trees identified to genus only. */
  readonly genera: readonly string[];
  readonly closed: YearlyWindow;
  /** Whether wounds of urgent work are to be painted; no other wounds are. */
  readonly paint?: true;
}

/** Wood that stays where it is cut, or goes where the authority says. */
interface WoodRule {
  readonly kind: 'wood';
  readonly pest: string;
  /** Genera of hosts; all trees if undefined. */
  readonly genera?: readonly string[];
  /** Where it holds in zones alone, or for some hosts, a clause. */
  readonly onlyIf?: string;
  /** What is done with it: `burned or buried`. */
  readonly fate?: string;
}

/** Days that a nest survey remains valid. */
interface NestSurveyRule {
  readonly kind: 'nest survey';
  readonly days: number;
}

/** Height at which the diameter is measured, m above ground. */
interface BreastHeightRule {
  readonly kind: 'breast height';
  readonly height: number;
}

interface NestRule {
  readonly kind: 'nest';
  /** Genera or binomials; all birds if undefined. */
  readonly of?: readonly string[];
  /** Whether the nest is protected while it is empty, and for how many months after its last use. */
  readonly empty: 'free' | 'protected' | { readonly months: number };
  /** Without it an owner or a permit is of no use: no work at any date. */
  readonly never?: true;
}

interface NestBufferRule {
  readonly kind: 'nest buffer';
  readonly of: readonly string[];
  /** Undefined where none was found: a biologist says it. */
  readonly distance?: number;
  /** Of a nest in use; the season of the bird in the place if undefined. */
  readonly closed?: YearlyWindow;
  /** `felling` at every date, of a nest in use or not; `work` while a nest in use is in season. */
  readonly acts: 'felling' | 'work';
  /** Where it holds only as the place decides, a clause: `it holds in sight of the nest`. */
  readonly onlyIf?: string;
}

interface PermitRule extends OnLand {
  readonly kind: 'permit';
  readonly acts: 'felling' | 'pruning' | 'any work';
  /** Undefined: trees of every size. */
  readonly measure?: 'girth' | 'diameter';
  /** Height at which it is measured, m. */
  readonly at?: number;
  /** From this size on, m. */
  readonly from?: number;
  /** Genera or binomials with a size of their own. */
  readonly sizes?: readonly { readonly of: readonly string[]; readonly from: number }[];
  /** Genera of which some trees need none, as fruit trees. */
  readonly exempt?: readonly string[];
  /** Only trees that the inventory calls protected (an order, a conservation area, an overlay). */
  readonly protectedOnly?: 'order' | 'conservation area' | 'listed';
  /** Not trees that the inventory calls protected so. */
  readonly unlessUnder?: 'order';
  /** Days of notice to the authority after which the work may begin without a permit. */
  readonly notice?: number;
  /** Whether that is so only for trees that are dead or give way. */
  readonly noticeOnly?: 'dead or dangerous';
  /** What else is free and can't be told from one tree, as a clause. */
  readonly freeToo?: string;
}

interface PruningShareRule {
  readonly kind: 'pruning share';
  /** Largest share of the crown. */
  readonly share: number;
  /** Within so many years; over the whole life if undefined. */
  readonly years?: number;
}

export interface DroneRule {
  readonly kind: 'drone';
  readonly height?: number;
  readonly above?: 'ground' | 'surface' | 'sea';
  /** Horizontal distance from people who take no part. */
  readonly people?: number;
  readonly over?: 'never' | 'consent' | 'by class';
  readonly sight?: true;
  /** By day only. */
  readonly byDay?: true;
}

/** For people only: nothing is computed from it. */
interface WordsRule {
  readonly kind: 'words';
}

export type LawRule =
  | ApproachRule
  | AskOwnerRule
  | SecondWorkerRule
  | FellingZoneRule
  | DropZoneRule
  | SeasonRule
  | PestRule
  | WoodRule
  | NestSurveyRule
  | BreastHeightRule
  | NestRule
  | NestBufferRule
  | PermitRule
  | PruningShareRule
  | DroneRule
  | WordsRule;

export type Protected = 'birds' | 'birds of prey' | 'eagles' | 'bats';

/** The day on which the rows were gathered. */
export const LAST_READ = '2026-11-29';

export interface LawRow {
  readonly id: string;
  /** ISO 3166 codes; a country holds for its subdivisions, `EU` for its members. */
  readonly region: readonly string[];
  readonly subject: LawSubject;
  /** What it says, as a clause or sentence for people. */
  readonly says: string;
  /** Whom it binds. */
  readonly binds: string;
  /** Subdivisions in which it does not hold. */
  readonly notIn?: readonly string[];
  /** The act or document with its section, as it is cited. */
  readonly source: string;
  /** Its name in a sentence, `Migratory Bird Treaty Act`, if it is not cited by its source. */
  readonly act?: string;
  /** What findings cite it for: acts that protect nests or roosts and bind persons. */
  readonly protects?: Protected;
  readonly force: Force;
  readonly read: ReadState;
  /** ISO date on which it was read or last looked for; `LAST_READ` by default. */
  readonly readOn?: string;
  /** What is from memory, or doubtful. */
  readonly doubt?: string;
  /** ISO dates of validity, if known. */
  readonly from?: string;
  readonly until?: string;
  readonly rule: LawRule;
}
