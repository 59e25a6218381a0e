/** The part for the client: what to do and by when, then each tree, the most urgent first. */

import { inspectionsByDay, lastInspectionOf, openDefects, openFollowUps } from '../assess/evidence.ts';
import { alternativesTo } from '../assess/jobs.ts';
import { treeLikelihood, treeWords } from '../assess/likelihood.ts';
import type { Option } from '../assess/options.ts';
import { openPrescriptionsOfAnyKind } from '../assess/prescriptions.ts';
import { currentRisks, ratingToActOn, riskName } from '../assess/risks.ts';
import { supportName, supportsInPlace } from '../assess/supports.ts';
import { grouped } from '../base/grouped.ts';
import { capital, listed } from '../base/words.ts';
import type { Defect } from '../facts/types.ts';
import { readInRegion } from '../show/in-region.ts';
import { longDate, longDays } from '../show/long-date.ts';
import { olderWords } from '../show/older.ts';
import { WEIGH_CAUTION } from '../show/weigh.ts';
import { supportLines } from '../show/weigh-limbs.ts';
import { likelihoodText } from '../show/weigh-parts.ts';
import { quantityText } from '../show/words.ts';
import type { ReportData, ReportTree } from './data.ts';
import { html, imageOf, type Markup } from './html.ts';
import { keepOut } from './keep-out.ts';
import { notesItem, noteWords, withNotes } from './notes.ts';
import { overview } from './overview.ts';
import {
  byUrgency,
  errorsIn,
  groupBySite,
  hasChapter,
  isOpenError,
  isUnsettled,
  linkTo,
  list,
  noLaw,
  pairs,
  ratedTooLow,
  signatureLine,
  table,
  titleOf,
  yearsLink,
} from './parts.ts';
import { photoOf, photosApart, seriesOf, seriesOfWork } from './photographs.ts';
import {
  COMPARED,
  duties,
  lookOverdue,
  nearWords,
  nothingPlanned,
  plainInvestigation,
  plainWork,
  toKnow,
  unanswered,
  undone,
  unreadWords,
  upkeep,
  withdrawnWords,
} from './plain-words.ts';
import { planOf } from './plan.ts';
import { quotePart } from './quote.ts';
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
} from './words.ts';

export function clientPart(data: ReportData): Markup {
  const chapters = byUrgency(data.trees.filter(hasChapter));
  const others = data.trees.filter(tree => !hasChapter(tree));
  const lawless = noLaw(data);
  const cautions = [
    ...new Set(chapters.flatMap(({ findings }) => findings.flatMap(({ caution }) => caution ?? []))),
  ];
  return html`<section id="client" aria-labelledby="client-title">
    <h2 id="client-title">For the client</h2>
    ${overview(data, chapters)}
    ${assignmentOf(data)}
    ${seasonPart(data)}
    ${groupBySite(data.trees).map(({ name, trees }) => planOf(name, trees))}
    ${chapters.map((entry, i) => chapterOf(entry, i + 1, data))}
    ${otherTrees('Trees that nobody has inspected: their condition is unknown', others.filter(isUninspected), data)}
    ${otherTrees(
      'Trees with nothing on record that needs a decision',
      others.filter(entry => !isUninspected(entry)),
      data,
    )}
    ${quotePart(data)}
    <aside class="caution"><h3>What this report can and cannot say</h3>
      <p>What is hidden inside wood or soil was seen only where it was probed. A range of figures, as in 31–64 %, means that the readings allow every value in it. ${WEIGH_CAUTION}</p>
      ${lawless.length > 0 && list(lawless)}
      ${cautions.length > 0 && list(cautions)}
    </aside>
    ${signatures(data)}
  </section>`;
}

const isUninspected = ({ tree }: ReportTree): boolean => tree.inspections.length === 0 && !tree.felled;

const otherTrees = (title: string, trees: readonly ReportTree[], data: ReportData): Markup | false =>
  trees.length > 0 &&
  html`<section><h3>${title}</h3>${table(
    title,
    ['Tree', 'Species', 'Last inspection'],
    trees.map(entry => [
      entry.history
        ? html`<a href=${`#${yearsLink(entry, data)}`}>${titleOf(entry, data)}</a>`
        : titleOf(entry, data),
      html`<i>${speciesOf(entry.tree)}</i>`,
      lastInspection(entry, data) + readInRegion(toKnow(entry, data.on), entry.settings.region),
    ]),
  )}</section>`;

function lastInspection(entry: ReportTree, data: ReportData): string {
  const { tree, settings } = entry;
  if (tree.felled) return `felled ${longDate(tree.felled.value, settings.region)}`;
  const last = lastInspectionOf(tree);
  if (!last) return 'none on record';
  return `${readInRegion(inspectionWords(last, data), settings.region)}${lookOverdue(entry, data.on) !== undefined ? '; the next one is overdue' : ''}`;
}

/** Who was asked what, as each site states it; nothing where none does. */
function assignmentOf({ trees }: ReportData): Markup | false {
  const stated = groupBySite(trees).flatMap(({ site, name }) => {
    const items = [
      ...(site?.client ? [['Client', site.client.value] as const] : []),
      ...(site?.firm ? [['Prepared by', site.firm.value] as const] : []),
      ...(site?.assignment ? [['Assignment', site.assignment.value] as const] : []),
      ...(site?.scope ? [['Scope', site.scope.value] as const] : []),
      ...(site?.procedure ? [['Procedure', site.procedure.value] as const] : []),
      ...(site?.limitations ?? []).map(({ value }) => ['Limitation', value] as const),
    ];
    // A client or a firm alone is named above.
    const isSaid = items.every(([what]) => what === 'Client' || what === 'Prepared by');
    return items.length > 1 || !isSaid ? [html`<div><h4>${name}</h4>${pairs(items)}</div>`] : [];
  });
  return stated.length > 0 && html`<section><h3>Assignment</h3>${stated}</section>`;
}

/** @param number as in the tables of the first page, for readers on paper */
function chapterOf(entry: ReportTree, number: number, data: ReportData): Markup {
  const { tree, elevation, sections } = entry;
  const apart = photosApart(entry);
  const pictures = [...(elevation ? [elevation] : []), ...sections];
  const closed = keepOut(entry, data.on);
  const unseen = [...unreadWords(entry, data), ...unseenWords(tree), ...notJudgedWords(entry)].map(words =>
    readInRegion(words, entry.settings.region),
  );
  return html`<article class="tree" id=${linkTo(entry, data)}>
    <h3>${`${number}. ${titleOf(entry, data)}`}</h3>
    <p class="size"><i>${speciesOf(tree)}</i>; ${readInRegion(sizeWords(tree), entry.settings.region)}.${withNotes(tree)}</p>
    ${closed && html`<div class="stop"><p><strong class="error">Keep people out of ${closed.where} now</strong>: ${readInRegion(closed.why, entry.settings.region)}.</p></div>`}
    ${pictures.length > 0 && html`<div class="pictures">${pictures.map(imageOf)}</div>`}
    <h4>What we advise</h4>
    ${advice(entry, data)}
    ${withdrawnWords(entry).map(words => html`<p>${words}</p>`)}
    ${duties(tree, data.on).map(duty => html`<p><strong>${readInRegion(duty, entry.settings.region)}</strong></p>`)}
    <h4>What we saw</h4>
    ${seen(entry, data)}
    ${seriesOfWork(entry).map(one => seriesOf(one, entry))}
    ${apart.map(one => photoOf(one, entry))}
    ${entry.history && html`<p class="quiet">Its years: <a href=${`#${yearsLink(entry, data)}`}>${treeTitle(tree)}, over the years</a>.</p>`}
    ${unseen.length > 0 && html`<div><h4>What could not be seen or judged</h4>${list(unseen)}</div>`}
    ${meaning(entry, data)}
    ${options(entry)}
  </article>`;
}

const notJudgedWords = ({ assessment: { signs } }: ReportTree): readonly string[] =>
  signs
    .filter(({ standing }) => standing === 'not judged')
    .map(({ name, why }) => `${capital(name)} could not be judged: ${why}.`);

/** What a defect's newest reading leaves to those before. */
function olderOf(defect: Defect): string {
  const older = olderWords(defect, 'defect');
  return older === undefined ? '' : ` Not read again since: ${older}.`;
}

function seen({ tree, site, settings, assessment: { signs } }: ReportTree, data: ReportData): Markup {
  const defects = openDefects(tree).map(
    defect =>
      html`<li><strong>${defectName(defect)}</strong>: ${readInRegion(defectReadings(defect).join('; ') || 'no readings', settings.region)}${defect.seen === undefined ? '' : ` (${longDate(defect.seen, settings.region)})`}.${readInRegion(olderOf(defect), settings.region)}${withNotes(defect)}</li>`,
  );
  // Signs of the whole tree: lean, ground, death.
  const whole = signs
    .filter(
      ({ defect, members, byPull, kind }) => !(defect || byPull || members.length > 0 || kind === 'joined'),
    )
    .map(
      ({ name, why }) =>
        html`<li><strong>${capital(name)}</strong>: ${readInRegion(why, settings.region)}.</li>`,
    );
  const pulled = tree.pullTests.map(
    test => html`<li>${readInRegion(pullWords(test, data), settings.region)}.${withNotes(test)}</li>`,
  );
  const instruments = [
    ...tree.drillings.map(
      one =>
        html`<li>${readInRegion(instrumentWords('Resistance drilling', one, data), settings.region)}.${withNotes(one)}</li>`,
    ),
    ...tree.tomograms.map(
      one =>
        html`<li>${readInRegion(instrumentWords('Tomogram', one, data), settings.region)}.${withNotes(one)}</li>`,
    ),
  ];
  const joined = tree.joined.map(
    one =>
      html`<li>One hollow inside, ${one.state.value}: ${one.defects.map(({ value }) => value).join(' and ')}.${withNotes(one)}</li>`,
  );
  const parts = tree.parts.flatMap(part => {
    const union = part.union
      ? `union${part.unionWith ? ` with ${part.unionWith.value}` : ''}: ${part.union.value}`
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
      html`<li>${capital(supportName(one))}${one.holds.length > 0 ? ` at ${listed(one.holds.map(({ value }) => value))}` : ''}: ${readInRegion(supportLines(one, { tree, site, settings }).join('; '), settings.region)}.${withNotes(one)}</li>`,
  );
  const looked = inspectionsByDay(tree).map(inspection =>
    readInRegion(inspectionWords(inspection, data), settings.region),
  );
  const noted = inspectionsByDay(tree).flatMap(inspection => {
    const words = noteWords(inspection);
    return words === ''
      ? []
      : [html`<li>On ${longDate(inspection.date.value, settings.region)}: ${words}</li>`];
  });
  return html`<div>
    <p>${looked.length > 0 ? `Inspected ${looked.join('; ')}.` : 'No inspection is on record.'}</p>
    ${noted.length > 0 && html`<ul>${noted}</ul>`}
    ${whole.length + defects.length + instruments.length + pulled.length + parts.length + held.length > 0 ? html`<ul>${whole}${defects}${instruments}${joined}${pulled}${parts}${held}</ul>` : html`<p>No open defect is on record.</p>`}
  </div>`;
}

/** How each part compares with its limit, and who could be hit. */
function meaning(entry: ReportTree, data: ReportData): Markup | false {
  const { tree, site, settings } = entry;
  const { signs } = entry.assessment;
  const risks = currentRisks(tree).map(
    risk =>
      `${capital(riskName(risk))}: ${ratingToActOn(risk) ?? 'not rated'}${risk.within ? ` within ${quantityText(risk.within)}` : ''}${risk.because ? ` (${risk.because.value})` : ''}.`,
  );
  const targets = nearWords(entry, data);
  const likely = treeLikelihood({ tree, site, settings });
  const parts = (likely?.parts ?? [])
    .filter(({ isRecorded }) => isRecorded)
    .map(one => [
      capital(one.part),
      readInRegion(one.name, settings.region),
      COMPARED[one.standing],
      likelihoodText(one),
    ]);
  if (parts.length + risks.length + targets.length === 0) return false;
  return html`<div>
    <h4>What it means</h4>
    ${
      parts.length > 0 &&
      table(
        `The parts of tree ${tree.tag.value}`,
        ['Part', 'What was found', 'Compared with its limit', 'Likelihood of failure'],
        parts,
      )
    }
    ${likely && signs.length > 0 && html`<p>Likelihood of failure of the tree: ${readInRegion(treeWords(likely), settings.region)}.${likely.range && ' This is a judgment, not a probability.'}</p>`}
    <p>${targets.length > 0 ? `People and things near it: ${readInRegion(targets.join('; '), settings.region)}.` : 'What it could hit is not on record: that does not mean that nothing is near it.'}</p>
    ${risks.length > 0 && list([...risks, ...ratedTooLow(entry).map(({ message }) => readInRegion(message, settings.region))])}
  </div>`;
}

const BY_FIGURES: Readonly<Record<Option['support'], string>> = {
  supported: 'Supported by them',
  'not supported': 'Not supported by them',
  'called for': 'Called for by them',
  open: 'Possible',
  'depends on a reading': 'Depends on another reading',
  'no figure': 'No figure decides',
  'not called for': 'Not called for by them',
};

/** By what the figures say of them; nothing where they weigh no choice. The office's part has the reasons. */
function options({ assessment: { signs, options: choices } }: ReportTree): Markup | false {
  if (signs.every(({ standing }) => standing === 'within')) return false;
  const said = grouped(
    choices.filter(({ support }) => support !== 'not called for'),
    ({ support }) => support,
  );
  return html`<div><h4>Options by the figures on record</h4>${pairs(
    [...said].map(([support, own]) => [BY_FIGURES[support], listed(own.map(({ option }) => option))]),
  )}<p class="quiet">The advice may differ: it also rests on what no figure shows.</p></div>`;
}

/** Names of items that the line above them has, or that are codes of the record. */
const SAID_IN_PLAIN_WORDS =
  /^(Height|Spread|Crown base|Shorten .*|Foliage taken|Remove|For|Alternative to|Estimated time)$/;

function advice(entry: ReportTree, data: ReportData): Markup {
  const { tree, settings } = entry;
  const work = openPrescriptionsOfAnyKind(tree).map(prescription => {
    const { priority, because, by, between } = prescription;
    const due = between?.to ?? Number.POSITIVE_INFINITY;
    const alternatives = alternativesTo(tree, prescription);
    const specification = prescriptionItems(prescription)
      .filter(([name]) => !SAID_IN_PLAIN_WORDS.test(name))
      .map(([name, value]) =>
        `${name.toLowerCase()} ${value}`.replace(/^replacement none/, 'no replacement'),
      );
    const item = html`<li><strong>${plainWork(prescription, tree)}</strong>${because ? `: ${sentence(because.value)}` : '.'}
      ${
        isUnsettled(entry, prescription) &&
        html`<p><strong class="error">Not settled: the check reports an error in this advice. Your arborist must resolve it before the work.</strong> ${errorsIn(
          entry,
          prescription,
        )
          .map(({ message }) => readInRegion(message, settings.region))
          .join(' ')}</p>`
      }
      ${pairs([
        ...(specification.length > 0
          ? [['Specification', readInRegion(specification.join('; '), settings.region)] as const]
          : []),
        ...(alternatives.length > 0
          ? [
              [
                'Instead of',
                `${listed(alternatives.map(one => plainWork(one, tree)))}; one of them is done`,
              ] as const,
            ]
          : []),
        [
          'When',
          [
            between
              ? `${longDays(between, settings.region)}${between.to < data.on ? ' (overdue)' : ''}`
              : 'no dates set',
            ...(priority ? [`priority ${priority.value}`] : []),
            ...(by ? [`advised by ${personWords(by.value, data)}`] : []),
          ].join('; '),
        ],
        ...undone(prescription, entry),
        ...notesItem(prescription),
      ])}</li>`;
    return { due, item };
  });
  const looks = openFollowUps(tree).map(look => {
    const { due, of } = look;
    const what = of.length > 0 ? ` (${of.map(({ value }) => value).join(', ')})` : '';
    const when = due
      ? `, by ${longDate(due.value, settings.region)}${due.value < data.on ? ' (overdue)' : ''}`
      : ', no date set';
    const item = html`<li><strong>${plainInvestigation(look)}</strong>${what}${when}${look.because ? `: ${sentence(look.because.value)}` : '.'}${withNotes(look)}</li>`;
    return { due: due?.value ?? Number.POSITIVE_INFINITY, item };
  });
  // The first due first, as on the first page.
  const kept = upkeep(entry, data.on).map(({ what, due }) => ({
    due,
    item: html`<li><strong>${what}</strong>, by ${longDate(due, settings.region)}${due < data.on ? ' (overdue)' : ''}.</li>`,
  }));
  const jobs = [...work, ...looks, ...kept].sort((a, b) => a.due - b.due || 0);
  const rest = unanswered(entry, data);
  return jobs.length > 0
    ? html`<div><ul class="advice">${jobs.map(({ item }) => item)}</ul>${rest && html`<p><strong>${readInRegion(rest, settings.region)}</strong></p>`}</div>`
    : html`<div><p>${nothingPlanned(entry)}</p>${entry.assessment.signs.every(({ standing }) => standing === 'within') && entry.findings.filter(isOpenError).map(({ message }) => html`<p>${readInRegion(message, settings.region)}</p>`)}</div>`;
}

/** Lines to sign: by who answers for the report, and by the client. */
function signatures({ trees, person }: ReportData): Markup {
  const names = new Set(trees.flatMap(({ tree }) => tree.inspections.flatMap(({ by }) => by?.value ?? [])));
  const people = [...names].flatMap(id => person(id) ?? []);
  const line = (who: string) => signatureLine(who, 'Signature', 'Date');
  return html`<section class="signed"><h3>Signed</h3>
    ${people.map(({ name, qualifications }) =>
      line([name.value, ...qualifications.map(({ value }) => value)].join(', ')),
    )}
    ${people.length === 0 && line('Prepared by')}
    ${line('Received for the client')}
  </section>`;
}
