/** The part for the owner: observations and their limits, what they mean, the options, and our advice. */

import { openDefects, openFollowUps } from '../assess/evidence.ts';
import { showLimit } from '../assess/judge.ts';
import { treeLikelihood, treeWords } from '../assess/likelihood.ts';
import { jobName, openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { holdsPeople, reachOf } from '../assess/reach.ts';
import { currentRisks, ratingToActOn, riskName } from '../assess/risks.ts';
import { isRing, weakestAlong } from '../assess/section-words.ts';
import type { Sign } from '../assess/signs.ts';
import { isMoving } from '../assess/standing.ts';
import { lossAt } from '../assess/strength.ts';
import { supportName, supportsInPlace } from '../assess/supports.ts';
import { formatDate } from '../base/dates.ts';
import { capital, listed, quoted } from '../base/words.ts';
import type { Defect, Tree } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import { acceptedWords } from '../show/accepted.ts';
import { anchoragePart } from '../show/anchorage.ts';
import { lossText, ratioText, seasonsText, shareText } from '../show/figures.ts';
import { olderWords } from '../show/older.ts';
import { easedOf, WEIGH_CAUTION } from '../show/weigh.ts';
import { evidenceTables } from '../show/weigh-evidence.ts';
import { limbSections, supportLines } from '../show/weigh-limbs.ts';
import { likelihoodText, ratedLines } from '../show/weigh-parts.ts';
import type { WeighSection } from '../show/weighed.ts';
import { quantityText } from '../show/words.ts';
import type { ReportData, ReportTree } from './data.ts';
import { html, imageOf, type Markup } from './html.ts';
import { notesItem, noteWords, withNotes } from './notes.ts';
import { overview } from './overview.ts';
import { byGravity, groupBySite, hasChapter, linkTo, list, pairs, table, yearsLink } from './parts.ts';
import { photoOf, photosApart } from './photographs.ts';
import { planOf } from './plan.ts';
import { seasonPart } from './season.ts';
import {
  defectName,
  defectReadings,
  inspectionWords,
  instrumentWords,
  personWords,
  prescriptionItems,
  pullWords,
  sentence,
  sizeWords,
  speciesOf,
  treeTitle,
  unseenWords,
  windowWords,
} from './words.ts';

export function clientPart(data: ReportData): Markup {
  const chapters = data.trees.filter(hasChapter);
  const others = data.trees.filter(tree => !hasChapter(tree));
  return html`<section id="client" aria-labelledby="client-title">
    <h2 id="client-title">For the owner</h2>
    ${overview(data, chapters)}
    ${seasonPart(data)}
    ${groupBySite(data.trees).map(({ name, trees }) => planOf(name, trees))}
    ${chapters.map(entry => chapterOf(entry, data))}
    ${
      others.length > 0 &&
      html`<section>
        <h3>Trees of which nothing is open</h3>
        ${table(
          'Trees of which nothing is open',
          ['Tree', 'Species', 'Last inspection'],
          others.map(entry => {
            const { tree } = entry;
            const last = tree.inspections.at(-1);
            const looked = last ? inspectionWords(last, data) : 'none on record';
            return [
              entry.history
                ? html`<a href=${`#${yearsLink(entry, data)}`}>${treeTitle(tree)}</a>`
                : treeTitle(tree),
              html`<i>${speciesOf(tree)}</i>`,
              tree.felled ? `felled ${formatDate(tree.felled.value)}` : looked,
            ];
          }),
        )}
      </section>`
    }
    <aside class="caution"><h3>How to read the figures</h3>
      <p>Where a figure has two ends, as in 31..64 %, the truth lies anywhere between them: the readings allow no more. ${WEIGH_CAUTION}</p>
    </aside>
  </section>`;
}

const NOTHING = '–';

function chapterOf(entry: ReportTree, data: ReportData): Markup {
  const { tree, elevation, sections } = entry;
  const apart = photosApart(entry);
  const pictures = [...(elevation ? [elevation] : []), ...sections];
  const cautions = [...new Set(entry.findings.flatMap(({ caution }) => caution ?? []))];
  return html`<article class="tree" id=${linkTo(entry, data)}>
    <h3>${treeTitle(tree)}</h3>
    <p class="size"><i>${speciesOf(tree)}</i>; ${sizeWords(tree)}.${withNotes(tree)}</p>
    ${keepOut(entry, data.on)}
    ${pictures.length > 0 && html`<div class="pictures">${pictures.map(imageOf)}</div>`}
    <h4>What we saw</h4>
    ${seen(entry, data)}
    ${apart.map(one => photoOf(one, entry))}
    ${entry.history && html`<p class="quiet">Its years: <a href=${`#${yearsLink(entry, data)}`}>${treeTitle(tree)}, over the years</a>.</p>`}
    <h4>What we could not see</h4>
    ${list(unseenWords(tree), 'No inspection names anything that could not be seen. What is hidden inside wood or soil is seen only where it was probed.')}
    <h4>What it means</h4>
    ${meaning(entry)}
    <h4>What is open</h4>
    ${options(entry)}
    ${toSettle(entry)}
    <h4>What we advise</h4>
    ${advice(entry, data)}
    ${cautions.length > 0 && html`<div class="caution"><h4>Cautions</h4>${list(cautions)}</div>`}
  </article>`;
}

/** What a defect's newest reading leaves to those before. */
function olderOf(defect: Defect): string {
  const older = olderWords(defect, 'defect');
  return older === undefined ? '' : ` Not read again since: ${older}.`;
}

function seen({ tree, site, settings, assessment: { signs } }: ReportTree, data: ReportData): Markup {
  const defects = openDefects(tree).map(
    defect =>
      html`<li><strong>${defectName(defect)}</strong>: ${defectReadings(defect).join('; ') || 'no readings'}${defect.seen === undefined ? '' : ` (${formatDate(defect.seen)})`}.${olderOf(defect)}${withNotes(defect)}</li>`,
  );
  // Signs of the whole tree: lean, ground, death.
  const whole = signs
    .filter(
      ({ defect, members, byPull, kind }) => !(defect || byPull || members.length > 0 || kind === 'joined'),
    )
    .map(({ name, why }) => html`<li><strong>${capital(name)}</strong>: ${why}.</li>`);
  const pulled = tree.pullTests.map(test => html`<li>${pullWords(test, data)}.${withNotes(test)}</li>`);
  const instruments = [
    ...tree.drillings.map(
      one => html`<li>${instrumentWords('Resistance drilling', one, data)}.${withNotes(one)}</li>`,
    ),
    ...tree.tomograms.map(one => html`<li>${instrumentWords('Tomogram', one, data)}.${withNotes(one)}</li>`),
  ];
  const joined = tree.joined.map(
    one =>
      html`<li>One hollow inside, ${one.state.value}: ${one.defects.map(({ value }) => value).join(' and ')}.${withNotes(one)}</li>`,
  );
  const parts = tree.parts.flatMap(part => {
    const union = part.union
      ? `union ${part.union.value}${part.unionWith ? ` with ${part.unionWith.value}` : ''}`
      : undefined;
    const said = [
      ...(union ? [`${union}.`] : []),
      ...(part.foliage ? [`Foliage ${part.foliage.value}.`] : []),
      ...(part.notes.length > 0 ? [noteWords(part)] : []),
    ].join(' ');
    return said === '' ? [] : [html`<li>${capital(part.kind)} ${part.name.value}: ${said}</li>`];
  });
  const held = supportsInPlace(tree).map(
    one =>
      html`<li>${capital(supportName(one))}${one.holds.length > 0 ? ` at ${listed(one.holds.map(({ value }) => value))}` : ''}: ${supportLines(one, { tree, site, settings }).join('; ')}.${withNotes(one)}</li>`,
  );
  const looked = tree.inspections.map(inspection => inspectionWords(inspection, data));
  const noted = tree.inspections.flatMap(inspection => {
    const words = noteWords(inspection);
    return words === '' ? [] : [html`<li>On ${formatDate(inspection.date.value)}: ${words}</li>`];
  });
  return html`<div>
    <p>${looked.length > 0 ? `Inspected ${looked.join('; ')}.` : 'No inspection is on record.'}</p>
    ${noted.length > 0 && html`<ul>${noted}</ul>`}
    ${whole.length + defects.length + instruments.length + pulled.length + parts.length + held.length > 0 ? html`<ul>${whole}${defects}${instruments}${joined}${pulled}${parts}${held}</ul>` : html`<p>No open defect is on record.</p>`}
  </div>`;
}

function meaning({ tree, site, assessment: { strength }, settings }: ReportTree): Markup {
  const losses = strength.defects.map(defect => [
    defect.hollow.defect.id.value,
    lossText(lossAt(defect, strength)),
    isRing(defect.hollow) ? NOTHING : weakestAlong(defect),
  ]);
  const risks = currentRisks(tree).map(
    risk =>
      `${capital(riskName(risk))}: ${ratingToActOn(risk) ?? 'not rated'}${risk.within ? ` within ${quantityText(risk.within)}` : ''}.`,
  );
  const targets = tree.targets.map(({ name, distance, occupied }) =>
    [
      quoted(name.value),
      distance ? `${quantityText(distance)} away` : 'at a distance not stated',
      ...(occupied ? [`occupied: ${occupied.value}`] : []),
    ].join(', '),
  );
  const context = { tree, site, settings };
  const roots = anchoragePart(context);
  const likely = treeLikelihood(context);
  const parts = (likely?.parts ?? []).map(one => [
    capital(one.part),
    one.name,
    one.isRecorded ? one.standing : 'no record',
    likelihoodText(one),
    one.sign?.why ?? one.because,
  ]);
  return html`<div>
    ${
      parts.length > 0
        ? table(
            `How the parts of tree ${tree.tag.value} stand`,
            ['Part', 'Sign', 'Standing', 'Likelihood of failure', 'Why'],
            parts,
          )
        : html`<p>Nothing on record says anything about its safety: nothing was judged.</p>`
    }
    ${
      losses.length > 0 &&
      html`<div><p>The share of its strength in bending that the stem has lost at each hollow stands against ${showLimit({ setting: settings.limit('section-loss') })}.</p>
      ${table(`Loss of strength of tree ${tree.tag.value}`, ['Hollow', 'Strength lost', 'Weakest when bent along'], losses)}</div>`
    }
    ${[...evidenceTables(context), ...(roots ? [roots] : []), ...limbSections(context)].map(section => partTable(section, tree))}
    ${targets.length > 0 && html`<p>Within reach: ${targets.join('; ')}.</p>`}
    ${likely && html`<p>Likelihood of failure of the tree, by figures and marks: ${treeWords(likely)}. It is a judgment, not a probability.</p>`}
    ${risks.length > 0 && list([...risks, ...ratedLines(context)])}
  </div>`;
}

/** A table of `weigh`, in which the column of the parts has no name; nothing if the section has no table. */
const partTable = (
  { heading, head = [], rows, lines = [] }: WeighSection,
  { tag }: Tree,
): Markup | undefined =>
  rows &&
  html`<div>${table(`${heading}: tree ${tag.value}`, ['Part', ...head.slice(1).map(capital)], rows)}${list(lines)}</div>`;

function options({ tree, assessment }: ReportTree): Markup {
  if (assessment.signs.length === 0) return html`<p>No figures weigh one choice against another here.</p>`;
  const { options } = assessment;
  // No columns of dashes.
  const isStressed = options.some(({ stressRatio }) => stressRatio);
  const takes = options.some(({ dose }) => dose);
  const choices = table(
    `Choices for tree ${tree.tag.value}`,
    [
      'Choice',
      'The figures say',
      ...(isStressed ? ['Stress against the sound stem'] : []),
      ...(takes ? ['Foliage taken', 'Seasons'] : []),
      'Why',
    ],
    options.map(({ option, support, because, stressRatio, dose, seasons }) => [
      capital(option),
      support,
      ...(isStressed ? [stressRatio ? ratioText(stressRatio) : NOTHING] : []),
      ...(takes ? [dose ? shareText(dose) : NOTHING, seasons ? seasonsText(seasons) : NOTHING] : []),
      because.join(' '),
    ]),
  );
  return html`<div>${choices}${easedOf({ assessment }).map(section => partTable(section, tree))}</div>`;
}

/** The first thing in a chapter: who must be kept out of which area. */
function keepOut({ tree, assessment: { signs }, settings }: ReportTree, on: number): Markup | false {
  const moving = signs.filter(isMoving);
  const extreme = currentRisks(tree).some(risk => ratingToActOn(risk) === 'extreme');
  if (moving.length === 0 && !extreme) return false;
  const open = reachOf(tree, settings, on).open.filter(holdsPeople);
  if (open.length === 0 && tree.targets.length > 0) return false;
  const where = open.length > 0 ? listed(open.map(({ name }) => quoted(name.value))) : 'its reach';
  const why = [
    ...moving.map(({ name, why }) => `${name}, ${why}`),
    ...(extreme ? ['a risk rated extreme'] : []),
  ];
  return html`<div class="stop"><p><strong class="error">Keep people out of ${where} now</strong>: ${listed(why)}.</p></div>`;
}

/** Open and accepted findings. */
function toSettle({ findings }: ReportTree): Markup | false {
  const open = byGravity(findings).filter(({ accepted, level }) => !accepted && level !== 'note');
  const accepted = findings.filter(finding => finding.accepted);
  const group = (intro: string, level: Finding['level']) => {
    const own = open.filter(finding => finding.level === level);
    return (
      own.length > 0 &&
      html`<div><p class="intro"><strong>${intro}</strong></p>${list(own.map(({ message }) => message))}</div>`
    );
  };
  return (
    open.length + accepted.length > 0 &&
    html`<div>
      ${group('To be put right or decided:', 'error')}
      ${group('To be looked into:', 'warning')}
      ${accepted.length > 0 && html`<div><p class="intro"><strong>Known and accepted:</strong></p><ul>${accepted.map(finding => html`<li>${finding.message} <em>${acceptedWords(finding.accepted!)}</em></li>`)}</ul></div>`}
    </div>`
  );
}

function advice({ tree, assessment: { signs } }: ReportTree, data: ReportData): Markup {
  const work = openPrescriptionsOfAnyKind(tree).map(prescription => {
    const window = windowWords(prescription);
    const { priority, because, by } = prescription;
    return html`<li><strong>${capital(jobName(prescription))}</strong>${because ? `: ${sentence(because.value)}` : '.'}
      ${pairs([
        ...prescriptionItems(prescription),
        ['When', window ?? 'no days are set'],
        ...(priority ? [['Priority', priority.value] as const] : []),
        ...(by ? [['Advised by', personWords(by.value, data)] as const] : []),
        ...notesItem(prescription),
      ])}</li>`;
  });
  const looks = openFollowUps(tree).map(look => {
    const { kind, due, of } = look;
    const what = of.length > 0 ? ` of ${of.map(({ value }) => value).join(', ')}` : '';
    const when = due ? `, due ${formatDate(due.value)}` : ', no day is set';
    return html`<li><strong>${capital(kind.value)}</strong>${what}${when}.${withNotes(look)}</li>`;
  });
  return work.length + looks.length > 0
    ? html`<ul class="advice">${work}${looks}</ul>`
    : html`<p>${nothingPlanned(signs)}</p>`;
}

/** If signs are open and nothing is prescribed, somebody has to decide. */
function nothingPlanned(signs: readonly Sign[]): string {
  const open = signs.filter(({ standing }) => standing !== 'within');
  if (open.length === 0) return 'Nothing beyond the next inspection.';
  const names = listed(open.map(({ name }) => name));
  return open.some(isMoving)
    ? `Keep people out of its reach now. Nothing is prescribed yet for ${names}: a qualified person has to decide the same day.`
    : `Nothing is prescribed yet for ${names}: a qualified person has to decide.`;
}
