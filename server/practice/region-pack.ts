import type { MonthDay } from '../base/dates.ts';
import type { YearlyWindow } from '../base/yearly-window.ts';
import type { Citation, Confidence } from './citation.ts';
import type { Rests } from './limit-row.ts';

/** A season closed to work, by custom or by law. */
export interface ClosedSeason {
  readonly window: YearlyWindow;
  /** `practice` by default: no law states the days. */
  readonly rests?: Exclude<Rests, 'safety'> | undefined;
  readonly citation: Citation;
  readonly confidence: Confidence;
  readonly note?: string | undefined;
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

/** Season in which hosts of a pest are not to be cut. */
export interface PruningWindow extends ClosedSeason {
  readonly pest: WoundPest;
  /** Host genera, for trees identified to genus only. */
  readonly genera: readonly string[];
  /** Whether wounds of urgent work are to be painted; no other wounds are. */
  readonly paint: boolean;
}

export interface Statute {
  readonly citation: Citation;
  readonly protects: 'birds' | 'birds of prey' | 'eagles' | 'bats' | 'listed species' | 'trees and hedges';
  /** What is unlawful, paraphrased as a clause. */
  readonly prohibits: string;
  /** ISO date of the current wording, if known. */
  readonly since?: string;
}

export interface RegionPack {
  /** ISO 3166-2 (or 3166-1 for a country), or `default`. */
  readonly code: string;
  readonly name: string;
  readonly nesting: ClosedSeason;
  readonly raptorNesting: ClosedSeason;
  readonly batMaternity: ClosedSeason;
  /** Days that a nest survey remains valid. */
  readonly nestSurveyValidity: {
    readonly days: number;
    readonly citation: Citation;
    readonly confidence: Confidence;
  };
  readonly pruning: readonly PruningWindow[];
  readonly statutes: readonly Statute[];
  /** Height at which the diameter is measured, m above ground. */
  readonly breastHeight: {
    readonly height: number;
    readonly citation: Citation;
    readonly confidence: Confidence;
  };
  /** ISO date from which the pack is valid. */
  readonly validFrom: string;
}

/** Parses `MM-DD..MM-DD`. */
export function yearly(text: string): YearlyWindow {
  const [from, to] = text.split('..').map((end): MonthDay => {
    const [month, day] = end.split('-').map(Number);
    return { month: month!, day: day! };
  });
  return { from: from!, to: to! };
}
