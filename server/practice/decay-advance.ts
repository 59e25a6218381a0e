/**
 * How fast decay advances outward, and how fast a stem adds wood. No study gives a rate at which decay breaches the
 * barrier of a living tree: the ranges are judged between the few figures there are.
 */

import { type Interval, interval } from '../base/interval.ts';
import { type Citation, cite } from './citation.ts';

interface Advance {
  /** m a year. */
  readonly range: Interval;
  /** Follows `decay`. */
  readonly words: string;
}

export const ADVANCES = {
  closed: { range: interval(0, 0.002), words: 'as behind a closed wound of a tree in good vigor' },
  open: {
    range: interval(0, 0.004),
    words: 'as in an open cavity or with a fungus that stays behind the barrier',
  },
  breaching: { range: interval(0.002, 0.01), words: 'as with a fungus that breaches the barrier' },
  declining: { range: interval(0.002, 0.01), words: 'as in a declining tree' },
  unknown: { range: interval(0, 0.01), words: 'as where vigor or fungus is not known' },
} as const satisfies Readonly<Record<string, Advance>>;

/** Width of a ring of a mature tree, m: from memory. */
export const RING_WIDTH: Interval = interval(0.0005, 0.003);

interface BreachRow {
  readonly fungus: string;
  /** Genera of trees; without any, all. */
  readonly hosts?: readonly string[];
  readonly breaches: boolean;
}

/** All from one study. */
const BREACHES: readonly BreachRow[] = [
  row('Inonotus hispidus', true, ['Platanus', 'Fagus', 'Tilia']),
  row('Ganoderma adspersum', true, ['Platanus', 'Fagus', 'Tilia']),
  row('Kretzschmaria deusta', true, ['Tilia']),
  row('Kretzschmaria deusta', false, ['Fagus']),
  row('Ustulina deusta', true, ['Tilia']),
  row('Ustulina deusta', false, ['Fagus']),
  row('Fomitopsis pinicola', false),
];

function row(fungus: string, breaches: boolean, hosts?: readonly string[]): BreachRow {
  return { fungus, breaches, ...(hosts ? { hosts } : {}) };
}

/** Whether a fungus breaches the barrier in this genus of trees; undefined where no study says. */
export const breaches = (fungus: string | undefined, host: string | undefined): boolean | undefined =>
  BREACHES.find(
    ({ fungus: name, hosts }) =>
      name === fungus && (hosts === undefined || (host !== undefined && hosts.includes(host))),
  )?.breaches;

/** Fungi that spread along probe holes, by a trial of eight months. */
export const spreadsAlongHoles = (fungus: string | undefined): boolean => fungus === 'Inonotus hispidus';
export const holesCitation: Citation = cite('kersten-schwarze');
