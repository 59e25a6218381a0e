/** The part for the crew: a work order for each open prescription of work at a tree. */

import { asksOfCutting, asksOfPruning } from '../assess/asks.ts';
import { unsafeToClimb } from '../assess/climbing.ts';
import { approachSource, conductorName, conductorPlace, showApproach } from '../assess/conductors.ts';
import { showDays } from '../assess/days.ts';
import { alternativesTo, prescriptionsInForce } from '../assess/jobs.ts';
import { lastCheckBy, NESTING_CAUTION } from '../assess/nesting.ts';
import { permitFor } from '../assess/permits.ts';
import { pruningWeeks } from '../assess/pest-windows.ts';
import { jobName, openWork } from '../assess/prescriptions.ts';
import { BAT_CAUTION, lastBatCheckBy, meetsRoosts, roostFeatures } from '../assess/roosts.ts';
import { workDays } from '../assess/work-days.ts';
import { formatDate } from '../base/dates.ts';
import { capital, counted, listed, quoted } from '../base/words.ts';
import type { Prescription } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import { ruleNamed } from '../rules/registry.ts';
import { longDate, longDays } from '../show/long-date.ts';
import { elementText, riggingWords } from '../show/weigh-felling.ts';
import { quantityText } from '../show/words.ts';
import { checklistOf } from './checklist.ts';
import type { ReportData, ReportTree, WorkOrder } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { type Noted, notesItem, noteWords, withNotes } from './notes.ts';
import { asOf, byGravity, byUrgency, list, pairs } from './parts.ts';
import { plainWork } from './plain-words.ts';
import {
  personWords,
  positionWords,
  prescriptionItems,
  sentence,
  sizeWords,
  speciesOf,
  treeTitle,
  windowWords,
} from './words.ts';

export function crewPart(data: ReportData): Markup {
  const orders = byUrgency(data.trees).flatMap((entry): WorkOrder[] =>
    openWork(entry.tree).map(prescription => ({ entry, prescription })),
  );
  return html`<section id="crew" aria-labelledby="crew-title">
    <h2 id="crew-title">For the crew</h2>
    <p class="lead">${orders.length === 0 ? 'No work is open.' : `${counted(orders.length, 'work order')}, one for each open prescription, as of ${asOf(data)}.`}</p>
    ${orders.map((order, index) => workOrder(order, index + 1, data))}
  </section>`;
}

/** Groups of rules whose errors bar the work itself, not only its plan. */
const BARS: ReadonlySet<string | undefined> = new Set(['permits', 'wildlife', 'electricity', 'people']);

const isBar = ({ level, rule }: Finding): boolean => level === 'error' && BARS.has(ruleNamed(rule)?.group);

function workOrder(order: WorkOrder, number: number, data: ReportData): Markup {
  const { entry, prescription } = order;
  const { tree, site, findings, prescriptionsOf } = entry;
  const id = prescription.id.value;
  // Findings about another prescription belong to its own work order.
  const own = byGravity(findings).filter(finding => {
    const about = prescriptionsOf(finding);
    return !finding.accepted && (about.length > 0 ? about.includes(id) : finding.level === 'error');
  });
  const standing = prescriptionsInForce(tree);
  const others = alternativesTo(tree, prescription)
    .filter(one => standing.includes(one))
    .map(jobName);
  const climbing = unsafeToClimb({ tree, site, settings: entry.settings }).filter(({ isSure }) => isSure);
  return html`<article class="order">
    <h3>Work order ${number}: ${plainWork(prescription, tree)} (${id}), ${treeTitle(tree)}</h3>
    ${prescription.because && html`<p class="lead">${sentence(capital(prescription.because.value))}</p>`}
    ${others.length > 0 && html`<p class="intro"><strong>Alternative to ${listed(others)}: only one of them is done. Ask which the client has chosen before going.</strong></p>`}
    ${climbing.length > 0 && html`<div class="stop"><p><strong class="error">Do not climb, tie in to or rig from this tree: ${listed(climbing.map(({ reason }) => reason))}.</strong></p></div>`}
    ${own.length > 0 && html`<div class="stop"><h4>Job briefing</h4>${raised('To be settled before the work', own, 'error')}${raised('To be looked into', own, 'warning')}${raised('To be known', own, 'note')}</div>`}
    <div class="halves">
      <div><h4>The tree</h4>${pairs([
        ['Species', html`<i>${speciesOf(tree)}</i>`],
        ['Position', tree.position ? positionWords(tree.position) : 'not on record: have it shown'],
        ['Size', sizeWords(tree)],
        ...notesItem(tree),
        ...(site ? [['Site', site.name.value] as const, ...notesItem(site, 'Of the site')] : []),
        ...(site?.client ? [['Client', site.client.value] as const] : []),
        ['Nearest hospital', site?.hospital?.value ?? 'not on record: find it before going'],
        ['Muster point', site?.muster?.value ?? 'not on record: agree on it before the work'],
      ])}</div>
      <div><h4>The work</h4>${pairs([
        ...prescriptionItems(prescription),
        ['Crew', crewWords(prescription, data)],
        ...(prescription.priority ? [['Priority', prescription.priority.value] as const] : []),
        ...(prescription.by ? [['Prescribed by', personWords(prescription.by.value, data)] as const] : []),
        ...notesItem(prescription),
      ])}</div>
      <div><h4>When</h4>${when(order, own.some(isBar), data)}</div>
      <div><h4>What comes down, and on whom</h4>${pairs([
        ['Heaviest piece', pieceWords(prescription)],
        ['Working load of the gear', gearWords(prescription, data)],
        ...riggingItem(order),
        ['Drop zone', exclusionWords(prescription)],
        ['Targets', targetWords(entry)],
        ['Overhead power lines', conductorWords(entry)],
      ])}</div>
    </div>
    <h4>Before the first cut</h4>
    <ul class="checks">${checklistOf(order).map(
      (text, item) =>
        html`<li><input type="checkbox" id=${`check-${number}-${item}`} /><label for=${`check-${number}-${item}`}>${text}</label></li>`,
    )}</ul>
    <div class="signed">${['Crew leader', 'Started', 'Finished'].map(
      who =>
        html`<div class="line"><span>${who}</span> <span>Signature</span> <span>Date and time</span></div>`,
    )}</div>
    <p class="quiet">${cautionOf(order)}</p>
  </article>`;
}

function raised(intro: string, findings: readonly Finding[], level: Finding['level']): Markup | false {
  const own = findings.filter(finding => finding.level === level);
  return (
    own.length > 0 &&
    html`<div><p class="intro"><strong class=${level}>${intro}</strong></p>${list(own.map(({ message, remedy }) => `${message} ${remedy}`))}</div>`
  );
}

/** @param barred whether something has to be settled before any day counts */
function when({ entry, prescription }: WorkOrder, barred: boolean, { on, person, crew }: ReportData): Markup {
  const { tree, site, settings, nestTreesNear } = entry;
  const { window, open, because } = workDays(
    { tree, site, settings, today: on, person, crew, nestTreesNear },
    prescription,
  );
  const last = open.at(-1);
  const asks = [...asksOfCutting(entry, on), ...asksOfPruning(pruningWeeks(tree, prescription, settings))];
  const stated = windowWords(prescription);
  const check = lastCheckBy(tree, on);
  const bats = roostFeatures(tree).length > 0 ? lastBatCheckBy(tree, on) : undefined;
  const permit = permitFor(tree, prescription);
  return pairs([
    ['Window', stated ? `${stated}${window ? '' : ' (past)'}` : 'no days are set'],
    ...(window
      ? ([
          [
            'Days clear of closed seasons',
            barred
              ? html`<strong>none until what is listed above is settled</strong>`
              : `${open.map(span => longDays(span, settings.region)).join(', ') || 'none'}, as far as the record shows`,
          ],
          ...(barred
            ? []
            : ([
                [
                  'Last of them',
                  html`<strong>${last ? longDate(last.to, settings.region) : 'none'}</strong>`,
                ],
              ] as const)),
        ] as const)
      : [['Before days are set', `${capital(asks.join('; '))}.`] as const]),
    ...(because.length > 0 ? [['Why not the others', because.join(' ')] as const] : []),
    [
      'Nests',
      check
        ? `checked ${formatDate(check.date.value)} from ${check.from.value}: ${foundNests(check.found)}${noted(check)}`
        : 'no check on record',
    ],
    ...(roostFeatures(tree).length > 0
      ? [
          [
            'Bats',
            bats
              ? `checked ${formatDate(bats.date.value)} from ${bats.from.value}: ${bats.found.map(({ use }) => use).join(', ') || 'nothing written down'}${noted(bats)}`
              : 'hollows or loose bark, and no check on record',
          ] as const,
        ]
      : []),
    ...(permit
      ? [
          [
            'Permit',
            `${permit.number.value}${permit.until === undefined ? '' : `, until ${formatDate(permit.until)}`}${permit.scope ? `, for ${permit.scope}` : ''}`,
          ] as const,
        ]
      : tree.protection
        ? [['Permit', 'the tree is protected, and no permit is on record'] as const]
        : []),
  ]);
}

/** Notes appended to a line. */
const noted = (fact: Noted): string => (noteWords(fact) === '' ? '' : `. ${noteWords(fact)}`);

const foundNests = (found: ReportTree['tree']['nestChecks'][number]['found']): string =>
  found
    .map(({ use, species, height }) =>
      [use, species?.name, height && `at ${quantityText(height)}`].filter(Boolean).join(' '),
    )
    .join('; ') || 'nothing written down';

function crewWords({ crew: id }: Prescription, data: ReportData): string {
  if (!id) return 'none is named';
  const crew = data.crew(id.value);
  if (!crew) return id.value;
  const members = crew.members.map(({ value }) => personWords(value, data));
  return members.length > 0 ? `${crew.name.value}: ${members.join(', ')}` : crew.name.value;
}

function pieceWords({ piece }: Prescription): string {
  if (!piece) return 'not stated';
  const { mass, length, diameter, narrow } = piece;
  return [
    quantityText(mass),
    length && `${quantityText(length)} long`,
    diameter && `${quantityText(diameter)}${narrow ? ` to ${quantityText(narrow)}` : ''} thick`,
  ]
    .filter(Boolean)
    .join(', ');
}

function gearWords({ crew: id }: Prescription, data: ReportData): string {
  const crew = id && data.crew(id.value);
  if (!crew) return 'not known';
  const { rope, riggingLine: line, block, sling, crane, lift } = crew;
  return (
    [
      rope && `rope ${quantityText(rope)}`,
      line && `line breaking at ${quantityText(line.strength)}${line.spliced ? ', spliced' : ''}`,
      block && `block breaking at ${quantityText(block)}`,
      sling && `sling breaking at ${quantityText(sling)}`,
      crane && `crane ${quantityText(crane.mass)}${crane.reach ? ` at ${quantityText(crane.reach)}` : ''}`,
      lift && `lift up to ${quantityText(lift)}`,
    ]
      .filter(Boolean)
      .join(', ') || 'not stated'
  );
}

/** The forces of a piece lowered on a rope, and how the gear and the spar stand. */
function riggingItem({
  entry: { tree, assessment },
  prescription,
}: WorkOrder): readonly (readonly [string, string])[] {
  const rigging = assessment.riggings.find(one => one.prescription === prescription);
  if (!rigging) return [];
  return [['Rigging', `${riggingWords(rigging, tree)}; ${rigging.elements.map(elementText).join('; ')}.`]];
}

const exclusionWords = ({ exclusion }: Prescription): string =>
  exclusion ? `${quantityText(exclusion)} around the trunk` : 'not stated';

const targetWords = ({ tree }: ReportTree): string =>
  tree.targets
    .map(target => {
      const { name, distance, occupied } = target;
      const words = [
        quoted(name.value),
        distance ? quantityText(distance) : 'distance not stated',
        occupied?.value,
      ];
      return `${words.filter(Boolean).join(', ')}${noted(target)}`;
    })
    .join('; ') || 'none on record';

function conductorWords({ tree, settings }: ReportTree): MarkupContent {
  if (tree.conductors.length === 0) return 'none on record';
  return tree.conductors
    .map(conductor => {
      const { dead } = conductor;
      const off = dead ? `; de-energized ${showDays(dead)}` : '; energized';
      return `${conductorName(conductor)}, ${conductorPlace(conductor)}${off}; workers not qualified for line clearance keep ${showApproach(conductor, settings, tree)} away (${approachSource(conductor, settings)}).${withNotes(conductor)}`;
    })
    .join(' ');
}

/** The cautions that apply to this order. */
function cautionOf({ entry: { tree }, prescription }: WorkOrder): string {
  const bats = meetsRoosts(prescription, roostFeatures(tree));
  return [
    NESTING_CAUTION,
    ...(bats ? [BAT_CAUTION] : []),
    'Whoever leads the work on site may stop it at any time.',
  ].join(' ');
}
