import type { MonthDay } from '../base/dates.ts';
import type { YearlyWindow } from '../base/yearly-window.ts';
import type { Citation, Confidence } from './citation.ts';
import type { Rests } from './limit-row.ts';

/** A season in which the trade keeps away, by custom or by law. */
export interface Season {
  readonly window: YearlyWindow;
  /** Practice where the text of no law gives the days; left out there. */
  readonly rests?: Exclude<Rests, 'safety'>;
  readonly citation: Citation;
  readonly confidence: Confidence;
  readonly note?: string;
}

/** What fresh wounds draw or let in. */
const WOUND_PESTS = [
  'oak wilt',
  'Dutch elm disease',
  'fire blight',
  'silver leaf',
  'pine bark beetles',
] as const;
export type WoundPest = (typeof WOUND_PESTS)[number];

/** When hosts are not cut, so that fresh wounds draw nothing. */
export interface PruningWindow extends Season {
  readonly pest: WoundPest;
  /** Genera of the hosts, for a tree whose species is not known. */
  readonly genera: readonly string[];
  /** Whether wounds that cannot wait are painted: nowhere else is paint right. */
  readonly paint: boolean;
}

export interface Statute {
  readonly citation: Citation;
  readonly protects: 'birds' | 'birds of prey' | 'eagles' | 'bats' | 'listed species' | 'trees and hedges';
  /** In our own words, as a clause: what is unlawful. */
  readonly prohibits: string;
  /** ISO date since when it reads so, where known. */
  readonly since?: string;
}

export interface RegionPack {
  /** ISO 3166-2 (or 3166-1 for a country), or `default`. */
  readonly code: string;
  readonly name: string;
  readonly nesting: Season;
  readonly raptorNesting: Season;
  readonly batMaternity: Season;
  /** Days that a nest survey holds here. */
  readonly nestSurveyValidity: {
    readonly days: number;
    readonly citation: Citation;
    readonly confidence: Confidence;
  };
  readonly pruning: readonly PruningWindow[];
  readonly statutes: readonly Statute[];
  /** m above ground, where the diameter is measured. */
  readonly breastHeight: {
    readonly height: number;
    readonly citation: Citation;
    readonly confidence: Confidence;
  };
  /** ISO date from which the pack holds as written. */
  readonly validFrom: string;
}

/** Reads `MM-DD..MM-DD` of the tables. */
export function yearly(text: string): YearlyWindow {
  const [from, to] = text.split('..').map((end): MonthDay => {
    const [month, day] = end.split('-').map(Number);
    return { month: month!, day: day! };
  });
  return { from: from!, to: to! };
}
