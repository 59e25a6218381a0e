/** The part for the crew: a work order for each open prescription of work at a tree, in the language of its crew. */

import { type Ask, asksOfCutting, asksOfPruning } from '../assess/asks.ts';
import type { ClimbingBan } from '../assess/climbing.ts';
import { alternativesTo, prescriptionsInForce } from '../assess/jobs.ts';
import { lastCheckBy } from '../assess/nesting.ts';
import { permitFor } from '../assess/permits.ts';
import { pruningWeeks } from '../assess/pest-windows.ts';
import { fellsTree, openWork } from '../assess/prescriptions.ts';
import { lastBatCheckBy, meetsRoosts, roostFeatures } from '../assess/roosts.ts';
import type { WorkDays } from '../assess/work-days.ts';
import { capital } from '../base/words.ts';
import type { Prescription } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import {
  acceptedFindings,
  bansOf,
  boundsIn,
  climbersIn,
  crewOf,
  daysIn,
  groupOf,
  isBarred,
  isStop,
  isZoneShort,
  nestDistanceIn,
  ownFindings,
  plannedDays,
} from './allowed.ts';
import { checklistOf } from './checklist.ts';
import {
  acceptedIn,
  anchorIn,
  banIn,
  breakingIn,
  callIn,
  defectIn,
  findingsIn,
  gearIn,
  inOriginal,
  jobIn,
  leftUndone,
  linesIn,
  noted,
  pieceIn,
  positionIn,
  riggingIn,
  sizeIn,
  speciesIn,
  supportsIn,
  takedownIn,
  targetsIn,
  titleIn,
  zoneIn,
} from './crew-words.ts';
import type { ReportData, ReportTree, WorkOrder } from './data.ts';
import { dropZoneOf } from './drop-zone.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { type Speech, speechIn } from './languages/language.ts';
import type { LanguageCode } from './languages/translation.ts';
import { notesItem } from './notes.ts';
import { byUrgency, list, pairs, regionOf, signatureLine, table } from './parts.ts';
import { plainWork } from './plain-words.ts';
import { personWords, prescriptionItems, sentence } from './words.ts';

export function crewPart(data: ReportData): Markup {
  const orders = ordersOf(data);
  const speech = commonSpeech(data);
  const { say, date } = speech;
  return html`<section id="crew" aria-labelledby="crew-title" lang=${speech.code}>
    <h2 id="crew-title">${say('part')}</h2>
    <p class="lead">${orders.length === 0 ? say('part none') : say('part orders', { count: orders.length, date: date(data.on) })}</p>
    ${orders.length > 0 && html`<p class="quiet">${say('part printed')}</p>`}
    ${orders.length > 1 && listOf(orders, data, speech)}
    ${orders.map((order, index) => workOrder(order, index + 1, data))}
  </section>`;
}

const ordersOf = ({ trees }: ReportData): readonly WorkOrder[] =>
  byUrgency(trees).flatMap(entry => openWork(entry.tree).map(prescription => ({ entry, prescription })));

/** The language of all orders, where it is one. */
export function commonSpeech(data: ReportData): Speech {
  const [first, ...others] = new Set(ordersOf(data).map(order => languageOf(order, data)));
  const code = first && others.length === 0 ? first : (data.crewLanguage ?? 'en');
  return speechIn(code, regionOf(data));
}

/** All orders on the first sheet. */
const listOf = (orders: readonly WorkOrder[], data: ReportData, speech: Speech): Markup =>
  table(
    speech.say('list'),
    [
      speech.say('number'),
      ...(['about tree', 'about work', 'crew', 'window'] as const).map(key => speech.say(key)),
    ],
    orders.map((order, index) => {
      const { prescription, entry } = order;
      return [
        html`<a href=${`#order-${index + 1}`}>${index + 1}</a>`,
        titleIn(entry.tree, speech),
        plainWork(prescription, entry.tree, speech),
        crewOf(order, data)?.name.value ?? speech.say('crew none'),
        windowIn(order, data, speech),
      ];
    }),
  );

/** The window and, where no day in it is allowed, that none is. */
const windowIn = (order: WorkOrder, data: ReportData, speech: Speech): string => {
  const { between } = order.prescription;
  if (!between) return speech.say('window none');
  const own = ownFindings(order);
  const planned = plannedDays(order, data);
  const days = speech.days(between);
  if (isBarred(order, own) || (planned.window && planned.open.length === 0))
    return `${days}: ${daysIn(order, planned, own, speech)}`;
  return planned.window ? days : speech.say('window past', { days });
};

const languageOf = (order: WorkOrder, data: ReportData): LanguageCode =>
  data.crewLanguage ?? crewOf(order, data)?.language?.value ?? 'en';

function workOrder(order: WorkOrder, number: number, data: ReportData): Markup {
  const { entry, prescription } = order;
  const { tree, site } = entry;
  const code = languageOf(order, data);
  const speech = speechIn(code, entry.settings.region);
  const { say, word, listed } = speech;
  const id = prescription.id.value;
  const own = ownFindings(order);
  const accepted = acceptedFindings(order);
  const standing = prescriptionsInForce(tree);
  const others = alternativesTo(tree, prescription)
    .filter(one => standing.includes(one))
    .map(one => jobIn(one, speech));
  const bans = bansOf(order, own);
  const bounds = boundsIn(order, own, speech);
  const distanceOf = (finding: Finding): string | undefined => {
    if (finding.rule === 'nest-near') return nestDistanceIn(order, data, speech);
    return isZoneShort(finding) ? bounds.zone : undefined;
  };
  const raised = (level: Finding['level']) => {
    const ofLevel = own.filter(finding => groupOf(finding) === level);
    return (
      ofLevel.length > 0 &&
      html`<div><p class="intro"><strong class=${level}>${say(`briefing ${level}`)}</strong></p>${list(findingsIn(ofLevel, distanceOf, speech))}</div>`
    );
  };
  const notes = (name: 'noted' | 'site notes', fact: Parameters<typeof notesItem>[0]) =>
    notesItem(fact, say(name));
  const rigging = riggingIn(order, speech);
  const breaking = breakingIn(crewOf(order, data), speech);
  const anchor = anchorIn(prescription, speech);
  const supports = supportsIn(tree, speech);
  const checks = checklistOf(order, bounds, data.on, speech);
  const isStopped = own.some(isStop);
  const days = plannedDays(order, data);
  // What the check asks for is wider than the picture.
  const { exclusion } = prescription;
  const picture = exclusion && bounds.zone === speech.figure(exclusion) && dropZoneOf(order, speech);
  const title = titleIn(tree, speech);
  return html`<article id=${`order-${number}`} class=${isCrowded(own, bans, speech) ? 'order crowded' : 'order'} lang=${code}>
    <h3>${say('order', { number, work: plainWork(prescription, tree, speech), id, tree: title })}</h3>
    <div class="first">${pairs([
      [say('climbers'), html`<strong>${climbersIn(order, bans, isStopped, data, speech)}</strong>`],
      [say('clear days'), html`<strong>${daysIn(order, days, own, speech)}</strong>`],
      [say('drop zone'), zoneIn(order, bounds.zone, speech)],
      [say('hospital'), site?.hospital?.value ?? say('hospital none')],
      [say('call'), callIn(site, speech)],
    ])}</div>
    ${prescription.because && html`<p class="lead">${sentence(capital(prescription.because.value))}</p>`}
    ${others.length > 0 && html`<p class="intro"><strong>${say('alternative', { others: listed(others) })}</strong></p>`}
    ${climbing(bans, speech)}
    ${own.length + accepted.length > 0 && html`<div class="stop"><h4>${say('briefing')}</h4>${raised('error')}${raised('warning')}${raised('note')}${acceptedIn(accepted, data, speech)}</div>`}
    <div class="halves">
      <div><h4>${say('about tree')}</h4>${pairs([
        [say('species'), tree.species ? html`<i>${speciesIn(tree, speech)}</i>` : speciesIn(tree, speech)],
        [say('position'), positionIn(tree, site, speech) ?? say('position none')],
        [say('size'), sizeIn(tree, speech)],
        ...(supports === '' ? [] : [[say('supports'), supports] as const]),
        ...notes('noted', tree),
        ...(site ? [[say('site'), site.name.value] as const, ...notes('site notes', site)] : []),
        ...(site?.client ? [[say('client'), site.client.value] as const] : []),
        [say('muster'), site?.muster?.value ?? say('muster none')],
      ])}</div>
      <div><h4>${say('about work')}</h4>${pairs([
        ...leftUndone(order, speech),
        ...(fellsTree(prescription) || prescription.takedown
          ? [[say('takedown'), html`<strong>${takedownIn(prescription, speech)}</strong>`] as const]
          : []),
        ...prescriptionItems(inFull(order, speech), speech),
        ...(bounds.cuts === undefined
          ? []
          : [[say('cuts'), say('cuts up to', { value: bounds.cuts })] as const]),
        [say('crew'), crewIn(order, data, speech)],
        ...(prescription.priority ? [[say('priority'), word(prescription.priority.value)] as const] : []),
        ...(prescription.by ? [[say('by'), personWords(prescription.by.value, data)] as const] : []),
        ...notes('noted', prescription),
      ])}</div>
      <div><h4>${say('when')}</h4>${when(order, days, isBarred(order, own), data, speech)}</div>
      <div><h4>${say('about load')}</h4>${pairs([
        [say('piece'), pieceIn(order, speech)],
        [say('gear'), gearIn(crewOf(order, data), prescription.piece?.mass, speech)],
        ...(breaking === '' ? [] : [[say('breaking gear'), breaking] as const]),
        ...(anchor === '' ? [] : [[say('anchor'), anchor] as const]),
        ...(rigging ? [[say('rigging'), rigging] as const] : []),
        [say('targets'), targetsIn(entry, speech)],
        [say('lines'), linesIn(order, data, speech)],
      ])}${picture}</div>
    </div>
    <div class="back">
    <p class="over">${say('back of', { number, tree: title })}</p>
    <h4>${say('checks')}</h4>
    <p class="quiet">${say('checks how')}</p>
    <ul class="checks">${checks.map(
      (text, item) =>
        html`<li><input type="checkbox" id=${`check-${number}-${item}`} /><label for=${`check-${number}-${item}`}>${text}</label><span class="initials"></span></li>`,
    )}</ul>
    <div class="signed">${(['leader', 'started', 'finished'] as const).map(who => signatureLine(say(who), say('signature'), say('date and time')))}</div>
    <p class="quiet">${cautionIn(order, speech)}</p>
    </div>
  </article>`;
}

/** The prescription with its signs in words; what the order says elsewhere left out. */
function inFull({ entry: { tree }, prescription }: WorkOrder, speech: Speech): Prescription {
  const nameOf = (id: string) => {
    const defect = tree.defects.find(one => one.id.value === id);
    return defect ? defectIn(defect, speech) : id;
  };
  return {
    ...prescription,
    // In one, since names in words contain commas.
    for: prescription.for
      .slice(0, 1)
      .map(one => ({ ...one, value: prescription.for.map(({ value }) => nameOf(value)).join('; ') })),
    alternatives: [],
    cutDiameter: undefined,
  };
}

/** Characters of findings and bans from which on the front of a sheet is set in smaller type. */
const CROWDED = 1100;

function isCrowded(
  findings: readonly Finding[],
  bans: readonly ClimbingBan[],
  { language: { findings: meanings } }: Speech,
): boolean {
  const lengths = [
    ...findings.map(({ rule, message }) => message.length + (meanings[rule]?.length ?? 0)),
    ...bans.map(({ reason }) => reason.length),
  ];
  return lengths.reduce((sum, length) => sum + length, 0) > CROWDED;
}

/** What forbids climbing for certain, and what may. */
function climbing(bans: readonly ClimbingBan[], speech: Speech): readonly (Markup | false)[] {
  return (['no climbing', 'doubtful climbing'] as const).map(key => {
    const own = bans.filter(({ isSure }) => isSure === (key === 'no climbing'));
    return (
      own.length > 0 &&
      html`<div class="stop"><p><strong class="error">${speech.say(key)}</strong></p>${list(own.map(ban => banIn(ban, speech)))}</div>`
    );
  });
}

function crewIn(order: WorkOrder, data: ReportData, { say }: Speech): string {
  const { crew: id } = order.prescription;
  if (!id) return say('crew none');
  const crew = crewOf(order, data);
  if (!crew) return id.value;
  const members = crew.members.map(({ value }) => personWords(value, data)).join(', ');
  return members === '' ? crew.name.value : say('crew members', { name: crew.name.value, members });
}

/** @param barred whether something has to be settled before any day counts */
function when(
  { entry, prescription }: WorkOrder,
  { window, open, because }: WorkDays,
  barred: boolean,
  { on }: ReportData,
  speech: Speech,
): Markup {
  const { say, word, date, days, read } = speech;
  const { original: meanings } = speech.language.translation ?? {};
  const { tree, settings } = entry;
  const last = open.at(-1);
  const asks = [...asksOfCutting(entry, on), ...asksOfPruning(pruningWeeks(tree, prescription, settings))];
  const stated = prescription.between;
  const check = lastCheckBy(tree, on);
  const roosts = roostFeatures(tree).length > 0;
  const bats = roosts ? lastBatCheckBy(tree, on) : undefined;
  return pairs([
    [
      say('window'),
      stated ? (window ? days(stated) : say('window past', { days: days(stated) })) : say('window none'),
    ],
    ...(!barred && last ? [[say('last day'), html`<strong>${date(last.to)}</strong>`] as const] : []),
    ...(window
      ? []
      : [
          [
            say('before days'),
            asks.map(({ kind, words }) => asked(read(words), meanings?.asks[kind])),
          ] as const,
        ]),
    ...(because.length > 0
      ? [
          [
            say('closed'),
            because.map(({ kind, days: spans, why }) =>
              inOriginal(
                `${read(why)} `,
                meanings?.closures[kind].replace('{days}', () => spans.map(days).join(', ')),
              ),
            ),
          ] as const,
        ]
      : []),
    [
      say('nests'),
      check
        ? `${say('checked', { date: date(check.date.value), from: word(check.from.value), found: foundNests(check.found, speech) })}${noted(check)}`
        : say('nests none'),
    ],
    ...(roosts
      ? [
          [
            say('bats'),
            bats
              ? `${say('checked', { date: date(bats.date.value), from: word(bats.from.value), found: bats.found.map(({ use }) => word(use)).join(', ') || say('found none') })}${noted(bats)}`
              : say('bats none'),
          ] as const,
        ]
      : []),
    ...permitIn(entry, prescription, speech),
    ...(prescription.exemption
      ? [
          [
            say('exemption'),
            untilIn(prescription.exemption.by, prescription.exemption.until, speech),
          ] as const,
        ]
      : []),
  ]);
}

const asked = (words: Ask['words'], meaning: string | undefined): MarkupContent =>
  inOriginal(`${capital(words)}. `, meaning);

const untilIn = (what: string, until: number | undefined, { say, date }: Speech): string =>
  until === undefined ? what : `${what}, ${say('permit until', { date: date(until) })}`;

function permitIn(
  { tree }: ReportTree,
  prescription: WorkOrder['prescription'],
  { say, word, date }: Speech,
): readonly (readonly [string, string])[] {
  const permit = permitFor(tree, prescription);
  if (!permit || permit.number.value === 'none')
    return tree.protection ? [[say('permit'), say('permit none')]] : [];
  const { number, until, scope } = permit;
  const words = [
    number.value,
    ...(until === undefined ? [] : [say('permit until', { date: date(until) })]),
    ...(scope ? [say('permit for', { scope: word(scope) })] : []),
  ];
  return [[say('permit'), words.join(', ')]];
}

const foundNests = (
  found: ReportTree['tree']['nestChecks'][number]['found'],
  { say, word, figure }: Speech,
): string =>
  found
    .map(({ use, species, height }) => {
      const what = [word(use), ...(species ? [`(${species.name})`] : [])].join(' ');
      return height ? say('found at', { what, height: figure(height) }) : what;
    })
    .join('; ') || say('found none');

/** The cautions that apply to this order. */
function cautionIn({ entry: { tree }, prescription }: WorkOrder, { say, language }: Speech): string {
  const bats = meetsRoosts(prescription, roostFeatures(tree));
  return [
    say('caution nests'),
    ...(bats ? [say('caution bats')] : []),
    say('may stop'),
    ...(language.translation ? [language.translation.original.note] : []),
  ].join(' ');
}
