/** Assessment of a defect, a prescription or a tree, as Markdown. */

import { coursesOf } from '../assess/courses.ts';
import { decayCourses } from '../assess/decay-time.ts';
import { defectName } from '../assess/evidence.ts';
import { growthRates } from '../assess/growth.ts';
import { formulasOf, formulaWords } from '../assess/hollow-verdict.ts';
import { ifThens, ifThenWords } from '../assess/if-then.ts';
import { type DatedWall, instrumentWalls } from '../assess/instruments.ts';
import { openPrescriptions } from '../assess/jobs.ts';
import { rangeWords, treeLikelihood, treeWords } from '../assess/likelihood.ts';
import { loadUnder } from '../assess/load.ts';
import { millOf } from '../assess/mill.ts';
import { fellsTree } from '../assess/prescriptions.ts';
import { promisesOf } from '../assess/promises.ts';
import { pullResults } from '../assess/pull-tests.ts';
import { riggingOf } from '../assess/rigging.ts';
import { viewsUnder } from '../assess/sightlines.ts';
import { type Sign, settleOf, signsOf } from '../assess/signs.ts';
import { byStanding, type SignContext } from '../assess/standing.ts';
import { lossAt, strengthOf } from '../assess/strength.ts';
import { supportName } from '../assess/supports.ts';
import { readTraces } from '../assess/traces.ts';
import { formatDate } from '../base/dates.ts';
import { lossText, ratioText, shareText } from '../base/figures.ts';
import { showQuantity } from '../base/quantity.ts';
import { capital, listed } from '../base/words.ts';
import { valuesOf } from '../facts/interval.ts';
import type { PhotoFile } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type {
  Crew,
  Defect,
  Drilling,
  Prescription,
  PullTest,
  ReadAgainFact,
  Site,
  StemOrLimb,
  Support,
  Tomogram,
  Tree,
} from '../facts/types.ts';
import { equivalentDiameter, slenderness } from '../mechanics/stem.ts';
import { pullLines, radiusLines } from '../show/anchorage.ts';
import { elevationPicture } from '../show/drawing/elevation-picture.ts';
import { type PlacedPicture, sectionPicture, tracePicture } from '../show/drawing/pictures.ts';
import { drawnAlone } from '../show/drawing/svg.ts';
import { changeText, growthText, promiseText } from '../show/history.ts';
import { olderTreeWords, olderWords } from '../show/older.ts';
import { courseText, wallTexts } from '../show/weigh-evidence.ts';
import { elementText, millTable, riggingWords } from '../show/weigh-felling.ts';
import { carriesWords, partLines, shorteningLines, supportLines } from '../show/weigh-limbs.ts';
import { escapeMarkdown, image, paragraphs } from './markdown.ts';

/** Ends every text with figures: they compare states of one tree. */
export const ESTIMATE = '_A comparative estimate for a qualified person on site; it certifies nothing._';

/** px; hovers are about 250 px high until resized: the verdict takes three lines or four, and the picture the rest. */
const HEIGHT_IN_HOVER = 160;

const small = (picture: PlacedPicture | undefined): string | undefined =>
  picture && image(drawnAlone(picture.svg, picture.drawn, HEIGHT_IN_HOVER), picture.description);

export const bullets = (lines: readonly string[]): string => lines.map(line => `- ${line}`).join('\n');

/** Loss of strength as intervals with sources, the readings that would settle it, and the section. */
export function defectText(tree: Tree, defect: Defect, settings: Settings, site: Site | undefined): string {
  const context = { tree, site, settings };
  const sign = signsOf(context).find(one => one.defect === defect);
  const title = `**${escapeMarkdown(defect.kind.value)} ${escapeMarkdown(defect.id.value)}**${seenText(defect)}`;
  const strength = strengthOf(tree, settings);
  const found = strength.defects.find(({ hollow }) => hollow.defect === defect);
  const verdict = sign && signText(sign);
  const older = readAgainText(defect, 'defect');
  if (!found) {
    const radii = sign?.part === 'roots and ground' ? radiusLines(context) : [];
    return paragraphs(
      verdict ? `${title}  \n${verdict}` : title,
      older,
      sign && settleText(sign, context),
      ...radii.map(escapeMarkdown),
    );
  }
  const lines = formulasOf(found, context).map(formula =>
    escapeMarkdown(`${capital(formulaWords(formula))}.`),
  );
  const own = found.figures.strengthLoss;
  const all = lossAt(found, strength);
  if (all.low !== own.low || all.high !== own.high)
    lines.push(
      escapeMarkdown(
        `With the cavities that may be connected to it, ${lossText(all)} of the bending strength is lost.`,
      ),
    );
  for (const { kind } of found.figures.contradictions)
    lines.push(`The readings contradict each other: ${escapeMarkdown(kind)}.`);
  for (const course of decayCourses(tree, site, settings))
    if (course.defect === defect) lines.push(escapeMarkdown(courseText(course)));
  const settles = sign && settleText(sign, context);
  if (settles) lines.push(settles);
  const likely = treeLikelihood(context)?.parts.find(part => part.sign === sign);
  if (likely?.range)
    lines.push(escapeMarkdown(`Likelihood of failure: ${rangeWords(likely.range)}, ${likely.because}.`));
  for (const one of ifThens(tree, site, settings))
    if (one.defect === defect) lines.push(escapeMarkdown(ifThenWords(one)));
  const picture = sectionPicture(tree, found, strength);
  return paragraphs(`${title}  \n${verdict}`, small(picture), older, bullets(lines));
}

/** `**exceeds**: 60 % of the circumference, over the limit of 40 % (…)`. */
const signText = ({ standing, why }: Sign): string => `**${standing}**: ${escapeMarkdown(why)}.`;

function settleText(sign: Sign, context: SignContext): string | undefined {
  const settles = settleOf(sign, context);
  return settles === undefined ? undefined : escapeMarkdown(settles);
}

const seenText = ({ seen }: Defect): string => (seen === undefined ? '' : `, seen ${formatDate(seen)}`);

/** The days on which it was read before, and what the newest reading does not restate. */
function readAgainText(fact: ReadAgainFact, head: string): string | undefined {
  if (fact.earlier.length === 0) return undefined;
  const days = fact.earlier.map(({ seen }) => (seen === undefined ? 'not dated' : formatDate(seen)));
  const older = olderWords(fact, head);
  return escapeMarkdown(
    `Earlier readings: ${listed(days)}.${older === undefined ? '' : ` Not measured since: ${older}.`}`,
  );
}

/** The walls of a drilling with its error, and the pictures of its traces. */
export function drillingText(
  tree: Tree,
  drilling: Drilling,
  settings: Settings,
  fileOf: (path: string) => PhotoFile | undefined,
): string {
  const pictures = readTraces(tree, fileOf, settings)
    .filter(one => one.drilling === drilling)
    .map(one => small(tracePicture(tree, one)));
  return paragraphs(readingsText('drilling', 'resistance drill', tree, drilling, settings), ...pictures);
}

export const tomogramText = (tree: Tree, tomogram: Tomogram, settings: Settings): string =>
  readingsText('tomogram', 'tomograph', tree, tomogram, settings);

/** The sound walls that an instrument read on a day. */
function readingsText(
  what: string,
  instrument: DatedWall['by'],
  tree: Tree,
  { defect: of, date }: Drilling | Tomogram,
  settings: Settings,
): string {
  const title = `**${what} of ${escapeMarkdown(of.value)}**, ${formatDate(date.value)}`;
  const defect = tree.defects.find(({ id }) => id.value === of.value);
  const walls = defect
    ? instrumentWalls(defect, tree, settings).filter(({ by, day }) => by === instrument && day === date.value)
    : [];
  return defect && walls.length > 0
    ? paragraphs(
        title,
        escapeMarkdown(`Sound wall, with instrument error: ${wallTexts(defect, walls).join('; ')}.`),
      )
    : title;
}

/** The effect of a prescription on wind load, stress, foliage and views. */
export function prescriptionText(
  tree: Tree,
  prescription: Prescription,
  site: Site | undefined,
  settings: Settings,
  crew: (id: string) => Crew | undefined,
): string {
  const title = `**${escapeMarkdown(prescription.kind.value)} ${escapeMarkdown(prescription.id.value)}**`;
  const felling = [
    ...(prescription.rigged ? riggingLines(tree, prescription, settings, crew) : []),
    ...(fellsTree(prescription) ? millText(tree, settings) : []),
  ];
  const strength = strengthOf(tree, settings);
  const load = loadUnder(tree, prescription, strength, site, settings);
  const context = { tree, site, settings };
  const own = [
    ...shorteningLines(prescription, context),
    ...(prescription.kind.value === 'cable'
      ? carriesWords(prescription, prescription.for, tree, context).map(words => `${capital(words)}.`)
      : []),
  ].map(escapeMarkdown);
  if (!load) return paragraphs(title, bullets([...own, ...felling]));
  const lines = [
    ...own,
    `Wind moment at the ground: ${escapeMarkdown(shareText(load.momentRatio))} of that before the work.`,
    `Live foliage removed, by its dimensions: ${escapeMarkdown(shareText(load.dose))}.`,
    ...load.sections.map(
      ({ defect, stressRatio, stressAtLeastEffect }) =>
        `Stress ratio at ${escapeMarkdown(defect.hollow.defect.id.value)} (1.00 = intact stem before the work): ${escapeMarkdown(ratioText(stressRatio))}, or ${escapeMarkdown(ratioText(stressAtLeastEffect))} if the cut has half the effect of the outline.`,
    ),
    ...viewsUnder(tree, prescription, settings).map(
      ({ view, before, after }) =>
        `View "${escapeMarkdown(view.name.value)}": ${escapeMarkdown(shareText(before))} hidden${after ? `, then ${escapeMarkdown(shareText(after))}` : ''}.`,
    ),
    ...felling,
  ];
  return paragraphs(title, bullets(lines));
}

/** The peak force, then rope, block, sling and spar, the gravest first. */
function riggingLines(
  tree: Tree,
  prescription: Prescription,
  settings: Settings,
  crew: (id: string) => Crew | undefined,
): readonly string[] {
  const own = prescription.crew && crew(prescription.crew.value);
  const rigging = riggingOf(tree, prescription, own, settings);
  return [
    `Rigged, ${escapeMarkdown(riggingWords(rigging, tree))}.`,
    ...[...rigging.elements].sort(byStanding).map(one => escapeMarkdown(`${capital(elementText(one))}.`)),
  ];
}

/** What its logs yield, one in each line. */
function millText(tree: Tree, settings: Settings): readonly string[] {
  const mill = millOf(tree, settings);
  if (mill === undefined) return [];
  if (typeof mill === 'string') return [escapeMarkdown(`Logs for a mill: not judged, ${mill}.`)];
  const { head, rows } = millTable(mill, tree);
  return rows.map(([log, ...cells]) =>
    escapeMarkdown(`Log ${log}: ${cells.map((cell, i) => `${head[i + 1]} ${cell}`).join(', ')}.`),
  );
}

/** What a pull test says of the root plate and the stem. */
export function pullTestText(tree: Tree, test: PullTest, settings: Settings, site: Site | undefined): string {
  const result = pullResults(tree, site, settings).find(one => one.test === test);
  if (!result) return `**pull test** ${escapeMarkdown(formatDate(test.date.value))}`;
  const { verdict, name } = result;
  return paragraphs(
    `**${escapeMarkdown(capital(name))}**  \n**${verdict.standing}**: ${escapeMarkdown(verdict.why)}.`,
    bullets(pullLines(result).map(escapeMarkdown)),
    verdict.settle && escapeMarkdown(verdict.settle),
  );
}

/** What a support in place has to carry, and how it is kept. */
export const supportText = (
  tree: Tree,
  support: Support,
  settings: Settings,
  site: Site | undefined,
): string =>
  paragraphs(
    `**${escapeMarkdown(capital(supportName(support)))}**`,
    readAgainText(support, 'support'),
    bullets(supportLines(support, { tree, site, settings }).map(line => escapeMarkdown(`${capital(line)}.`))),
  );

/** The signs of a stem or limb and what its union bears; undefined where there is nothing of either. */
export function partText(
  tree: Tree,
  part: StemOrLimb,
  settings: Settings,
  site: Site | undefined,
): string | undefined {
  const context = { tree, site, settings };
  const name = part.name.value;
  const signs = signsOf(context).filter(({ members, defect }) => !defect && members.includes(name));
  const lines = [
    ...signs.map(sign => `${escapeMarkdown(capital(sign.name))} ${signText(sign)}`),
    ...partLines(part, context).map(escapeMarkdown),
  ];
  const again = readAgainText(part, 'limb');
  return lines.length === 0 && again === undefined
    ? undefined
    : paragraphs(`**${part.kind} ${escapeMarkdown(name)}**`, again, bullets(lines));
}

/** Summary of a tree with its elevation. */
export function treeText(tree: Tree, settings: Settings, site: Site | undefined, today: number): string {
  const name = tree.name ? ` ${escapeMarkdown(tree.name.value)}` : '';
  const title = `**Tree ${escapeMarkdown(tree.tag.value)}**${name}${tree.species ? `, _${escapeMarkdown(tree.species.value.name)}_` : ''}`;
  const lines: string[] = [];
  if (tree.planted) lines.push(`Planted ${escapeMarkdown(formatDate(tree.planted.value))}.`);
  if (tree.felled) lines.push(`Felled ${escapeMarkdown(formatDate(tree.felled.value))}.`);
  if (tree.height) lines.push(`Height ${escapeMarkdown(showQuantity(tree.height.value))}.`);
  if (tree.diameters.length > 0) {
    const equivalent = equivalentDiameter(tree.diameters.map(({ value }) => valuesOf(value, settings)));
    lines.push(
      `Diameter ${escapeMarkdown(tree.diameters.map(({ value }) => showQuantity(value)).join(', '))}.`,
    );
    if (tree.height && equivalent.low > 0 && Number.isFinite(equivalent.high)) {
      const height = valuesOf(tree.height.value, settings);
      if (height.low > 0 && Number.isFinite(height.high))
        lines.push(`Height over diameter ${escapeMarkdown(ratioText(slenderness(height, equivalent)))}.`);
    }
  }
  const last = tree.inspections.reduce<number | undefined>(
    (latest, { date }) => Math.max(latest ?? date.value, date.value),
    undefined,
  );
  if (last !== undefined) lines.push(`Last inspected ${escapeMarkdown(formatDate(last))}.`);
  const older = olderTreeWords(tree);
  if (older !== undefined) lines.push(escapeMarkdown(`Not measured since: ${older}.`));
  for (const growth of growthRates(tree, site, settings)) lines.push(escapeMarkdown(growthText(growth)));
  for (const { defect, limitDays } of decayCourses(tree, site, settings))
    if (Number.isFinite(limitDays.low))
      lines.push(
        escapeMarkdown(
          `The wall of ${defectName(defect)} may reach its limit from ${formatDate(limitDays.low)} on.`,
        ),
      );
  for (const course of coursesOf(tree, site, settings))
    if (course.rate) lines.push(escapeMarkdown(changeText(course)));
  for (const one of promisesOf({ tree, site, settings, today }))
    if (one.due !== undefined && one.due < today) lines.push(escapeMarkdown(promiseText(one, today)));
  if (tree.hasLater) lines.push('Later records are left out.');
  for (const { kind, id, between } of openPrescriptions(tree)) {
    const when = between ? ` ${formatDate(between.from)}..${formatDate(between.to)}` : '';
    lines.push(escapeMarkdown(`Outstanding: ${kind.value} ${id.value}${when}.`));
  }
  const signs = [...signsOf({ tree, site, settings })].sort(byStanding);
  lines.unshift(...signs.map(sign => `${escapeMarkdown(capital(sign.name))} ${signText(sign)}`));
  const likely = treeLikelihood({ tree, site, settings });
  if (likely) lines.push(`Likelihood of failure by figures and codes: ${escapeMarkdown(treeWords(likely))}.`);
  const picture = elevationPicture(tree, settings);
  return paragraphs(title, small(picture), bullets(lines));
}
