/** A tree in pictures and figures: its elevation, the sections at its hollows, and its options. */

import { assess, contextIn } from '../assess/assessment.ts';
import { stemSafety } from '../assess/safety.ts';
import type { Tree } from '../facts/types.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import { elevationPicture, sectionPicture } from '../show/drawing/pictures.ts';
import { describeWeighed, WEIGH_CAUTION } from '../show/weigh.ts';
import type { Weighed, WeighSection } from '../show/weighed.ts';
import { cursorAt } from './cursor.ts';
import { bullets } from './figures.ts';
import { escapeMarkdown, image, paragraphs, table } from './markdown.ts';

export interface TreePreview {
  /** Plain text. */
  readonly title: string;
  /** Text from the inventory is escaped. */
  readonly markdown: string;
}

/** The preview of the tree at an offset; undefined if there is none. */
export function previewAt(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  offset: number,
): TreePreview | undefined {
  const { fact } = cursorAt(file, offset);
  return fact?.fact.kind === 'tree' ? previewOf(snapshot, file, fact.fact) : undefined;
}

export function previewOf(snapshot: DatedWorkspace, file: FileSnapshot, tree: Tree): TreePreview {
  const context = contextIn(snapshot, file.path, tree);
  const { site, settings } = context;
  const assessment = assess(context);
  const { strength } = assessment;
  const safety = stemSafety(tree, strength, site, settings);
  const pictures = [
    elevationPicture(tree, settings),
    ...strength.defects.map(defect => sectionPicture(tree, defect, strength)),
  ].flatMap(picture => (picture ? [image(picture.svg, picture.description)] : []));
  const title = tree.name ? `Tree ${tree.tag.value} ${tree.name.value}` : `Tree ${tree.tag.value}`;
  const words = wordsOf({ tree, file: file.path, site, settings, assessment, safety });
  return { title, markdown: paragraphs(pictures.join(' '), words) };
}

/** Tables and lists, which fit a panel of any width. */
function wordsOf(weighed: Weighed): string {
  const { title, about, size, sections } = describeWeighed(weighed);
  return paragraphs(
    `**${escapeMarkdown(title)}**${escapeMarkdown(about)}`,
    escapeMarkdown(size),
    ...sections.map(sectionText),
    `_${escapeMarkdown(WEIGH_CAUTION)}_`,
  );
}

const sectionText = ({ heading, head, rows, lines = [] }: WeighSection): string =>
  paragraphs(
    `### ${escapeMarkdown(heading)}`,
    rows && table(head ?? rows[0]!.map(() => ''), rows),
    lines.length > 1 ? bullets(lines.map(escapeMarkdown)) : escapeMarkdown(lines.join()),
  );
