/** What a work order says of tree, work and surroundings, in the language of its crew. */

import type { ClimbingBan } from '../assess/climbing.ts';
import {
  approach,
  approachSource,
  classesOf,
  crewMinimum,
  deadOn,
  showKeep,
  crewOf as workersOf,
} from '../assess/conductors.ts';
import { comesDownWhole, dropZoneRow, isRead } from '../assess/fall-zone.ts';
import { authority, showNumber } from '../assess/judge.ts';
import { daysLeft, lastWorkUnder, lengthUp } from '../assess/prescriptions.ts';
import { forceText, pieceMass, type RiggedElement } from '../assess/rigging.ts';
import { supportsInPlace } from '../assess/supports.ts';
import { numberText, rounded } from '../base/figures.ts';
import { grouped } from '../base/grouped.ts';
import { exact } from '../base/interval.ts';
import { plainNumber, type Quantity } from '../base/quantity.ts';
import { capital, quoted } from '../base/words.ts';
import { isPlaced } from '../facts/nest-index.ts';
import { UNREAD } from '../facts/placed.ts';
import { TRUNK } from '../facts/references.ts';
import type {
  Conductor,
  Crew,
  Defect,
  GeoPosition,
  Placed,
  Prescription,
  Site,
  Tree,
} from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import { ruleNamed } from '../rules/registry.ts';
import { massText, unitsOf } from '../show/figures.ts';
import type { ReportData, ReportTree, WorkOrder } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import type { Speech } from './languages/language.ts';
import { type Noted, noteWords, withNotes } from './notes.ts';
import { list } from './parts.ts';
import { COMPARED } from './plain-words.ts';
import { personWords, positionWords, sentence, speciesOf } from './words.ts';

/** A sentence that rules or assessments write in English; in another language after what it means for the crew. */
export const inOriginal = (
  english: string | readonly string[],
  meaning: string | undefined,
): MarkupContent =>
  meaning === undefined
    ? english
    : html`<span>${meaning} ${[english].flat().map(one => html`<small lang="en">${one}</small>`)}</span>`;

export const speciesIn = (tree: Tree, { say }: Speech): string =>
  tree.species ? speciesOf(tree) : say('species none');

export const titleIn = ({ tag, name }: Tree, { say }: Speech): string =>
  name ? say('tree named', { tag: tag.value, name: name.value }) : say('tree', { tag: tag.value });

export const jobIn = ({ kind, id }: Prescription, { say, word }: Speech): string =>
  say('job', { kind: word(kind.value), id: id.value });

/** Of the tree, else of its site, named as such. */
export function positionIn({ position }: Tree, site: Site | undefined, { say }: Speech): string | undefined {
  // With five decimals a coarse one would send the ambulance astray.
  const words = (place: GeoPosition): string => {
    const { latitude, longitude } = place;
    if (isPlaced(place)) return positionWords(place);
    return say('position coarse', { position: `${latitude}, ${longitude}` });
  };
  if (position) return words(position);
  return site?.position && say('position site', { position: words(site.position) });
}

/** At least seven digits. */
const NUMBER = /\d(?:[\s()./-]*\d){6}/;

/** The firm of the site: of people and crews no number is on record. */
export function callIn(site: Site | undefined, { say }: Speech): string {
  const firm = site?.firm?.value;
  if (firm === undefined) return say('call none');
  return NUMBER.test(firm) ? firm : `${firm}; ${say('call none')}`;
}

/** `dbh 41 in, height 52 ft, crown from 14 ft and 58 ft wide, mature, vigor fair`. */
export function sizeIn(tree: Tree, { say, figure, listed, word, date }: Speech): string {
  const { diameters, height, crownBase, crownSpread, planted, age, vigor, stressed } = tree;
  const crown = [
    ...(crownBase ? [say('crown from', { value: figure(crownBase) })] : []),
    ...(crownSpread ? [say('crown wide', { value: figure(crownSpread) })] : []),
  ];
  return [
    diameters.length > 0 ? say('dbh', { value: listed(diameters.map(figure)) }) : say('dbh none'),
    height ? say('height', { value: figure(height) }) : say('height none'),
    crown.length > 0 ? say('crown', { value: listed(crown) }) : say('crown none'),
    ...(planted ? [say('planted', { date: date(planted.value) })] : []),
    ...(age ? [word(age.value)] : []),
    ...(vigor ? [vigor.value === 'dead' ? word('dead') : say('vigor', { word: word(vigor.value) })] : []),
    ...(stressed?.cause ? [say('stressed', { cause: word(stressed.cause) })] : []),
  ].join(', ');
}

/** `cavity A on North at 18 ft, facing SW`. */
export function defectIn(
  { kind, id, part, height, facing }: Defect,
  { say, word, figure, point }: Speech,
): string {
  let what = say('job', { kind: word(kind.value), id: id.value });
  if (part) what = say('defect on', { what, part: part.value === TRUNK ? say('trunk') : part.value });
  if (height) what = say('defect at', { what, height: figure(height) });
  return facing === undefined ? what : say('defect facing', { what, point: point(facing) });
}

/** Why a tree is not climbed. */
export function banIn({ sign, reason }: ClimbingBan, speech: Speech): MarkupContent {
  const { translation } = speech.language;
  const { kind, defect } = sign;
  return inOriginal(
    speech.read(reason),
    translation && (defect ? defectIn(defect, speech) : translation.original.signs[kind]),
  );
}

/**
 * What to do about findings and, after it, what is wrong; those that ask for the same together. Their remedies tell the
 * office what to write.
 * @param distanceOf what a finding asks to be kept away by
 */
export function findingsIn(
  findings: readonly Finding[],
  distanceOf: (finding: Finding) => string | undefined,
  { language, read, say }: Speech,
): readonly MarkupContent[] {
  const original = language.translation?.original;
  const meaningOf = (finding: Finding): string => {
    const { rule } = finding;
    const meaning = ruleNamed(rule) ? (language.findings[rule] ?? original?.otherFinding) : say('mistake');
    const value = distanceOf(finding);
    return [...(meaning ? [meaning] : []), ...(value ? [say('distance', { value })] : [])].join(' ');
  };
  return [...grouped(findings, meaningOf)].flatMap(([meaning, own]): readonly MarkupContent[] => {
    const english = own.map(({ message }) => read(message));
    if (meaning === '') return english;
    return [
      original
        ? inOriginal(english, meaning)
        : html`<span><strong>${read(meaning)}</strong> ${english.join(' ')}</span>`,
    ];
  });
}

/** What an exception covers; the crew works beside it all the same. */
export const acceptedIn = (findings: readonly Finding[], data: ReportData, speech: Speech): Markup | false =>
  findings.length > 0 &&
  html`<div><p class="intro"><strong>${speech.say('briefing accepted')}</strong></p>${list(
    findings.map(({ message, accepted }) => {
      const { by, until } = accepted!;
      const words = speech.say('accepted', { name: personWords(by, data), date: speech.date(until) });
      return html`<span>${words} <small lang="en">${speech.read(message)}</small></span>`;
    }),
  )}</div>`;

/** With its mass as computed, where only its sizes are stated: the gear is rated by mass. */
export function pieceIn(
  { entry: { tree, settings }, prescription: { piece } }: WorkOrder,
  { say, figure, figures }: Speech,
): string {
  if (!piece) return say('not stated');
  const { mass, length, diameter, narrow } = piece;
  const computed = mass ? undefined : pieceMass(tree, piece, settings);
  const thick =
    diameter && (narrow ? say('change', { from: figure(diameter), to: figure(narrow) }) : figure(diameter));
  return [
    ...(mass ? [figure(mass)] : []),
    ...(length ? [say('long', { value: figure(length) })] : []),
    ...(thick ? [say('thick', { value: thick })] : []),
    ...(mass
      ? []
      : [
          computed && Number.isFinite(computed.high)
            ? say('weighs', { value: figures(massText(computed, unitsOf(tree))) })
            : say('weight unknown'),
        ]),
  ].join(', ');
}

/** A stated zone may be too small, where nobody knows how far the wood may reach. */
export function zoneIn(
  { entry: { tree, settings }, prescription }: WorkOrder,
  zone: string | undefined,
  { say, figure, figures }: Speech,
): string {
  const { exclusion } = prescription;
  if (zone !== undefined) {
    const row = comesDownWhole(prescription) ? undefined : dropZoneRow(settings.region.rows);
    const beyond = row && lengthUp(row.rule.beyond, exclusion?.value, tree.height?.value);
    return beyond === undefined
      ? say('drop zone of', { value: zone })
      : say('drop zone beyond', { value: zone, beyond: figures(beyond) });
  }
  if (!exclusion && !comesDownWhole(prescription)) return say('not stated');
  return exclusion && isRead(exclusion)
    ? say('drop zone least', { value: figure(exclusion) })
    : say('drop zone unread');
}

/** What the last work under the prescription left to do. */
export function leftUndone(
  { entry: { tree }, prescription }: WorkOrder,
  { say, date }: Speech,
): readonly (readonly [string, string])[] {
  const last = lastWorkUnder(tree, prescription);
  return last?.unfinished
    ? [[say('left undone', { date: date(last.date.value) }), sentence(capital(last.unfinished.value))]]
    : [];
}

/** How what is felled comes down, as planned; a bearing that the compass points round off in degrees too. */
export function takedownIn({ takedown }: Prescription, { say, point }: Speech): string {
  if (!takedown) return say('not stated');
  const { how, toward } = takedown;
  if (how !== 'whole') return say(`takedown ${how}`);
  if (toward === undefined) return say('takedown anywhere');
  return say('takedown whole', {
    point: toward % 22.5 === 0 ? point(toward) : `${point(toward)} (${toward}°)`,
  });
}

/** The anchor and the lengths that the forces were computed for; empty without. */
export function anchorIn({ anchor, rigged }: Prescription, speech: Speech): string {
  const { say, figure } = speech;
  const on = anchor && {
    what: anchor.part.value === TRUNK ? say('trunk') : anchor.part.value,
    height: figure(anchor.height),
  };
  return [
    ...(on ? [say('defect at', on)] : []),
    ...(anchor?.diameter ? [say('thick', { value: figure(anchor.diameter) })] : []),
    ...(rigged?.drop ? [say('drop', { value: figure(rigged.drop) })] : []),
    ...(rigged?.rope ? [say('rope length', { value: figure(rigged.rope) })] : []),
    ...(rigged?.legs ? [say('legs', { value: figure(rigged.legs) })] : []),
  ].join(', ');
}

/** Cables, braces, props and guys in place: cutting what they hold sets it free. */
export const supportsIn = (tree: Tree, { say, word, listed }: Speech): string =>
  supportsInPlace(tree)
    .map(({ kind, id, holds }) => {
      const what = say('job', { kind: word(kind.value), id: id.value });
      return holds.length > 0
        ? say('support holds', { what, parts: listed(holds.map(({ value }) => value)) })
        : what;
    })
    .join('; ');

/** Working loads, in the unit of the heaviest piece. */
export function gearIn(crew: Crew | undefined, piece: Placed<Quantity> | undefined, speech: Speech): string {
  const { say, figure } = speech;
  if (!crew) return say('gear unknown');
  const { rope, crane, lift } = crew;
  const load = (of: Placed<Quantity>) => loadLike(of, piece, speech);
  return (
    [
      ...(rope ? [say('rope', { value: load(rope) })] : []),
      ...(crane
        ? [
            crane.reach
              ? say('crane at', { value: load(crane.mass), reach: figure(crane.reach) })
              : say('crane', { value: load(crane.mass) }),
          ]
        : []),
      ...(lift ? [say('lift', { value: figure(lift) })] : []),
    ].join(', ') || say('not stated')
  );
}

/** `181 kg (400 lb)`, rounded down. */
function loadLike(
  load: Placed<Quantity>,
  piece: Placed<Quantity> | undefined,
  { figure, figures }: Speech,
): string {
  const unit = piece?.value.unit;
  const { form, low, unit: own } = load.value;
  if (!unit || unit === own || form !== 'exact') return figure(load);
  const digits = unit.symbol === 't' ? 2 : 0;
  return `${figures(plainNumber(rounded(low / unit.factor, digits, 'down'), digits))} ${unit.symbol} (${figure(load)})`;
}

/** What the gear breaks at; empty without. */
export function breakingIn(crew: Crew | undefined, { say, figure }: Speech): string {
  const { riggingLine: line, block, sling } = crew ?? {};
  return [
    ...(line ? [say(line.spliced ? 'line spliced' : 'line', { value: figure(line.strength) })] : []),
    ...(block ? [say('block', { value: figure(block) })] : []),
    ...(sling ? [say('sling', { value: figure(sling) })] : []),
  ].join(', ');
}

/** The forces of a piece lowered on a rope, and how the gear and the spar compare with them; none of work without. */
export function riggingIn(
  { entry: { tree, assessment }, prescription }: WorkOrder,
  speech: Speech,
): Markup | undefined {
  const rigging = assessment.riggings.find(one => one.prescription === prescription);
  if (!rigging) return undefined;
  const { say, word, figures } = speech;
  const { mass, peak, unit, elements } = rigging;
  const how = word(prescription.rigged!.how);
  const force = Number.isFinite(peak.high)
    ? figures(forceText(peak, unit))
    : say('or more', { value: figures(forceText(exact(peak.low), unit)) });
  return html`<span>${mass ? say('rigged', { how, mass: figures(massText(mass, unitsOf(tree))), force }) : say('rigged unknown', { how })}${elements.map(one => elementIn(one, speech))}.</span>`;
}

/** `rope beyond a limit: breaks at 1.9..6.4 times the force; at least 10 is required (common practice)`. */
function elementIn({ name, standing, judged, missing }: RiggedElement, speech: Speech): Markup {
  const { say, word, figures, language } = speech;
  const translated = language.translation?.original.missing;
  const items = missing.map(
    (one, i) =>
      html`<span>${i > 0 && ', '}${translated?.[one] ?? html`<span lang="en">${one}</span>`}</span>`,
  );
  const against = judged && {
    value: figures(numberText(judged.value, 1)),
    limit: figures(showNumber(judged.setting.value, judged.setting, 2)),
  };
  // In English "exceeds" would read as if the rope bore more than the force.
  const compared = language.translation ? word(standing) : COMPARED[standing];
  return html`<span>; ${word(name)} ${compared}${against && html`<span>: ${say('times', against)} (<span lang="en">${authority(judged.setting)}</span>)</span>`}${missing.length > 0 && html`<span>, ${say('without')} ${items}</span>`}</span>`;
}

/** Notes appended to a line. */
export const noted = (fact: Noted): string => (noteWords(fact) === '' ? '' : `. ${noteWords(fact)}`);

export const targetsIn = ({ tree }: ReportTree, { say, figure, word }: Speech): string =>
  tree.targets
    .map(target => {
      const { name, distance, occupied } = target;
      const words = [
        quoted(name.value),
        isRead(distance) ? figure(distance!) : say('distance none'),
        ...(occupied ? [word(occupied.value)] : []),
      ];
      return `${words.join(', ')}${noted(target)}`;
    })
    .join('; ') || say('targets none');

/** `"Lane line" (12.5 kV)`. */
export const lineIn = ({ name, voltage }: Conductor, { say, figure }: Speech): string =>
  `${name.value === UNREAD ? UNREAD : quoted(name.value)} (${voltage && voltage.value.form !== 'unseen' ? figure(voltage) : say('voltage none')})`;

/** How far everybody without a qualification stays away; where the voltage is unknown, the most that it may ask for. */
export const keepIn = (conductor: Conductor, { tree, settings }: ReportTree, { figures }: Speech): string =>
  figures(showKeep(exact(approach(conductor, settings).high), conductor, tree));

/** Whether a line is off on some day of the work; one that was off earlier is live. */
export const isOffFor = ({ prescription }: WorkOrder, conductor: Conductor, on: number): boolean =>
  deadOn(conductor, daysLeft(prescription, on)) !== 'none' && conductor.dead!.to >= on;

/** How near a crew that is qualified for work near lines may come; empty for others. */
function crewKeepIn(
  { entry: { tree, site, settings }, prescription }: WorkOrder,
  conductor: Conductor,
  data: ReportData,
  { say, figures }: Speech,
): MarkupContent {
  const day = daysLeft(prescription, data.on)?.from ?? data.on;
  const classes = classesOf(workersOf(prescription), data, day);
  if (classes.length === 0) return '';
  const { keep, source } = crewMinimum(classes, conductor, settings, site);
  const value = figures(showKeep(exact(keep.high), conductor, tree));
  return html`; ${say('keep crew', { value })} (<span lang="en">${source}</span>)`;
}

export function linesIn(order: WorkOrder, data: ReportData, speech: Speech): MarkupContent {
  const { say, figure, days } = speech;
  const { entry } = order;
  const { tree, settings } = entry;
  if (tree.conductors.length === 0) return say('lines none');
  return tree.conductors.map(conductor => {
    const { dead, distance } = conductor;
    const place =
      distance && distance.value.form !== 'unseen'
        ? say('line at', { value: figure(distance) })
        : say('line somewhere');
    const off =
      dead && isOffFor(order, conductor, data.on) ? say('line off', { days: days(dead) }) : say('line on');
    return html`<span>${lineIn(conductor, speech)}, ${place}; ${off}; ${say('keep away', { value: keepIn(conductor, entry, speech) })} (<span lang="en">${approachSource(conductor, settings)}</span>)${crewKeepIn(order, conductor, data, speech)}.${withNotes(conductor)} </span>`;
  });
}
