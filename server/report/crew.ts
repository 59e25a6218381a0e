/** The part for the crew: a work order for each open prescription of work at a tree, in the language of its crew. */

import { type Ask, asksOfCutting, asksOfPruning } from '../assess/asks.ts';
import { type ClimbingBan, unsafeToClimb } from '../assess/climbing.ts';
import { alternativesTo, prescriptionsInForce } from '../assess/jobs.ts';
import { lastCheckBy } from '../assess/nesting.ts';
import { permitFor } from '../assess/permits.ts';
import { pruningWeeks } from '../assess/pest-windows.ts';
import { daysLeft, openWork } from '../assess/prescriptions.ts';
import { qualifiedOn } from '../assess/qualifications.ts';
import { lastBatCheckBy, meetsRoosts, roostFeatures } from '../assess/roosts.ts';
import { workDays } from '../assess/work-days.ts';
import { capital } from '../base/words.ts';
import type { Crew } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import { ruleNamed } from '../rules/registry.ts';
import { checklistOf } from './checklist.ts';
import {
  banIn,
  findingsIn,
  gearIn,
  jobIn,
  linesIn,
  noted,
  original,
  pieceIn,
  riggingIn,
  sizeIn,
  speciesIn,
  targetsIn,
  titleIn,
} from './crew-words.ts';
import type { ReportData, ReportTree, WorkOrder } from './data.ts';
import { dropZoneOf } from './drop-zone.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import { type Speech, speechIn } from './languages/language.ts';
import type { LanguageCode } from './languages/translation.ts';
import { notesItem } from './notes.ts';
import { byGravity, byUrgency, list, pairs, signatureLine, table } from './parts.ts';
import { plainWork } from './plain-words.ts';
import { personWords, positionWords, prescriptionItems, sentence } from './words.ts';

export function crewPart(data: ReportData): Markup {
  const orders = byUrgency(data.trees).flatMap((entry): WorkOrder[] =>
    openWork(entry.tree).map(prescription => ({ entry, prescription })),
  );
  const languages = new Set(orders.map(order => languageOf(order, data)));
  const common = languages.size === 1 ? [...languages][0]! : (data.crewLanguage ?? 'en');
  const speech = speechIn(common, data.trees[0]?.settings.region ?? { code: '' });
  const { say, date } = speech;
  return html`<section id="crew" aria-labelledby="crew-title" lang=${common}>
    <h2 id="crew-title">${say('part')}</h2>
    <p class="lead">${orders.length === 0 ? say('part none') : say('part orders', { count: orders.length, date: date(data.on) })}</p>
    ${orders.length > 0 && html`<p class="quiet">${say('part printed')}</p>`}
    ${orders.length > 1 && listOf(orders, data, speech)}
    ${[...languages].map(code => termsOf(code))}
    ${orders.map((order, index) => workOrder(order, index + 1, data))}
  </section>`;
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
      const { between } = prescription;
      return [
        html`<a href=${`#order-${index + 1}`}>${index + 1}</a>`,
        titleIn(entry.tree, speech),
        plainWork(prescription, entry.tree, speech),
        crewOf(order, data)?.name.value ?? speech.say('crew none'),
        between ? speech.days(between) : speech.say('window none'),
      ];
    }),
  );

/** The crew of the work, where one is named and on record. */
const crewOf = ({ prescription: { crew } }: WorkOrder, data: ReportData): Crew | undefined =>
  crew && data.crew(crew.value);

const languageOf = (order: WorkOrder, data: ReportData): LanguageCode =>
  data.crewLanguage ?? crewOf(order, data)?.language?.value ?? 'en';

/** Of a translation, the terms that no publication vouches for. */
function termsOf(code: LanguageCode): Markup | false {
  const { language, say } = speechIn(code, { code: '' });
  const { translation } = language;
  if (!translation) return false;
  const remembered = translation.terms.filter(({ source }) => source === undefined);
  return html`<p class="quiet" lang=${code}>${say('terms remembered', { terms: remembered.map(({ term }) => term).join(', ') })}</p>`;
}

/** Groups of rules whose errors bar the work itself, not only its plan. */
const BARS: ReadonlySet<string | undefined> = new Set(['permits', 'wildlife', 'electricity', 'people']);

const isBar = ({ level, rule }: Finding): boolean => level === 'error' && BARS.has(ruleNamed(rule)?.group);

function workOrder(order: WorkOrder, number: number, data: ReportData): Markup {
  const { entry, prescription } = order;
  const { tree, site, findings, prescriptionsOf } = entry;
  const code = languageOf(order, data);
  const speech = speechIn(code, entry.settings.region);
  const { say, word, figure, listed } = speech;
  const id = prescription.id.value;
  // Findings about another prescription belong to its own work order.
  const own = byGravity(findings).filter(finding => {
    const about = prescriptionsOf(finding);
    return !finding.accepted && (about.length > 0 ? about.includes(id) : finding.level === 'error');
  });
  const standing = prescriptionsInForce(tree);
  const others = alternativesTo(tree, prescription)
    .filter(one => standing.includes(one))
    .map(one => jobIn(one, speech));
  const bans = unsafeToClimb({ tree, site, settings: entry.settings });
  const raised = (level: Finding['level']) => {
    const ofLevel = own.filter(finding => finding.level === level);
    return (
      ofLevel.length > 0 &&
      html`<div><p class="intro"><strong class=${level}>${say(`briefing ${level}`)}</strong></p>${list(findingsIn(ofLevel, speech))}</div>`
    );
  };
  const notes = (name: 'noted' | 'site notes', fact: Parameters<typeof notesItem>[0]) =>
    notesItem(fact, say(name));
  const rigging = riggingIn(order, speech);
  const checks = checklistOf(order, speech);
  const title = titleIn(tree, speech);
  return html`<article id=${`order-${number}`} class=${isCrowded(own, speech) ? 'order crowded' : 'order'} lang=${code}>
    <h3>${say('order', { number, work: plainWork(prescription, tree, speech), id, tree: title })}</h3>
    ${prescription.because && html`<p class="lead">${sentence(capital(prescription.because.value))}</p>`}
    ${others.length > 0 && html`<p class="intro"><strong>${say('alternative', { others: listed(others) })}</strong></p>`}
    ${climbing(bans, speech)}
    ${own.length > 0 && html`<div class="stop"><h4>${say('briefing')}</h4>${raised('error')}${raised('warning')}${raised('note')}</div>`}
    <div class="halves">
      <div><h4>${say('about tree')}</h4>${pairs([
        [say('species'), tree.species ? html`<i>${speciesIn(tree, speech)}</i>` : speciesIn(tree, speech)],
        [say('position'), tree.position ? positionWords(tree.position) : say('position none')],
        [say('size'), sizeIn(tree, speech)],
        ...notes('noted', tree),
        ...(site ? [[say('site'), site.name.value] as const, ...notes('site notes', site)] : []),
        ...(site?.client ? [[say('client'), site.client.value] as const] : []),
        [say('hospital'), site?.hospital?.value ?? say('hospital none')],
        [say('muster'), site?.muster?.value ?? say('muster none')],
      ])}</div>
      <div><h4>${say('about work')}</h4>${pairs([
        ...prescriptionItems(prescription, speech),
        [say('crew'), crewIn(order, data, speech)],
        [say('climbers'), climbersIn(order, bans, data, speech)],
        ...(prescription.priority ? [[say('priority'), word(prescription.priority.value)] as const] : []),
        ...(prescription.by ? [[say('by'), personWords(prescription.by.value, data)] as const] : []),
        ...notes('noted', prescription),
      ])}</div>
      <div><h4>${say('when')}</h4>${when(order, own.some(isBar), data, speech)}</div>
      <div><h4>${say('about load')}</h4>${pairs([
        [say('piece'), pieceIn(prescription, speech)],
        [say('gear'), gearIn(crewOf(order, data), speech)],
        ...(rigging ? [[say('rigging'), rigging] as const] : []),
        [
          say('drop zone'),
          prescription.exclusion
            ? say('drop zone of', { value: figure(prescription.exclusion) })
            : say('not stated'),
        ],
        [say('targets'), targetsIn(entry, speech)],
        [say('lines'), linesIn(entry, speech)],
      ])}${dropZoneOf(order, speech)}</div>
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

/** Characters of findings from which on the front of a sheet is set in smaller type. */
const CROWDED = 1100;

function isCrowded(findings: readonly Finding[], { language }: Speech): boolean {
  const length = findings.reduce((sum, { message, remedy }) => sum + message.length + remedy.length, 0);
  // A translation comes on top.
  return length * (language.translation ? 1.5 : 1) > CROWDED;
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

/** Nobody where the tree is unsafe for certain, else those of the crew who are qualified on the day. */
function climbersIn(
  order: WorkOrder,
  bans: readonly ClimbingBan[],
  data: ReportData,
  { say, listed }: Speech,
): string {
  if (bans.some(({ isSure }) => isSure)) return say('climbers none');
  if (bans.length > 0) return say('climbers doubtful');
  const day = daysLeft(order.prescription, data.on)?.from ?? data.on;
  const climbers = (crewOf(order, data)?.members ?? []).flatMap(({ value }) => {
    const person = data.person(value);
    return person && qualifiedOn(person, 'climbing arborist', day) ? [person.name.value] : [];
  });
  return climbers.length > 0 ? say('climbers named', { names: listed(climbers) }) : say('climbers unknown');
}

/** @param barred whether something has to be settled before any day counts */
function when(
  { entry, prescription }: WorkOrder,
  barred: boolean,
  { on, person, crew }: ReportData,
  speech: Speech,
): Markup {
  const { say, word, date, days, read } = speech;
  const { original: meanings } = speech.language.translation ?? {};
  const { tree, site, settings, nestTreesNear } = entry;
  const { window, open, because } = workDays(
    { tree, site, settings, today: on, person, crew, nestTreesNear },
    prescription,
  );
  const last = open.at(-1);
  const asks = [...asksOfCutting(entry, on), ...asksOfPruning(pruningWeeks(tree, prescription, settings))];
  const stated = prescription.between;
  const check = lastCheckBy(tree, on);
  const roosts = roostFeatures(tree).length > 0;
  const bats = roosts ? lastBatCheckBy(tree, on) : undefined;
  const clear = open.map(days).join(', ');
  return pairs([
    [
      say('window'),
      stated ? (window ? days(stated) : say('window past', { days: days(stated) })) : say('window none'),
    ],
    ...(window
      ? [
          [
            say('clear days'),
            barred
              ? html`<strong>${say('clear days barred')}</strong>`
              : say(clear === '' ? 'clear days none' : 'clear days on record', { days: clear }),
          ] as const,
          ...(barred
            ? []
            : [
                [
                  say('last day'),
                  html`<strong>${last ? date(last.to) : say('last day none')}</strong>`,
                ] as const,
              ]),
        ]
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
              original(
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
  ]);
}

const asked = (words: Ask['words'], meaning: string | undefined): MarkupContent =>
  original(`${capital(words)}. `, meaning);

function permitIn(
  { tree }: ReportTree,
  prescription: WorkOrder['prescription'],
  { say, word, date }: Speech,
): readonly (readonly [string, string])[] {
  const permit = permitFor(tree, prescription);
  if (!permit) return tree.protection ? [[say('permit'), say('permit none')]] : [];
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
      const what = [word(use), ...(species ? [species.name] : [])].join(' ');
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
