/**
 * Facts: what the text says, typed and still without judgement. Every fact knows its place, relative to the
 * block that holds it; nothing here depends on other blocks, files, practice or today.
 *
 * Only lines without a mistake give values. A damaged head still opens its fact, so that the lines below it
 * are not lost: what it fails to say reads `?`; without its day a dated fact is left out.
 */

import type { SpeciesName } from '../../grammar/species.ts';
import type { Span } from '../../grammar/text.ts';
import type { MonthDay } from '../base/dates.ts';
import type { Quantity } from '../base/quantity.ts';

/** A value and where it stands in its block. */
export interface Placed<T> extends Span {
  readonly value: T;
}
type Q = Placed<Quantity>;
type Word = Placed<string>;
/** A day number, see base/dates.ts. */
type Day = Placed<number>;
export interface Window extends Span {
  readonly from: number;
  readonly to: number;
}
/** A fact that a head opens: `at` marks the head line's content. */
interface Headed {
  readonly at: Span;
  /** What its writer noted beside the fields; absent where there is none. */
  readonly notes?: readonly Word[];
}
/** A field that may stand once and stands again: the first one counts. */
export interface Repeated extends Span {
  readonly word: string;
  readonly first: Span;
}
/**
 * Fields whose lines have a mistake, by the place of their head in the block; `*` where a line below that head
 * can't be told to be any field.
 */
export type Damage = ReadonlyMap<number, ReadonlySet<string>>;
/** A fact of the file itself, from one block. */
interface FileFact extends Headed {
  /** Absent where nothing is repeated. */
  readonly repeated?: readonly Repeated[];
  /** Absent where no line has a mistake. */
  readonly damage?: Damage;
}
/** From where it was looked at; `?` where the line that says so is damaged. */
export type Vantage = 'ground' | 'drone' | 'rope' | 'lift' | 'platform' | 'window' | '?';
export interface GeoPosition extends Span {
  readonly latitude: number;
  readonly longitude: number;
}
export interface Photo extends Span {
  readonly path: string;
  readonly distance?: Q;
  readonly focal?: Q;
  readonly pixels?: Q;
}

export interface Site extends FileFact {
  readonly kind: 'site';
  readonly name: Word;
  readonly region?: Word;
  readonly position?: GeoPosition;
  readonly wind?: { readonly speed: Q; readonly exposure: 'B' | 'C' | 'D' };
  readonly client?: Word;
  readonly interval?: Q;
  readonly breastHeight?: Q;
  readonly storms: readonly { readonly date: Day; readonly text?: string }[];
  readonly grounds?: Word;
  readonly airspace?: Span & { readonly controlled: boolean; readonly authorizedUntil?: number };
}
export interface Person extends FileFact {
  readonly kind: 'person';
  readonly id: Word;
  readonly name: Word;
  readonly qualifications: readonly Word[];
  readonly certificates: readonly { readonly number: Word; readonly until?: Day }[];
}
export interface Crew extends FileFact {
  readonly kind: 'crew';
  readonly id: Word;
  readonly name: Word;
  readonly members: readonly Word[];
  readonly qualifications: readonly Word[];
  readonly rope?: Q;
  readonly crane?: { readonly mass: Q; readonly reach?: Q };
  readonly lift?: Q;
}
export interface Practice extends FileFact {
  readonly kind: 'practice';
  readonly name: Word;
  readonly limits: readonly (Headed & {
    readonly name: Word;
    readonly value: Q;
    readonly because?: Word;
    /** What allows it where the law does not; `until` is its last day. */
    readonly authorized?: Span & { readonly by: string; readonly until: number };
  })[];
  readonly seasons: readonly (Headed & {
    readonly season: Word;
    readonly from: MonthDay;
    readonly to: MonthDay;
    readonly because?: Word;
  })[];
  readonly severities: readonly (Headed & {
    readonly rule: Word;
    readonly level: Word;
    readonly because?: Word;
  })[];
}

export interface Sizes {
  /** Diameters at breast height, one for each stem; from `girth` divided by π where that was taped. */
  readonly diameters: readonly Q[];
  /** Height of measuring, where it is stated. */
  readonly measuredAt?: Q;
  readonly height?: Q;
}
/** With the sizes measured on that day. */
export interface Inspection extends Headed, Sizes {
  readonly date: Day;
  readonly from: Vantage;
  readonly by?: Word;
  readonly level?: Word;
  readonly flown?: Span & {
    readonly height: Q;
    readonly permission?: string;
    readonly overPeople: boolean;
    readonly time?: string;
    readonly standOff?: Q;
  };
  readonly tools: readonly Word[];
  readonly unseen: readonly Word[];
  readonly photos: readonly Photo[];
}
/** A stem or a limb. */
export interface StemOrLimb extends Headed {
  readonly kind: 'stem' | 'limb';
  readonly name: Word;
  readonly from?: Q;
  readonly facing?: number;
  readonly diameter?: Q;
  readonly height?: Q;
  readonly length?: Q;
  readonly union?: Word;
  readonly unionWith?: Word;
  readonly lean?: Q;
  readonly crownBase?: Q;
  readonly crownSpread?: Q;
}
export interface Defect extends Headed {
  readonly id: Word;
  readonly kind: Word;
  readonly part?: Word;
  readonly height?: Q;
  /** Degrees clockwise from north. */
  readonly facing?: number;
  /** Day of the inspection that saw it: `seen`, else the last inspection above. */
  readonly seen?: number;
  readonly inspection?: Inspection;
  readonly state?: Word;
  readonly diameter?: Q;
  readonly across?: Q;
  readonly bark?: Q;
  readonly opening?: Span & { readonly closed: boolean; readonly width?: Q; readonly tall?: Q };
  readonly depth?: Q;
  readonly walls: readonly { readonly thickness: Q; readonly bearing?: number }[];
  readonly length?: Q;
  readonly width?: Q;
  readonly share?: { readonly share: Q; readonly of: string };
  readonly species?: Placed<SpeciesName>;
  readonly closed?: Day;
  readonly photos: readonly Photo[];
}
export interface Joined extends Headed {
  readonly defects: readonly Word[];
  readonly state: 'suspected' | 'proved' | 'excluded';
  /** Day: `seen`, else that of the last inspection above. */
  readonly seen?: number;
}
export interface Target extends Headed {
  readonly name: Word;
  readonly distance?: Q;
  readonly toward?: number;
  readonly occupied?: Word;
  readonly kind?: Word;
  /** Days on which people are kept out; without `until` from that day on. */
  readonly closed?: Span & { readonly from: number; readonly until?: number; readonly by?: Word };
}
export interface Risk extends Headed {
  readonly target: Word;
  readonly defect?: Word;
  readonly failure?: Word;
  readonly impact?: Word;
  readonly consequences?: Word;
  readonly rating?: Word;
  readonly within?: Q;
  /** Day: `seen`, else that of the last inspection above. */
  readonly seen?: number;
  readonly by?: Word;
}
export interface Conductor extends Headed {
  readonly name: Word;
  readonly voltage?: Q;
  readonly distance?: Q;
  readonly height?: Q;
  readonly dead?: Window;
}
export interface NestCheck extends Headed {
  readonly date: Day;
  readonly from: Vantage;
  readonly by?: Word;
  readonly standOff?: Q;
  readonly found: readonly (Span & {
    readonly use: 'none' | 'active' | 'old' | 'unclear';
    readonly species?: SpeciesName;
    readonly height?: Q;
  })[];
  readonly photos: readonly Photo[];
}
export interface BatCheck extends Headed {
  readonly date: Day;
  readonly from: Vantage;
  readonly by?: Word;
  readonly found: readonly (Span & { readonly use: string; readonly defect?: Word })[];
}
export interface View extends Headed {
  readonly name: Word;
  readonly eye?: Q;
  readonly away?: Q;
  readonly hide?: { readonly object: Q; readonly beyond: Q };
  readonly open?: { readonly object: Q; readonly beyond: Q };
}
export interface SizeChange extends Span {
  readonly from: Q;
  readonly to: Q;
}
export interface Prescription extends Headed {
  readonly id: Word;
  readonly kind: Word;
  readonly height?: SizeChange;
  readonly spread?: SizeChange;
  readonly base?: SizeChange;
  readonly dose?: Q;
  readonly cutDiameter?: Q;
  readonly laterals?: Q;
  readonly methods: readonly Word[];
  readonly painted?: boolean;
  readonly for: readonly Word[];
  readonly remove: readonly Word[];
  readonly between?: Window;
  readonly priority?: Word;
  readonly stages?: Q;
  readonly because?: Word;
  readonly by?: Word;
  /** `dated`, else the day of the last inspection above. */
  readonly dated?: number;
  readonly crew?: Word;
  readonly exclusion?: Q;
  readonly piece?: Span & { readonly mass?: Q; readonly length?: Q; readonly diameter?: Q };
  /** How it comes down; a bearing where it is felled whole. */
  readonly takedown?: Span & { readonly how: 'dismantled' | 'by crane' | 'whole'; readonly toward?: number };
  readonly logs: readonly Q[];
  readonly stump?: Span & { readonly what: 'grind' | 'leave'; readonly size?: Q };
  readonly replacement?: Span & {
    readonly count: number;
    readonly species?: SpeciesName;
    readonly text?: string;
  };
  readonly permit?: { readonly number: Word; readonly until?: Day };
  readonly replaces?: Word;
  /** Prescriptions of which only one, this or one of them, will be done. */
  readonly alternatives: readonly Word[];
  readonly withdrawn?: Day;
}
export interface Work extends Headed {
  readonly prescription: Word;
  readonly date: Day;
  readonly by?: Word;
  readonly crew?: Word;
  readonly dose?: Q;
  readonly height?: Q;
  readonly spread?: Q;
  readonly cutDiameter?: Q;
  readonly laterals?: Q;
}
export interface FollowUp extends Headed {
  readonly id: Word;
  readonly kind: Word;
  readonly of: readonly Word[];
  readonly due?: Day;
  readonly done?: Day;
  readonly by?: Word;
}
export interface Accept extends Headed {
  readonly rule: Word;
  readonly subject?: Word;
  readonly until?: Day;
  readonly by?: Word;
  readonly because?: Word;
}

/** With the sizes that count now: its own, else those that the last inspection measured. */
export interface Tree extends FileFact, Sizes {
  readonly kind: 'tree';
  readonly tag: Word;
  readonly name?: Word;
  readonly species?: Placed<SpeciesName>;
  readonly position?: GeoPosition;
  readonly crownBase?: Q;
  readonly crownSpread?: Q;
  readonly liveCrown?: Q;
  readonly lean?: { readonly angle: Q; readonly toward?: number; readonly course?: string };
  readonly soil?: Word;
  readonly age?: Word;
  readonly vigor?: Word;
  readonly stressed?: Span & { readonly cause: string; readonly since?: number };
  readonly protection?: Span & {
    readonly by?: string;
    readonly permit?: Word;
    readonly until?: number;
    readonly scope?: string;
  };
  readonly formerly: readonly Word[];
  readonly felled?: Day;
  readonly photos: readonly Word[];
  readonly inspections: readonly Inspection[];
  readonly parts: readonly StemOrLimb[];
  readonly defects: readonly Defect[];
  readonly joined: readonly Joined[];
  readonly targets: readonly Target[];
  readonly risks: readonly Risk[];
  readonly conductors: readonly Conductor[];
  readonly nestChecks: readonly NestCheck[];
  readonly batChecks: readonly BatCheck[];
  readonly views: readonly View[];
  readonly prescriptions: readonly Prescription[];
  readonly works: readonly Work[];
  readonly followUps: readonly FollowUp[];
  readonly accepts: readonly Accept[];
}

export type Fact = Site | Person | Crew | Practice | Tree;
