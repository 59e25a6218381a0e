/** What is judged of a defect, a prescription or a tree, as Markdown. */

import { formatDate } from '../../grammar/dates.ts';
import { inUnit, showQuantity, unitOf } from '../../grammar/quantity.ts';
import { openPrescriptions } from '../assess/jobs.ts';
import { authority, judge, showLimit, showValue } from '../assess/judge.ts';
import { loadUnder } from '../assess/load.ts';
import { settlesDefect } from '../assess/settles.ts';
import { viewsUnder } from '../assess/sightlines.ts';
import { lossAt, strengthOf } from '../assess/strength.ts';
import { interval } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Prescription, Site, Tree } from '../facts/types.ts';
import { equivalentDiameter, slenderness } from '../mechanics/stem.ts';
import { scaledTo } from '../show/drawing/svg.ts';
import { lossText, ratioText, shareText } from '../show/figures.ts';
import { escapeMarkdown, image, paragraphs } from './markdown.ts';
import { elevationPicture, type Picture, sectionPicture } from './pictures.ts';

/** Figures compare states of one tree; nobody may read them as a certificate. */
const ESTIMATE = '_A comparative estimate for a qualified person on site; it certifies nothing._';

/** px: hovers are some 250 high before they are pulled larger, and the picture is to be seen at once. */
const WIDTH_IN_HOVER = 240;

const small = (picture: Picture | undefined): string | undefined =>
  picture && image(scaledTo(picture.svg, WIDTH_IN_HOVER), picture.description);

export const bullets = (lines: readonly string[]): string => lines.map(line => `- ${line}`).join('\n');

/** Loss figures with their intervals and sources, what would settle them, and the section. */
export function defectText(tree: Tree, defect: Defect, settings: Settings): string {
  const title = `**${escapeMarkdown(defect.kind.value)} ${escapeMarkdown(defect.id.value)}**${seenText(defect)}`;
  const strength = strengthOf(tree, settings);
  const found = strength.defects.find(({ hollow }) => hollow.defect === defect);
  if (!found) return title;
  const judged = judge(lossAt(found, strength), 'strength-loss', settings);
  const own = found.figures.strengthLoss;
  const verdict = `Strength loss ${escapeMarkdown(showValue(judged))}: ${escapeMarkdown(judged.standing)} ${escapeMarkdown(showLimit(judged))}.`;
  const lines: string[] = [];
  const grouped = judged.value.low !== own.low || judged.value.high !== own.high;
  if (grouped) lines.push(`By itself ${escapeMarkdown(lossText(own))}; joined with others it may be more.`);
  const { cubic, quartic, withOpening, wallRatio } = found.hollow.thumbs;
  for (const [rule, { value, source }] of [
    ['void cubed', cubic],
    ['void to the fourth power', quartic],
    ['void cubed, with its opening', withOpening],
  ] as const)
    lines.push(`By rule of thumb, ${rule}: ${escapeMarkdown(lossText(value))} (${escapeMarkdown(source)}).`);
  if (wallRatio.applies)
    lines.push(
      `Wall over radius: ${escapeMarkdown(ratioText(wallRatio.value))} (${escapeMarkdown(wallRatio.source)}).`,
    );
  for (const { kind } of found.figures.contradictions)
    lines.push(`The readings contradict each other: ${escapeMarkdown(kind)}.`);
  const settles = settlesDefect(found, settings);
  if (settles) lines.push(escapeMarkdown(settles.text));
  const picture = sectionPicture(tree, found, strength);
  return paragraphs(`${title}  \n${verdict}`, small(picture), bullets(lines), ESTIMATE);
}

const seenText = ({ seen }: Defect): string => (seen === undefined ? '' : `, seen ${formatDate(seen)}`);

/** What a prescription does to wind load, stress, foliage and views. */
export function prescriptionText(
  tree: Tree,
  prescription: Prescription,
  site: Site | undefined,
  settings: Settings,
): string {
  const title = `**${escapeMarkdown(prescription.kind.value)} ${escapeMarkdown(prescription.id.value)}**`;
  const strength = strengthOf(tree, settings);
  const load = loadUnder(tree, prescription, strength, site, settings);
  if (!load) return title;
  const lines = [
    `Wind moment at the ground: ${escapeMarkdown(shareText(load.momentRatio))} of what it was.`,
    `Foliage that its dimensions take: ${escapeMarkdown(shareText(load.dose))}.`,
    ...load.sections.map(
      ({ defect, stressRatio }) =>
        `Stress at ${escapeMarkdown(defect.hollow.defect.id.value)} over that of the sound stem before: ${escapeMarkdown(ratioText(stressRatio))}.`,
    ),
    ...viewsUnder(tree, prescription, settings).map(
      ({ view, before, after }) =>
        `View "${escapeMarkdown(view.name.value)}": ${escapeMarkdown(shareText(before))} hidden${after ? `, then ${escapeMarkdown(shareText(after))}` : ''}.`,
    ),
  ];
  return paragraphs(title, bullets(lines), ESTIMATE);
}

/** The tree at a glance, with its elevation. */
export function treeText(tree: Tree, settings: Settings): string {
  const name = tree.name ? ` ${escapeMarkdown(tree.name.value)}` : '';
  const title = `**Tree ${escapeMarkdown(tree.tag.value)}**${name}${tree.species ? `, _${escapeMarkdown(tree.species.value.name)}_` : ''}`;
  const lines: string[] = [];
  if (tree.felled) lines.push(`Felled ${escapeMarkdown(formatDate(tree.felled.value))}.`);
  if (tree.height) lines.push(`Height ${escapeMarkdown(showQuantity(tree.height.value))}.`);
  if (tree.diameters.length > 0) {
    const equivalent = equivalentDiameter(tree.diameters.map(({ value }) => interval(value, settings)));
    lines.push(
      `Diameter ${escapeMarkdown(tree.diameters.map(({ value }) => showQuantity(value)).join(', '))}.`,
    );
    if (tree.height && equivalent.low > 0 && Number.isFinite(equivalent.high)) {
      const height = interval(tree.height.value, settings);
      if (height.low > 0 && Number.isFinite(height.high))
        lines.push(`Height over diameter ${escapeMarkdown(ratioText(slenderness(height, equivalent)))}.`);
    }
  }
  const last = tree.inspections.reduce<number | undefined>(
    (latest, { date }) => Math.max(latest ?? date.value, date.value),
    undefined,
  );
  if (last !== undefined) lines.push(`Last inspected ${escapeMarkdown(formatDate(last))}.`);
  for (const { kind, id, between } of openPrescriptions(tree)) {
    const when = between ? ` ${formatDate(between.from)} to ${formatDate(between.to)}` : '';
    lines.push(escapeMarkdown(`Open: ${kind.value} ${id.value}${when}.`));
  }
  const picture = elevationPicture(tree, settings);
  return paragraphs(title, small(picture), bullets(lines));
}

/** A limit as it is in force here, and where it comes from. */
export function limitText(name: string, summary: string, direction: string, settings: Settings): string {
  const setting = settings.limit(name);
  const unit = unitOf(setting.unit);
  const value = unit ? inUnit(setting.value, unit, 2) : String(setting.value);
  const { origin, citation } = setting;
  const from =
    origin.from === 'practice'
      ? `Set by practice ${escapeMarkdown(origin.name ?? '')} in ${escapeMarkdown(origin.file ?? '')}${origin.because ? `: ${escapeMarkdown(origin.because)}` : ''}.`
      : `From ${escapeMarkdown(authority(setting))}.`;
  return paragraphs(
    `**${escapeMarkdown(name)}**: ${escapeMarkdown(direction)} ${escapeMarkdown(value)} here`,
    escapeMarkdown(summary),
    from,
    `Source: ${escapeMarkdown(citation.full)} (${citation.confidence}).`,
  );
}
