/** What a work order says of tree, work and surroundings, in the language of its crew. */

import type { ClimbingBan } from '../assess/climbing.ts';
import { approach, approachSource, showKeep } from '../assess/conductors.ts';
import { authority, showNumber } from '../assess/judge.ts';
import { forceText, type RiggedElement } from '../assess/rigging.ts';
import { numberText } from '../base/figures.ts';
import { grouped } from '../base/grouped.ts';
import { exact } from '../base/interval.ts';
import { quoted } from '../base/words.ts';
import { UNREAD } from '../facts/placed.ts';
import { TRUNK } from '../facts/references.ts';
import type { Conductor, Crew, Defect, Prescription, Tree } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import { ruleNamed } from '../rules/registry.ts';
import { massText, unitsOf } from '../show/figures.ts';
import type { ReportTree, WorkOrder } from './data.ts';
import { html, type Markup, type MarkupContent } from './html.ts';
import type { Speech } from './languages/language.ts';
import { type Noted, noteWords, withNotes } from './notes.ts';
import { speciesOf } from './words.ts';

/** A sentence that rules or assessments write in English; in another language after what it means for the crew. */
export const original = (english: string | readonly string[], meaning: string | undefined): MarkupContent =>
  meaning === undefined
    ? english
    : html`<span>${meaning} ${[english].flat().map(one => html`<small lang="en">${one}</small>`)}</span>`;

export const speciesIn = (tree: Tree, { say }: Speech): string =>
  tree.species ? speciesOf(tree) : say('species none');

export const titleIn = ({ tag, name }: Tree, { say }: Speech): string =>
  name ? say('tree named', { tag: tag.value, name: name.value }) : say('tree', { tag: tag.value });

export const jobIn = ({ kind, id }: Prescription, { say, word }: Speech): string =>
  say('job', { kind: word(kind.value), id: id.value });

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
    ...(vigor ? [say('vigor', { word: word(vigor.value) })] : []),
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
  return original(
    speech.read(reason),
    translation && (defect ? defectIn(defect, speech) : translation.original.signs[kind]),
  );
}

/** Findings; where the crew does not read them in English, those that mean the same to it together, after what they mean. */
export function findingsIn(
  findings: readonly Finding[],
  { language, read }: Speech,
): readonly MarkupContent[] {
  const meanings = language.translation?.original;
  const english = ({ message, remedy }: Finding) => read(`${message} ${remedy}`);
  if (!meanings) return findings.map(english);
  const meaningOf = ({ rule }: Finding) =>
    ruleNamed(rule) ? (meanings.findings[rule] ?? meanings.otherFinding) : meanings.mistake;
  return [...grouped(findings, meaningOf)].map(([meaning, own]) => original(own.map(english), meaning));
}

export function pieceIn({ piece }: Prescription, { say, figure }: Speech): string {
  if (!piece) return say('not stated');
  const { mass, length, diameter, narrow } = piece;
  const thick =
    diameter && (narrow ? say('change', { from: figure(diameter), to: figure(narrow) }) : figure(diameter));
  return [
    ...(mass ? [figure(mass)] : []),
    ...(length ? [say('long', { value: figure(length) })] : []),
    ...(thick ? [say('thick', { value: thick })] : []),
  ].join(', ');
}

export function gearIn(crew: Crew | undefined, { say, figure }: Speech): string {
  if (!crew) return say('gear unknown');
  const { rope, riggingLine: line, block, sling, crane, lift } = crew;
  return (
    [
      ...(rope ? [say('rope', { value: figure(rope) })] : []),
      ...(line ? [say(line.spliced ? 'line spliced' : 'line', { value: figure(line.strength) })] : []),
      ...(block ? [say('block', { value: figure(block) })] : []),
      ...(sling ? [say('sling', { value: figure(sling) })] : []),
      ...(crane
        ? [
            crane.reach
              ? say('crane at', { value: figure(crane.mass), reach: figure(crane.reach) })
              : say('crane', { value: figure(crane.mass) }),
          ]
        : []),
      ...(lift ? [say('lift', { value: figure(lift) })] : []),
    ].join(', ') || say('not stated')
  );
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

/** `rope exceeds: 1.9..6.4 times the force, limit 10 (common practice)`. */
function elementIn({ name, standing, judged, missing }: RiggedElement, speech: Speech): Markup {
  const { say, word, figures } = speech;
  const against = judged && {
    value: figures(numberText(judged.value, 1)),
    limit: figures(showNumber(judged.setting.value, judged.setting, 2)),
  };
  return html`<span>; ${word(name)} ${word(standing)}${against && html`<span>: ${say('times', against)} (<span lang="en">${authority(judged.setting)}</span>)</span>`}${missing.length > 0 && html`<span>, ${say('without')} <span lang="en">${missing.join(', ')}</span></span>`}</span>`;
}

/** Notes appended to a line. */
export const noted = (fact: Noted): string => (noteWords(fact) === '' ? '' : `. ${noteWords(fact)}`);

export const targetsIn = ({ tree }: ReportTree, { say, figure, word }: Speech): string =>
  tree.targets
    .map(target => {
      const { name, distance, occupied } = target;
      const words = [
        quoted(name.value),
        distance ? figure(distance) : say('distance none'),
        ...(occupied ? [word(occupied.value)] : []),
      ];
      return `${words.join(', ')}${noted(target)}`;
    })
    .join('; ') || say('targets none');

/** `"Lane line" (12.5 kV)`. */
export const lineIn = ({ name, voltage }: Conductor, { say, figure }: Speech): string =>
  `${name.value === UNREAD ? UNREAD : quoted(name.value)} (${voltage && voltage.value.form !== 'unseen' ? figure(voltage) : say('voltage none')})`;

export function linesIn({ tree, settings }: ReportTree, speech: Speech): MarkupContent {
  const { say, figure, figures, days } = speech;
  if (tree.conductors.length === 0) return say('lines none');
  return tree.conductors.map(conductor => {
    const { dead, distance } = conductor;
    const { low, high } = approach(conductor, settings);
    const keep = (metres: number) => figures(showKeep(exact(metres), conductor, tree));
    const away = low === high ? keep(high) : say('change', { from: keep(low), to: keep(high) });
    const place =
      distance && distance.value.form !== 'unseen'
        ? say('line at', { value: figure(distance) })
        : say('line somewhere');
    const off = dead ? say('line off', { days: days(dead) }) : say('line on');
    return html`<span>${lineIn(conductor, speech)}, ${place}; ${off}; ${say('keep away', { value: away })} (<span lang="en">${approachSource(conductor, settings)}</span>).${withNotes(conductor)} </span>`;
  });
}
