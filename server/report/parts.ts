/** Building blocks of all parts of the report. */

import { isRatedExtreme } from '../assess/emergency.ts';
import { openDefects, openFollowUps } from '../assess/evidence.ts';
import { imminentParts } from '../assess/likelihood.ts';
import { openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { targetsInReach } from '../assess/reach.ts';
import { currentRisks, ratingToActOn } from '../assess/risks.ts';
import { gravest, isMoving, STANDINGS } from '../assess/standing.ts';
import { URGENCIES } from '../assess/urgency.ts';
import { formatDate } from '../base/dates.ts';
import { grouped } from '../base/grouped.ts';
import { memo } from '../base/memo.ts';
import type { Prescription, Site } from '../facts/types.ts';
import { RISK_RATINGS } from '../practice/risk.ts';
import type { Finding } from '../rules/check.ts';
import { isMistakeCode } from '../rules/mistake-codes.ts';
import { readInRegion } from '../show/in-region.ts';
import { longDate, type RegionCode } from '../show/long-date.ts';
import type { ReportData, ReportTree, Unread } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { treeTitle } from './words.ts';

/** A list; `otherwise` if it is empty. */
export const list = (items: readonly MarkupContent[], otherwise?: string): Markup =>
  items.length > 0 ? html`<ul>${items.map(item => html`<li>${item}</li>`)}</ul>` : html`<p>${otherwise}</p>`;

export const pairs = (items: readonly (readonly [string, MarkupContent])[]): Markup =>
  html`<dl>${items.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>`;

export interface TableExtras {
  /** Identifier of a row in the page. */
  readonly idOf?: (row: number) => string;
  /** Columns by whose values the page lets one choose. */
  readonly choose?: readonly string[];
}

/**
 * The first cell of a row is its header. On a narrow screen a sortable table scrolls, and any other stacks its cells with
 * their headings beside them; the roles keep the table semantics that stacking removes.
 */
export function table(
  name: string,
  head: readonly string[],
  rows: readonly (readonly MarkupContent[])[],
  sortable = false,
  { idOf, choose = [] }: TableExtras = {},
): Markup {
  return html`<div class="scroll" role="region" aria-label=${name} tabindex="0">
    <table role="table" class=${sortable ? 'sortable' : 'stacked'}>
      <caption class="hidden">${name}</caption>
      <thead role="rowgroup"><tr role="row">${head.map(cell => html`<th role="columnheader" scope="col" data-choose=${choose.includes(cell) || undefined}>${cell}</th>`)}</tr></thead>
      <tbody role="rowgroup">${rows.map(
        ([first, ...cells], row) =>
          html`<tr role="row" id=${idOf?.(row)}><th role="rowheader" scope="row">${first}</th>${cells.map((cell, i) => html`<td role="cell" data-head=${head[i + 1]}>${cell}</td>`)}</tr>`,
      )}</tbody>
    </table>
  </div>`;
}

/** That the page is without something. */
export const notRead = (unread: readonly Unread[]): Markup | false =>
  unread.length > 0 &&
  html`<p class="stop" lang="en"><strong>Not everything could be read or computed</strong>: ${unread.map(({ file, message }) => `${file} ${message}`).join('; ')}. This report is without it.</p>`;

const LEVELS: readonly Finding['level'][] = ['error', 'warning', 'note'];

/** 0 for the most severe level. */
export const gravity = ({ level }: Finding): number => LEVELS.indexOf(level);

export const byGravity = (findings: readonly Finding[]): readonly Finding[] =>
  findings.toSorted((a, b) => gravity(a) - gravity(b));

/** Index in RISK_RATINGS of the worst current rating; -1 if none is rated. */
export const worstRating = ({ tree }: ReportTree): number =>
  currentRisks(tree).reduce((worst, risk) => {
    const rating = ratingToActOn(risk);
    return rating ? Math.max(worst, RISK_RATINGS.indexOf(rating)) : worst;
  }, -1);

/** Whether a risk, or a target in reach beside one that is rated, has no rating: unknown is not low. */
function isPartlyRated({ tree, settings, findings }: ReportTree): boolean {
  const risks = currentRisks(tree);
  return (
    risks.some(risk => !ratingToActOn(risk)) ||
    targetsInReach(tree, settings).some(({ name }) =>
      risks.every(({ target }) => target.value !== name.value),
    ) ||
    findings.some(({ rule }) => rule === 'rating-missing')
  );
}

/** The worst current rating, and what it leaves open. */
export const riskWords = (entry: ReportTree): string => {
  const rating = RISK_RATINGS[worstRating(entry)];
  return rating
    ? [
        rating,
        ...(isPartlyRated(entry) ? ['not every risk is rated'] : []),
        ...(ratedTooLow(entry).length > 0 ? ['rated lower than the record supports'] : []),
      ].join('; ')
    : 'not rated';
};

export const ratedTooLow = ({ findings }: ReportTree): readonly Finding[] =>
  findings.filter(({ rule }) => rule === 'rating-below-figures');

/** Lines that were not read: what they say is missing. */
export const unreadLines = (findings: readonly Finding[]): readonly Finding[] =>
  findings.filter(({ rule, level }) => level === 'error' && isMistakeCode(rule));

/** Where no law is on record none was checked. A page of one area may lack the finding at the site. */
export function noLaw(data: ReportData): readonly string[] {
  const applied = new Map(data.trees.map(({ settings }) => [settings.region.code, settings.regionApplied]));
  const told = data.findings.flatMap(({ rule, message }) =>
    rule === 'region-without-pack' ? [readInRegion(message, regionOf(data))] : [],
  );
  return [
    ...([...applied.values()].includes('unstated')
      ? ['No region is on record for some of the trees: only general seasons and laws were checked there.']
      : []),
    ...(told.length > 0
      ? new Set(told)
      : [...applied].flatMap(([code, how]) =>
          how === 'none' ? [`Nothing is on record for ${code}: no law of it was checked.`] : [],
        )),
  ];
}

/** What is failing or rated extreme, then what is about to fail, then the rest. */
function dangerOf({ tree, site, settings, assessment }: ReportTree): number {
  if (assessment.signs.some(isMoving) || isRatedExtreme(tree)) return 0;
  return imminentParts({ tree, site, settings }).length > 0 ? 1 : 2;
}

/**
 * Numbers by which the most urgent comes first, compared in turn; among equals the worst risk, where one that nobody
 * rated is no low one.
 */
export const urgencyOrder = (entry: ReportTree): readonly number[] => [
  URGENCIES.indexOf(entry.urgency),
  dangerOf(entry),
  -Math.max(worstRating(entry), worstRating(entry) < 0 || isPartlyRated(entry) ? UNRATED : 0),
  -STANDINGS.indexOf(gravest(entry.assessment.signs)),
];

export function byOrder(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((value, i) => value !== other[i]);
  return at < 0 ? 0 : one[at]! - other[at]!;
}

export const byUrgency = (entries: readonly ReportTree[]): readonly ReportTree[] =>
  entries
    .map(entry => ({ entry, order: urgencyOrder(entry) }))
    .sort((a, b) => byOrder(a.order, b.order))
    .map(({ entry }) => entry);

/** Between low and moderate. */
const UNRATED = 0.5;

/** Whether a tree gets a chapter; the others are only listed. */
export const hasChapter = ({ tree, findings, assessment, urgency }: ReportTree): boolean =>
  urgency !== 'watch' ||
  openDefects(tree).length > 0 ||
  assessment.signs.some(({ standing }) => standing !== 'within') ||
  openPrescriptionsOfAnyKind(tree).length > 0 ||
  openFollowUps(tree).length > 0 ||
  currentRisks(tree).length > 0 ||
  findings.some(({ level }) => level === 'error');

export const isOpenError = ({ level, accepted }: Finding): boolean => level === 'error' && !accepted;

/** Errors of the check in what is advised, which nobody has accepted. */
export const errorsIn = (
  { findings, prescriptionsOf }: ReportTree,
  { id }: Prescription,
): readonly Finding[] =>
  findings.filter(finding => isOpenError(finding) && prescriptionsOf(finding).includes(id.value));

export const isUnsettled = (entry: ReportTree, prescription: Prescription): boolean =>
  errorsIn(entry, prescription).length > 0;

const areOnManySites = memo(
  (trees: readonly ReportTree[]) => new Set(trees.map(({ site }) => site)).size > 1,
);

/** Of trees on several sites: tags are unique within one. */
const siteWords = ({ site }: ReportTree, { trees }: ReportData): string =>
  site && areOnManySites(trees) ? `, ${site.name.value}` : '';

export const titleOf = (entry: ReportTree, data: ReportData): string =>
  treeTitle(entry.tree) + siteWords(entry, data);

export const tagOf = (entry: ReportTree, data: ReportData): string =>
  entry.tree.tag.value + siteWords(entry, data);

/** A line to sign on. */
export const signatureLine = (who: string, signature: string, date: string): Markup =>
  html`<div class="line"><span>${who}</span> <span>${signature}</span> <span>${date}</span></div>`;

/** The region of the report, which is that of its first tree. */
export const regionOf = ({ trees: [first] }: ReportData): RegionCode =>
  first?.settings.region ?? { code: '' };

/** The day of the report, in the form of the place. */
export const asOf = (data: ReportData): string => longDate(data.on, regionOf(data));

/** A date that does not wrap and sorts as such. */
export const dayOf = (day: number, region: RegionCode): Markup =>
  html`<time datetime=${formatDate(day)} data-key=${day}>${longDate(day, region)}</time>`;

/** Identifiers in the page number the trees, since tags can contain anything. */
export const linkTo = (entry: ReportTree, { trees }: ReportData): string =>
  `tree-${numberOf(trees).get(entry)}`;

/** Of its page in the years. */
export const yearsLink = (entry: ReportTree, data: ReportData): string => `${linkTo(entry, data)}-years`;

const numberOf = memo(
  (trees: readonly ReportTree[]): ReadonlyMap<ReportTree, number> =>
    new Map(trees.map((tree, i) => [tree, i + 1])),
);

export interface SiteGroup {
  readonly site: Site | undefined;
  /** Heading. */
  readonly name: string;
  readonly trees: readonly ReportTree[];
}

/** The trees grouped by site, in the order of their first trees. */
export function groupBySite(trees: readonly ReportTree[]): readonly SiteGroup[] {
  return [...grouped(trees, ({ site }) => site)].map(([site, own]) => ({
    site,
    name: site?.name.value ?? 'Trees without a site',
    trees: own,
  }));
}
