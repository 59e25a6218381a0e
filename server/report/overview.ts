/** The first page for a client: who must be kept out today, then what is due now, this season, and what is watched. */

import { isUninspected, lastInspectionOf, openDefects, openFollowUps } from '../assess/evidence.ts';
import { alternativesTo } from '../assess/jobs.ts';
import { openPrescriptionsOfAnyKind, openWork } from '../assess/prescriptions.ts';
import { URGENCIES, type Urgency } from '../assess/urgency.ts';
import { capital, counted, listed } from '../base/words.ts';
import type { FollowUp, Prescription } from '../facts/types.ts';
import { readInRegion } from '../show/in-region.ts';
import { longDate, longDays } from '../show/long-date.ts';
import type { ReportData, ReportTree } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { keepOut } from './keep-out.ts';
import {
  asOf,
  groupBySite,
  hasChapter,
  isUnsettled,
  linkTo,
  list,
  regionOf,
  riskWords,
  table,
  unreadLines,
  urgencyOrder,
  worstRating,
} from './parts.ts';
import {
  lookOverdue,
  needsNothing,
  nothingPlanned,
  plainInvestigation,
  plainSign,
  plainWork,
  unanswered,
  upkeep,
  wildlifeIn,
} from './plain-words.ts';
import { personWords, treeTitle } from './words.ts';

const HEADINGS: Readonly<Record<Urgency, { readonly title: string; readonly what: string }>> = {
  now: {
    title: 'Now',
    what: 'failing, overdue, rated high or beyond a limit without work, or of immediate priority',
  },
  'this season': {
    title: 'This season',
    what: 'due within half a year, without a date, or not inspected in time',
  },
  watch: { title: 'Watch', what: 'nothing due yet' },
};

/** What a first page says of a tree. */
export interface TreeNeed {
  readonly order: readonly number[];
  readonly name: string;
  /** Identifier, in its page, of the place that tells more. */
  readonly anchor: string;
  readonly site: string;
  readonly urgency: Urgency;
  /** Where people must be kept out today. */
  readonly closed: { readonly where: string; readonly why: string; readonly isPlanned: boolean } | undefined;
  /** What was seen, the risk, what is advised, by when. */
  readonly cells: readonly MarkupContent[];
}

type LinkTo = (need: TreeNeed) => Markup;

/** @param chapters trees with something open, the most urgent first */
export function overview(data: ReportData, chapters: readonly ReportTree[]): Markup {
  const needs = chapters.map(entry => needOf(entry, data));
  const hasSites = groupBySite(data.trees).length > 1;
  const numbered: LinkTo = need =>
    html`<a href=${`#${need.anchor}`}>${`${needs.indexOf(need) + 1}. ${need.name}`}</a>`;
  return html`<div>
    ${keptOut(needs, need => html`<a href=${`#${need.anchor}`}>${need.name}</a>`, hasSites)}
    <p class="lead">${summaryOf(data, chapters)}</p>
    ${URGENCIES.map(urgency =>
      group(
        urgency,
        needs.filter(need => need.urgency === urgency),
        numbered,
        hasSites,
      ),
    )}
  </div>`;
}

/** Of the trees that need something now. */
export const needsNow = (data: ReportData): readonly TreeNeed[] =>
  data.trees.filter(entry => hasChapter(entry) && entry.urgency === 'now').map(entry => needOf(entry, data));

function needOf(entry: ReportTree, data: ReportData): TreeNeed {
  const { tree, site, settings, urgency } = entry;
  const out = keepOut(entry, data.on);
  return {
    order: urgencyOrder(entry),
    name: treeTitle(tree),
    anchor: linkTo(entry, data),
    site: site?.name.value ?? '',
    urgency,
    closed: out && {
      where: out.where,
      why: readInRegion(out.why, settings.region),
      isPlanned: openWork(tree).length > 0,
    },
    cells: [
      readInRegion(sawOf(entry, data.on), settings.region),
      riskWords(entry),
      ...advice(entry, data, out !== undefined),
    ],
  };
}

export function keptOut(needs: readonly TreeNeed[], linkTo: LinkTo, hasSites: boolean): Markup | false {
  const items = needs.flatMap(need =>
    need.closed
      ? [
          html`<li><strong>${capital(need.closed.where)}</strong>, at ${linkTo(need)}${hasSites && need.site !== '' && `, ${need.site}`}: ${need.closed.why}.${!need.closed.isPlanned && html` <strong>Nothing is prescribed yet: have a qualified person decide today.</strong>`}</li>`,
        ]
      : [],
  );
  return (
    items.length > 0 &&
    html`<div class="stop"><h3>Keep people out today</h3><ul>${items}</ul><p>Keep them out until the work is done or a qualified person on site has opened the place again. That person decides how far.</p></div>`
  );
}

/** @param hasSites whether a row names the site of its tree */
export function group(
  urgency: Urgency,
  needs: readonly TreeNeed[],
  linkTo: LinkTo,
  hasSites: boolean,
): Markup | false {
  const { title, what } = HEADINGS[urgency];
  return (
    needs.length > 0 &&
    html`<section class=${`group ${urgency.replace(' ', '-')}`}><h3>${title} <small>${what}</small></h3>${table(
      title,
      ['Tree', 'What we saw', 'Risk', 'What we advise', 'By when'],
      needs.map(need => [
        hasSites && need.site !== ''
          ? html`<span>${linkTo(need)} <span class="quiet">${need.site}</span></span>`
          : linkTo(need),
        ...need.cells,
      ]),
    )}</section>`
  );
}

function summaryOf(data: ReportData, chapters: readonly ReportTree[]): string {
  const { trees } = data;
  const firms = [...new Set(trees.flatMap(({ site }) => site?.firm?.value ?? []))];
  const open = chapters.filter(entry => !needsNothing(entry, data.on)).length;
  const late = trees.filter(entry => !hasChapter(entry) && lookOverdue(entry, data.on) !== undefined).length;
  const unread = new Set(unreadLines(data.findings).map(({ file, line }) => `${file}:${line}`)).size;
  const unrated = chapters.filter(entry => worstRating(entry) < 0).length;
  return [
    `${counted(trees.length, 'tree')} as of ${asOf(data)}.`,
    ...inspectedWords(data),
    ...(firms.length > 0 ? [`Prepared by ${firms.join('; ')}.`] : []),
    ...(unread > 0
      ? [
          `${counted(unread, 'line')} of the record could not be read: what ${unread === 1 ? 'it says' : 'they say'} is missing here.`,
        ]
      : []),
    ...(open > 0
      ? [`${counted(open, 'tree needs', 'trees need')} a decision, work or another inspection.`]
      : late > 0
        ? []
        : ['Nothing on record calls for a decision.']),
    ...(late > 0
      ? [`The next inspection of ${counted(late, `${open > 0 ? 'other ' : ''}tree`)} is overdue.`]
      : []),
    ...(chapters.length > 0
      ? [
          chapters.length === 1
            ? 'The details follow below.'
            : 'The details of each tree in the tables follow under its number.',
        ]
      : []),
    ...(unrated > 0 ? [`${unratedWords(unrated, chapters.length)}: that does not mean that it is low.`] : []),
  ].join(' ');
}

/** When and by whom, and how many trees nobody has inspected. */
function inspectedWords(data: ReportData): readonly string[] {
  const { trees } = data;
  const seen = trees.map(({ tree }) => tree.inspections);
  const inspections = seen.flat();
  if (inspections.length === 0)
    return trees.every(({ tree }) => tree.felled)
      ? []
      : ['No inspection is on record: the condition of the trees is unknown.'];
  const people = [...new Set(inspections.flatMap(({ by }) => (by ? [personWords(by.value, data)] : [])))];
  const days = inspections.map(({ date }) => date.value);
  const when = longDays({ from: Math.min(...days), to: Math.max(...days) }, regionOf(data));
  const inspected = seen.filter(own => own.length > 0).length;
  const without = trees.filter(({ tree }) => isUninspected(tree)).length;
  return [
    `${inspected < trees.length ? `${inspected} of them inspected` : 'Inspected'} ${when}${people.length > 0 ? ` by ${listed(people)}` : ''}.`,
    ...(without > 0
      ? [
          `${counted(without, 'tree has', 'trees have')} no inspection on record: ${without === 1 ? 'its' : 'their'} condition is unknown.`,
        ]
      : []),
  ];
}

function unratedWords(unrated: number, all: number): string {
  if (all === 1) return 'Its risk is not rated';
  return `The risk of ${unrated === all ? 'none of them is rated' : `${unrated} of them is not rated`}`;
}

function sawOf({ tree, assessment: { signs }, findings }: ReportTree, on: number): string {
  const worst = [...new Set(signs.filter(({ standing }) => standing !== 'within').map(plainSign))];
  const last = lastInspectionOf(tree);
  return [
    ...worst.slice(0, 2),
    ...(worst.length > 2 ? [`${worst.length - 2} more beyond a limit or not judged`] : []),
    ...(last ? [] : ['Not inspected']),
    ...(last && worst.length === 0
      ? [
          signs.length > 0 || openDefects(tree).length > 0
            ? 'No defect beyond its limit'
            : 'No defect on record',
        ]
      : []),
    ...(last?.level?.value === 'limited' ? ['limited inspection'] : []),
    ...(last && tree.inspections.every(({ from }) => from.value === 'drone')
      ? ['seen from a drone only']
      : []),
    ...(last && last.unseen.length > 0 ? ['not all of it could be seen'] : []),
    ...(unreadLines(findings).length > 0 ? ['part of its record could not be read'] : []),
    ...wildlifeIn(tree, on),
  ].join('; ');
}

/** Each job and inspection with why, and when it is due, the first due first. */
function advice(
  entry: ReportTree,
  data: ReportData,
  isKeptOut: boolean,
): readonly [what: MarkupContent, when: MarkupContent] {
  const { on } = data;
  const { tree, settings } = entry;
  const open = openPrescriptionsOfAnyKind(tree);
  const because = (one: Prescription | FollowUp) =>
    one.because ? ` (${one.because.value.replace(/[.!]$/, '')})` : '';
  const oneOf = (one: Prescription) => {
    const others = alternativesTo(tree, one).filter(other => open.includes(other)).length;
    return others > 0 ? ` (one of ${others + 1} alternatives)` : '';
  };
  const overdue = (to: number, words: string) => (to < on ? `${words} (overdue)` : words);
  const closed = isKeptOut ? ['keep people out from today'] : [];
  const jobs = [
    ...open.map(one => ({
      what: `${plainWork(one, tree)}${because(one)}${oneOf(one)}`,
      isOpen: isUnsettled(entry, one),
      due: one.between?.to ?? (one.priority?.value === 'immediate' ? on : Number.POSITIVE_INFINITY),
      when: one.between
        ? `${overdue(one.between.to, longDays(one.between, settings.region))}${isTooLate(entry, one) ? ', too late for its priority' : ''}`
        : `${one.priority?.value === 'immediate' ? 'at once, ' : ''}no dates set`,
    })),
    ...openFollowUps(tree).map(one => ({
      what: `${plainInvestigation(one)}${because(one)}`,
      isOpen: false,
      due: one.due?.value ?? Number.POSITIVE_INFINITY,
      when: one.due
        ? overdue(one.due.value, `by ${longDate(one.due.value, settings.region)}`)
        : 'no date set',
    })),
    ...upkeep(entry, on).map(({ what, due }) => ({
      what,
      isOpen: false,
      due,
      when: overdue(due, `by ${longDate(due, settings.region)}`),
    })),
  ].sort((a, b) => a.due - b.due || 0);
  const [job, ...others] = jobs;
  if (!job) return [nothingPlanned(entry), closed[0] ?? 'no date set'];
  const words = ({ what, isOpen }: typeof job, number = '') =>
    isOpen
      ? html`<span>${number}${what}. <strong class="error">Not settled: the check reports an error in this advice.</strong></span>`
      : `${number}${what}`;
  const rest = unanswered(entry, data);
  if (others.length === 0 && !rest) return [words(job), [...closed, job.when].join('; ')];
  return [
    list([
      ...jobs.map((one, i) => words(one, `${i + 1}) `)),
      ...(rest ? [html`<strong>${readInRegion(rest, settings.region)}</strong>`] : []),
    ]),
    list([...closed, ...jobs.map(({ when }, i) => `${i + 1}) ${when}`)]),
  ];
}

/** Whether the check finds its work window later than its priority allows. */
const isTooLate = ({ findings, prescriptionsOf }: ReportTree, { id }: Prescription): boolean =>
  findings.some(finding => finding.rule === 'mitigation-late' && prescriptionsOf(finding).includes(id.value));
