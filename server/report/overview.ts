/** Start of the part for the owner: extent, basis, and what requires a decision. */

import { openFollowUps } from '../assess/evidence.ts';
import { jobName, openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { formatDate } from '../base/dates.ts';
import { capital, counted } from '../base/words.ts';
import { RISK_RATINGS } from '../practice/risk.ts';
import type { ReportData, ReportTree } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { dayOf, linkTo, table, worstRating } from './parts.ts';
import { personWords, treeTitle, windowWords } from './words.ts';

/** @param chapters trees with something open */
export function overview(data: ReportData, chapters: readonly ReportTree[]): Markup {
  return html`<div>
    <p class="lead">${summaryOf(data, chapters.length)} ${basisOf(data)}</p>
    ${
      chapters.length > 1 &&
      html`<div>
        <h3>What asks for a decision</h3>
        ${table(
          'What asks for a decision',
          ['Tree', 'We advise', 'When', 'Risk as rated', 'The check'],
          byUrgency(chapters).map(entry => [
            html`<a href=${`#${linkTo(entry, data)}`}>${treeTitle(entry.tree)}</a>`,
            adviceOf(entry),
            daysOf(entry),
            RISK_RATINGS[worstRating(entry)] ?? 'not rated',
            checkOf(entry),
          ]),
        )}
      </div>`
    }
  </div>`;
}

function summaryOf({ trees, on }: ReportData, chapters: number): string {
  const work = trees.reduce((sum, { tree }) => sum + openPrescriptionsOfAnyKind(tree).length, 0);
  const looks = trees.reduce((sum, { tree }) => sum + openFollowUps(tree).length, 0);
  const open = [
    ...(work > 0 ? [counted(work, 'prescription')] : []),
    ...(looks > 0 ? [counted(looks, 'further look')] : []),
  ];
  const what = open.length > 0 ? `: ${open.join(' and ')}` : '';
  const something =
    chapters === 0 ? 'Nothing is open.' : `Something is open at ${counted(chapters, 'tree')}${what}.`;
  return `${counted(trees.length, 'tree')} on record as of ${formatDate(on)}. ${something}`;
}

/** Number, dates and authors of the inspections. */
function basisOf(data: ReportData): MarkupContent {
  const inspections = data.trees.flatMap(({ tree }) =>
    tree.inspections.filter(({ date }) => date.value <= data.on),
  );
  if (inspections.length === 0) return 'No inspection is on record.';
  const days = inspections.map(({ date }) => date.value);
  const first = days.reduce((a, b) => Math.min(a, b));
  const last = days.reduce((a, b) => Math.max(a, b));
  const people = [...new Set(inspections.flatMap(({ by }) => (by ? [personWords(by.value, data)] : [])))];
  const when: MarkupContent =
    first === last ? ['of ', dayOf(first)] : ['between ', dayOf(first), ' and ', dayOf(last)];
  const who = people.length > 0 ? `, by ${people.join(', ')}` : '';
  return [`It rests on ${counted(inspections.length, 'inspection')} `, when, `${who}.`];
}

const openOf = ({ findings }: ReportTree, level: 'error' | 'warning'): number =>
  findings.filter(finding => finding.level === level && !finding.accepted).length;

/** By worst rating, then number of errors, then order of the inventory. */
const byUrgency = (entries: readonly ReportTree[]): readonly ReportTree[] =>
  entries.toSorted((a, b) => worstRating(b) - worstRating(a) || openOf(b, 'error') - openOf(a, 'error'));

const adviceOf = ({ tree }: ReportTree): string =>
  [...openPrescriptionsOfAnyKind(tree).map(jobName), ...openFollowUps(tree).map(({ kind }) => kind.value)]
    .map((words, i) => (i === 0 ? capital(words) : words))
    .join('; ') || 'Nothing is prescribed';

const daysOf = ({ tree }: ReportTree): string =>
  [
    ...openPrescriptionsOfAnyKind(tree).map(prescription => windowWords(prescription) ?? 'no days are set'),
    ...openFollowUps(tree).map(({ due }) => (due ? `due ${formatDate(due.value)}` : 'no day is set')),
  ].join('; ') || '–';

function checkOf(entry: ReportTree): string {
  const [errors, warnings] = [openOf(entry, 'error'), openOf(entry, 'warning')];
  const parts = [
    ...(errors > 0 ? [`${errors} to put right or decide`] : []),
    ...(warnings > 0 ? [`${warnings} to look into`] : []),
  ];
  return parts.join(', ') || 'nothing raised';
}
