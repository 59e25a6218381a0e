/** The first page for a client: who must be kept out today, then what is due now, this season, and what is watched. */

import { openFollowUps } from '../assess/evidence.ts';
import { openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { URGENCIES, type Urgency } from '../assess/urgency.ts';
import { counted, listed } from '../base/words.ts';
import { RISK_RATINGS } from '../practice/risk.ts';
import { longDate, longDays } from '../show/long-date.ts';
import type { ReportData, ReportTree } from './data.ts';
import { html, type Markup } from './html.ts';
import { keepOut } from './keep-out.ts';
import { asOf, linkTo, table, worstRating } from './parts.ts';
import { nothingPlanned, plainInvestigation, plainSign, plainWork } from './plain-words.ts';
import { personWords, treeTitle } from './words.ts';

const HEADINGS: Readonly<Record<Urgency, string>> = {
  now: 'Now',
  'this season': 'This season',
  watch: 'Watch',
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
        ({ entry, out }) => html`<li>${link(entry, chapters, data)}: <strong>${out.where}</strong></li>`,
      )}</ul></div>`
    }
    <p class="lead">${summaryOf(data, chapters)}</p>
    ${URGENCIES.map(urgency => group(urgency, chapters, data))}
  </div>`;
}

function group(urgency: Urgency, chapters: readonly ReportTree[], data: ReportData): Markup | false {
  const own = chapters.filter(entry => entry.urgency === urgency);
  return (
    own.length > 0 &&
    html`<section class=${`group ${urgency.replace(' ', '-')}`}><h3>${HEADINGS[urgency]}</h3>${table(
      HEADINGS[urgency],
      ['Tree', 'What we saw', 'Risk', 'What we advise', 'By when'],
      own.map(entry => [
        link(entry, chapters, data),
        sawOf(entry),
        RISK_RATINGS[worstRating(entry)] ?? 'not rated',
        adviceOf(entry),
        whenOf(entry, data.on),
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
  const who = people.length > 0 ? `, inspected by ${listed(people)}` : '';
  const asks =
    chapters.length === 0
      ? 'None needs a decision.'
      : `${counted(chapters.length, 'tree needs', 'trees need')} a decision, work or another inspection.`;
  return `${counted(trees.length, 'tree')} as of ${asOf(data)}${who}. ${asks}`;
}

function sawOf({ tree, assessment: { signs } }: ReportTree): string {
  const worst = signs.filter(({ standing }) => standing !== 'within').slice(0, 2);
  if (worst.length > 0) return worst.map(plainSign).join('; ');
  return tree.inspections.length > 0 ? 'Nothing recorded beyond its limits' : 'Not inspected';
}

const adviceOf = (entry: ReportTree): string =>
  [
    ...openPrescriptionsOfAnyKind(entry.tree).map(one => plainWork(one, entry.tree)),
    ...openFollowUps(entry.tree).map(plainInvestigation),
  ].join('; ') || nothingPlanned(entry);

function whenOf(entry: ReportTree, on: number): string {
  const { tree, settings } = entry;
  const day = (to: number, words: string) => (to < on ? `${words} (overdue)` : words);
  const days = [
    ...openPrescriptionsOfAnyKind(tree).map(({ between }) =>
      between ? day(between.to, longDays(between, settings.region)) : 'no dates set',
    ),
    ...openFollowUps(tree).map(({ due }) =>
      due ? day(due.value, `by ${longDate(due.value, settings.region)}`) : 'no date set',
    ),
  ];
  const own = days.join('; ');
  if (keepOut(entry, on)) return `people kept out today${own === '' ? '' : `; work: ${own}`}`;
  return own || 'no date set';
}
