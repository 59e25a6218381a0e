/** What open work and investigations cost and take, as stated; nothing is filled in. */

import type { FollowUp, Prescription, Tree } from '../facts/types.ts';
import { openFollowUps } from './evidence.ts';
import { alternativesTo } from './jobs.ts';
import { openPrescriptionsOfAnyKind, openWork } from './prescriptions.ts';

export interface QuotedJob {
  readonly tree: Tree;
  readonly fact: Prescription | FollowUp;
  /** Whether there is anything to do: retaining and monitoring a tree has no price to be missed. */
  readonly isWork: boolean;
}

/** Jobs of which only one is done; mostly one alone. */
export type Choice = readonly QuotedJob[];

function choicesOf(tree: Tree): readonly Choice[] {
  const open = openPrescriptionsOfAnyKind(tree);
  const work = openWork(tree);
  const counts = (one: Prescription) => work.includes(one) || one.price !== undefined;
  const taken = new Set<Prescription>();
  const choices = open.flatMap((one): readonly Choice[] => {
    if (taken.has(one)) return [];
    const all = [one, ...alternativesTo(tree, one).filter(other => open.includes(other))];
    for (const other of all) taken.add(other);
    return all.some(counts) ? [all.map(fact => ({ tree, fact, isWork: work.includes(fact) }))] : [];
  });
  return [...choices, ...openFollowUps(tree).map(fact => [{ tree, fact, isWork: true }])];
}

/** A sum over choices: between the least and the most that they can come to. */
export interface QuoteSum {
  readonly low: number;
  /** Infinity where an amount is stated only from below. */
  readonly high: number;
  /** The job of each real choice that the ends are for. */
  readonly lowest: readonly QuotedJob[];
  readonly highest: readonly QuotedJob[];
  /** Whether an alternative has no amount in this sum, so that its ends are not those of the choices. */
  readonly isOpen: boolean;
  /** Whether an amount is an estimate. */
  readonly isAbout: boolean;
  /** Jobs without an amount. */
  readonly missing: readonly QuotedJob[];
}

type Amount = NonNullable<QuotedJob['fact']['hours']>;

/** @param amountOf undefined where none is stated; null for one that does not belong to this sum */
function sumOf(
  choices: readonly Choice[],
  amountOf: (job: QuotedJob) => Amount | undefined | null,
): QuoteSum {
  const sum = { low: 0, high: 0, isAbout: false, isOpen: false };
  const lowest: QuotedJob[] = [];
  const highest: QuotedJob[] = [];
  const missing: QuotedJob[] = [];
  for (const choice of choices) {
    const ends = choice.map(job => {
      const amount = amountOf(job);
      const value = amount && amount.value.form !== 'unseen' ? amount.value : undefined;
      if (!value && amount !== null && job.isWork) missing.push(job);
      if (!value && choice.length > 1 && job.isWork) sum.isOpen = true;
      if (value?.form === 'about') sum.isAbout = true;
      // Whoever chooses a job without an amount pays none of the others.
      return { job, low: value?.low ?? 0, high: value?.high ?? 0 };
    });
    const least = ends.reduce((a, b) => (b.low < a.low ? b : a));
    const most = ends.reduce((a, b) => (b.high > a.high ? b : a));
    sum.low += least.low;
    sum.high += most.high;
    if (choice.length > 1) {
      lowest.push(least.job);
      highest.push(most.job);
    }
  }
  return { ...sum, lowest, highest, missing };
}

export type Currency = NonNullable<QuotedJob['fact']['price']>['currency'];

export interface Quote {
  readonly choices: readonly Choice[];
  /** One for each currency: they are never added. */
  readonly prices: readonly (QuoteSum & { readonly currency: Currency })[];
  /** Undefined where none are stated. */
  readonly hours: QuoteSum | undefined;
  /** The same for each crew, by its identifier; undefined for work without one. */
  readonly hoursByCrew: readonly (QuoteSum & { readonly crew: string | undefined })[];
}

const crewOf = ({ fact }: QuotedJob): string | undefined => ('crew' in fact ? fact.crew?.value : undefined);

/** Undefined where neither a price nor hours are stated. */
export function quoteOf(trees: readonly Tree[]): Quote | undefined {
  const choices = trees.flatMap(choicesOf);
  const jobs = choices.flat();
  const currencies = new Set(jobs.flatMap(({ fact }) => fact.price?.currency ?? []));
  const hasHours = jobs.some(({ fact }) => fact.hours);
  if (currencies.size === 0 && !hasHours) return undefined;
  return {
    choices,
    prices: [...currencies].map(currency => ({
      currency,
      ...sumOf(choices, ({ fact: { price } }) =>
        price && price.currency !== currency ? null : price?.amount,
      ),
    })),
    hours: hasHours ? sumOf(choices, ({ fact }) => fact.hours) : undefined,
    hoursByCrew: hasHours
      ? [...new Set(jobs.filter(({ isWork }) => isWork).map(crewOf))].map(crew => ({
          crew,
          ...sumOf(choices, job => (crewOf(job) === crew ? job.fact.hours : null)),
        }))
      : [],
  };
}
