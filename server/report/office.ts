/** The part for the office: inventory, due dates, findings, notes, accepted exceptions. */

import { isUninspected, lastInspectionOf, openDefects } from '../assess/evidence.ts';
import { ifThens, ifThenWords, screenBands } from '../assess/if-then.ts';
import type { Mill } from '../assess/mill.ts';
import { fellsTree, jobName, openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { URGENCIES } from '../assess/urgency.ts';
import { capital, counted, quoted } from '../base/words.ts';
import { UNREAD } from '../facts/placed.ts';
import type { Finding } from '../rules/check.ts';
import { inRegion, readInRegion } from '../show/in-region.ts';
import { longDate } from '../show/long-date.ts';
import { millLines, millTable } from '../show/weigh-felling.ts';
import { quantityText } from '../show/words.ts';
import type { ReportData, ReportTree } from './data.ts';
import { dueDates, undated } from './due.ts';
import { figuresPart } from './figures-part.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { mapsOf } from './map.ts';
import { allNotes } from './notes.ts';
import {
  byGravity,
  byUrgency,
  dayOf,
  gravity,
  hasChapter,
  linkTo,
  list,
  regionOf,
  riskWords,
  table,
  worstRating,
} from './parts.ts';
import { personWords } from './words.ts';

export function officePart(data: ReportData): Markup {
  const open = data.findings.filter(({ accepted }) => !accepted);
  const accepted = data.findings.filter(finding => finding.accepted);
  const due = dueDates(data);
  const dateless = undated(data);
  const never = data.trees.filter(({ tree }) => isUninspected(tree)).length;
  const notes = allNotes(data);
  return html`<section id="office" aria-labelledby="office-title">
    <h2 id="office-title">For the office</h2>
    <h3>Inventory</h3>
    ${inventory(data)}
    ${logsForMill(data)}
    ${oneReading(data)}
    ${never > 0 && html`<p>${counted(never, 'tree has', 'trees have')} no inspection on record: what is due there and what could be found is unknown.</p>`}
    <h3>Due dates</h3>
    ${
      due.length > 0
        ? table(
            'Due dates',
            ['Day', 'Tree', 'What'],
            due.map(({ day, tree, what }) => [
              html`<span>${dayOf(day, regionOf(data))}${day < data.on ? html` <strong class="late">overdue</strong>` : ''}</span>`,
              tree,
              what,
            ]),
            true,
          )
        : dateless.length === 0 && html`<p>Nothing on record is due.</p>`
    }
    ${dateless.length > 0 && html`<p>Open, without a date: ${dateless.join('; ')}.</p>`}
    <h3>Findings</h3>
    ${open.length > 0 ? findingsTable('Findings', open, data) : html`<p>The check found nothing in what is on record.</p>`}
    ${figuresPart(data)}
    <h3>Notes</h3>
    ${notes.length > 0 ? table('Notes', ['Tree or site', 'Of', 'Note'], notes, true) : html`<p>None.</p>`}
    <h3>Accepted exceptions</h3>
    ${accepted.length > 0 ? acceptedTable(accepted, data) : html`<p>None.</p>`}
    ${data.unread.length > 0 && html`<div><h3>Not read</h3>${list(data.unread.map(({ file, message }) => `${file} ${message}`))}</div>`}
  </section>`;
}

/** What each value of the reading that is still to be taken would lead to. */
function oneReading(data: ReportData): Markup | false {
  const rows = data.trees.flatMap(({ tree, site, settings }) => [
    ...ifThens(tree, site, settings).map(one => [tree.tag.value, ifThenWords(one)]),
    ...screenBands(tree, settings).map(({ name, words }) => [tree.tag.value, `${quoted(name)}: ${words}.`]),
  ]);
  return (
    rows.length > 0 &&
    html`<div><h3>What one reading decides</h3>${table('What one reading decides', ['Tree', 'If, then'], rows)}</div>`
  );
}

/** Logs of the trees to be felled; nothing where none is. */
function logsForMill(data: ReportData): Markup | false {
  const felled = data.trees.filter(
    ({ tree, assessment: { mill } }) =>
      mill !== undefined && openPrescriptionsOfAnyKind(tree).some(fellsTree),
  );
  if (felled.length === 0) return false;
  return html`<div><h3>Logs for a mill</h3>${felled.map(({ tree, assessment: { mill } }) =>
    typeof mill === 'string'
      ? html`<p>Tree ${tree.tag.value}: not judged: ${mill}.</p>`
      : html`<div>${table(`Logs of tree ${tree.tag.value}`, ...millColumns(tree, mill!))}<p class="quiet">Tree ${tree.tag.value}. ${millLines(mill!).join(' ')}</p></div>`,
  )}</div>`;
}

function millColumns(
  tree: ReportTree['tree'],
  mill: Mill,
): readonly [head: readonly string[], rows: readonly (readonly string[])[]] {
  const { head, rows } = millTable(mill, tree);
  return [head.map(capital), rows];
}

/** A cell sorted by a number instead of its text. */
const sortedBy = (key: number, shown: MarkupContent): Markup => html`<span data-key=${key}>${shown}</span>`;

/** Sorted by the upper end: never towards safe. */
const sizeCell = (quantity: ReportTree['tree']['height']): MarkupContent =>
  quantity
    ? sortedBy(
        Number.isFinite(quantity.value.high) ? quantity.value.high : quantity.value.low,
        quantityText(quantity),
      )
    : '';

const rowOf = (entry: ReportTree, data: ReportData): string => `row-${linkTo(entry, data)}`;

function inventory(data: ReportData): Markup {
  const entries = byUrgency(data.trees);
  const rows = entries.map((entry): readonly MarkupContent[] => {
    const { tree, site, findings } = entry;
    const open = findings.filter(({ accepted }) => !accepted);
    const rating = worstRating(entry);
    const last = lastInspectionOf(tree);
    const name = tree.tag.value;
    return [
      data.readers.includes('client') && hasChapter(entry)
        ? html`<a href=${`#${linkTo(entry, data)}`}>${name}</a>`
        : name,
      tree.name?.value ?? '',
      tree.species ? html`<i>${tree.species.value.name}</i>` : '',
      tree.diameters.length > 0
        ? sortedBy(
            Math.max(...tree.diameters.map(({ value }) => value.low)),
            tree.diameters.map(quantityText).join(', '),
          )
        : '',
      sizeCell(tree.height),
      sizeCell(tree.crownSpread),
      tree.age?.value ?? '',
      tree.vigor?.value ?? '',
      openDefects(tree)
        .map(({ kind, id }) => `${kind.value === UNREAD ? 'unread' : kind.value} ${id.value}`)
        .join(', '),
      sortedBy(
        hasChapter(entry) ? URGENCIES.indexOf(entry.urgency) : URGENCIES.length,
        hasChapter(entry) ? entry.urgency : '',
      ),
      sortedBy(rating, riskWords(entry)),
      tree.felled
        ? `felled ${longDate(tree.felled.value, entry.settings.region)}`
        : openPrescriptionsOfAnyKind(tree).map(jobName).join(', '),
      last ? dayOf(last.date.value, entry.settings.region) : tree.felled ? '' : 'not inspected',
      sortedBy(open.length, open.length > 0 ? String(open.length) : ''),
      site?.name.value ?? '',
    ];
  });
  const head = [
    'Tag',
    'Name',
    'Species',
    'Dbh',
    'Height',
    'Crown',
    'Age',
    'Vigor',
    'Defects',
    'When',
    'Risk',
    'Work',
    'Last inspected',
    'Findings',
    'Site',
  ];
  return html`<div class="filtered">
    ${mapsOf(data, entry => rowOf(entry, data))}
    ${table('Inventory', head, rows, true, { idOf: row => rowOf(entries[row]!, data), choose: CHOSEN })}
  </div>`;
}

/** Columns of the inventory with few values. */
const CHOSEN = ['When', 'Risk', 'Age', 'Vigor', 'Site'];

const placeOf = ({ file, line }: Finding, { shown }: ReportData): string => `${shown(file)}:${line}`;

const findingsTable = (name: string, findings: readonly Finding[], data: ReportData): Markup =>
  table(
    name,
    ['Level', 'Tree', 'Finding', 'What to do', 'Rule', 'Place'],
    byGravity(findings).map(finding => [
      sortedBy(gravity(finding), finding.level),
      finding.tree ?? '',
      readInRegion(finding.message, regionOf(data)),
      inRegion(
        finding.caution === undefined ? finding.remedy : `${finding.remedy} ${finding.caution}`,
        regionOf(data),
      ),
      finding.rule,
      placeOf(finding, data),
    ]),
    true,
  );

const acceptedTable = (findings: readonly Finding[], data: ReportData): Markup =>
  table(
    'Accepted exceptions',
    ['Tree', 'Finding', 'Accepted by', 'Until', 'Why', 'Rule', 'Place'],
    findings.map(finding => [
      finding.tree ?? '',
      readInRegion(finding.message, regionOf(data)),
      personWords(finding.accepted!.by, data),
      dayOf(finding.accepted!.until, regionOf(data)),
      finding.accepted!.because,
      finding.rule,
      placeOf(finding, data),
    ]),
    true,
  );
