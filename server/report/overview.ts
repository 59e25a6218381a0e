/** The first page for a client: who must be kept out today, then what is due now, this season, and what is watched. */

import { openFollowUps } from '../assess/evidence.ts';
import { openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { URGENCIES, type Urgency } from '../assess/urgency.ts';
import { counted, listed } from '../base/words.ts';
import { RISK_RATINGS } from '../practice/risk.ts';
import { readInRegion } from '../show/in-region.ts';
import { longDate, longDays } from '../show/long-date.ts';
import type { ReportData, ReportTree } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { keepOut } from './keep-out.ts';
import { asOf, groupBySite, linkTo, list, table, worstRating } from './parts.ts';
import { nothingPlanned, plainInvestigation, plainSign, plainWork } from './plain-words.ts';
import { personWords, treeTitle } from './words.ts';

const HEADINGS: Readonly<Record<Urgency, { readonly title: string; readonly what: string }>> = {
  now: {
    title: 'Now',
    what: 'failing, overdue, rated high or beyond a limit without work, or of immediate priority',
  },
  'this season': { title: 'This season', what: 'due within half a year, or without a date' },
  watch: { title: 'Watch', what: 'nothing due yet' },
};

/** @param chapters trees with something open, the most urgent first */
export function overview(data: ReportData, chapters: readonly ReportTree[]): Markup {
  const closed = chapters.flatMap(entry => {
    const out = keepOut(entry, data.on);
    return out ? [{ entry, out }] : [];
  });
  return html`<div>
    ${
      closed.length > 0 &&
      html`<div class="stop"><h3>Keep people out today</h3><ul>${closed.map(
        ({ entry, out }) =>
          html`<li><strong>${out.where}</strong>, at ${link(entry, chapters, data)}: ${readInRegion(out.why, entry.settings.region)}.${openPrescriptionsOfAnyKind(entry.tree).length === 0 && html` <strong>Nothing is prescribed yet: have a qualified person decide today.</strong>`}</li>`,
      )}</ul><p>Keep them out until the work is done or a qualified person on site has opened the place again. That person decides how far.</p></div>`
    }
    <p class="lead">${summaryOf(data, chapters)}</p>
    ${URGENCIES.map(urgency => group(urgency, chapters, data))}
  </div>`;
}

function group(urgency: Urgency, chapters: readonly ReportTree[], data: ReportData): Markup | false {
  const own = chapters.filter(entry => entry.urgency === urgency);
  const { title, what } = HEADINGS[urgency];
  const hasSites = groupBySite(data.trees).length > 1;
  return (
    own.length > 0 &&
    html`<section class=${`group ${urgency.replace(' ', '-')}`}><h3>${title} <small>${what}</small></h3>${table(
      title,
      ['Tree', 'What we saw', 'Risk', 'What we advise', 'By when'],
      own.map(entry => [
        hasSites && entry.site
          ? html`<span>${link(entry, chapters, data)} <span class="quiet">${entry.site.name.value}</span></span>`
          : link(entry, chapters, data),
        readInRegion(sawOf(entry), entry.settings.region),
        RISK_RATINGS[worstRating(entry)] ?? 'not rated',
        ...advice(entry, data.on),
      ]),
    )}</section>`
  );
}

const link = (entry: ReportTree, chapters: readonly ReportTree[], data: ReportData): Markup =>
  html`<a href=${`#${linkTo(entry, data)}`}>${`${chapters.indexOf(entry) + 1}. ${treeTitle(entry.tree)}`}</a>`;

function summaryOf(data: ReportData, chapters: readonly ReportTree[]): string {
  const { trees, on } = data;
  const inspections = trees.flatMap(({ tree }) => tree.inspections.filter(({ date }) => date.value <= on));
  const people = [...new Set(inspections.flatMap(({ by }) => (by ? [personWords(by.value, data)] : [])))];
  const days = inspections.map(({ date }) => date.value);
  const firms = [...new Set(trees.flatMap(({ site }) => site?.firm?.value ?? []))];
  const unrated = chapters.filter(entry => worstRating(entry) < 0).length;
  return [
    `${counted(trees.length, 'tree')} as of ${asOf(data)}.`,
    ...(days.length > 0
      ? [
          `Inspected ${longDays({ from: Math.min(...days), to: Math.max(...days) }, trees[0]!.settings.region)}${people.length > 0 ? ` by ${listed(people)}` : ''}.`,
        ]
      : []),
    ...(firms.length > 0 ? [`Prepared by ${firms.join('; ')}.`] : []),
    chapters.length === 0
      ? 'None needs a decision.'
      : `${counted(chapters.length, 'tree needs', 'trees need')} a decision, work or another inspection; ${chapters.length === 1 ? 'the details follow below' : 'the details of each follow under its number'}.`,
    ...(unrated > 0 ? [`${unratedWords(unrated, chapters.length)}: that does not mean that it is low.`] : []),
  ].join(' ');
}

function unratedWords(unrated: number, all: number): string {
  if (all === 1) return 'Its risk is not rated';
  return `The risk of ${unrated === all ? 'none of them is rated' : `${unrated} of them is not rated`}`;
}

function sawOf({ tree, assessment: { signs } }: ReportTree): string {
  const worst = signs.filter(({ standing }) => standing !== 'within').slice(0, 2);
  if (worst.length > 0) return worst.map(plainSign).join('; ');
  return tree.inspections.length > 0 ? 'No defect beyond its limit' : 'Not inspected';
}

/** Each job and inspection with why, and when it is due, in the same order. */
function advice(entry: ReportTree, on: number): readonly [what: MarkupContent, when: MarkupContent] {
  const { tree, settings } = entry;
  const overdue = (to: number, words: string) => (to < on ? `${words} (overdue)` : words);
  const closed = keepOut(entry, on) ? ['people kept out today'] : [];
  const jobs = [
    ...openPrescriptionsOfAnyKind(tree).map(one => ({
      what: `${plainWork(one, tree)}${one.because ? ` (${one.because.value.replace(/[.!]$/, '')})` : ''}`,
      when: one.between ? overdue(one.between.to, longDays(one.between, settings.region)) : 'no dates set',
    })),
    ...openFollowUps(tree).map(one => ({
      what: plainInvestigation(one),
      when: one.due
        ? overdue(one.due.value, `by ${longDate(one.due.value, settings.region)}`)
        : 'no date set',
    })),
  ];
  const [job, ...others] = jobs;
  if (!job) return [nothingPlanned(entry), closed[0] ?? 'no date set'];
  if (others.length === 0) return [job.what, [...closed, job.when].join('; ')];
  return [
    list(jobs.map(({ what }, i) => `${i + 1}) ${what}`)),
    list([...closed, ...jobs.map(({ when }, i) => `${i + 1}) ${when}`)]),
  ];
}
