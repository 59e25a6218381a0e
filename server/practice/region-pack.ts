import type { MonthDay } from '../base/dates.ts';
import type { YearlyWindow } from '../base/yearly-window.ts';
import type { ApproachRule, DroneRule, LawRow, Protected, WoundPest } from './law/law-row.ts';
import type { Rests } from './limit-row.ts';
import type { Confidence, SourceRow } from './source-row.ts';

/** A season closed to work, by custom or by law. */
export interface ClosedSeason {
  readonly window: YearlyWindow;
  /** `practice` by default: no law states the days. */
  readonly rests?: Exclude<Rests, 'safety'> | undefined;
  readonly citation: SourceRow;
  readonly confidence: Confidence;
}

/** Season in which hosts of a pest are not to be cut. */
export interface PruningWindow extends ClosedSeason {
  readonly pest: WoundPest;
  /** Host genera, for trees identified to genus only. */
  readonly genera: readonly string[];
  /** Whether wounds of urgent work are to be painted; no other wounds are. */
  readonly paint: boolean;
}

export interface Statute {
  readonly citation: SourceRow;
  readonly protects: Protected;
}

/** One fact of a row. */
export interface PackValue<Value> {
  readonly value: Value;
  readonly citation: SourceRow;
  readonly row: LawRow;
}

/** Where British words are read and British standards are cited. */
export const isBritish = ({ code }: Pick<RegionPack, 'code'>): boolean => /^(?:GB|IE|IM|JE|GG)\b/.test(code);

/** What is on record for a place: the rows of the widest area to the narrowest, and what rules read from them. */
export interface RegionPack {
  /** ISO 3166-2 (or 3166-1 for a country), or `default` if none is stated. */
  readonly code: string;
  readonly name: string;
  /** From the widest area to the narrowest, without customs that a narrower row replaces. */
  readonly rows: readonly LawRow[];
  readonly nesting: ClosedSeason | undefined;
  readonly raptorNesting: ClosedSeason | undefined;
  readonly batMaternity: ClosedSeason | undefined;
  /** Where eagles keep a season of their own. */
  readonly eagleNesting: ClosedSeason | undefined;
  /** Days on which trees in which bats may roost are not felled, beside the maternity season. */
  readonly batTrees: ClosedSeason | undefined;
  readonly nestSurvey: PackValue<number>;
  readonly pruning: readonly PruningWindow[];
  /** Acts that protect nests and roosts. */
  readonly statutes: readonly Statute[];
  readonly breastHeight: PackValue<number>;
  /** Distances to lines of people without a qualification; a stand-in if no law is on record. */
  readonly approach: PackValue<ApproachRule>;
  /** Times the height of a tree felled whole. */
  readonly fellingZone: PackValue<number> | undefined;
  /** Fields of the rows on drones, those of the narrowest area first. */
  readonly drone: {
    readonly [Field in keyof Omit<DroneRule, 'kind'>]: PackValue<NonNullable<DroneRule[Field]>>;
  };
}

/** Parses `MM-DD..MM-DD`. */
export function yearly(text: string): YearlyWindow {
  const [from, to] = text.split('..').map((end): MonthDay => {
    const [month, day] = end.split('-').map(Number);
    return { month: month!, day: day! };
  });
  return { from: from!, to: to! };
}
