/** A tree in pictures and figures: its elevation, the sections at its hollows, and what is open to it. */

import { assess } from '../assess/assessment.ts';
import { safetyFactorsOf } from '../assess/safety.ts';
import type { Tree } from '../facts/types.ts';
import { type FileSnapshot, siteOf } from '../facts/workspace.ts';
import { showWeighed } from '../show/weigh.ts';
import { cursorAt } from './cursor.ts';
import { fenced, image, paragraphs } from './markdown.ts';
import { elevationPicture, sectionPicture } from './pictures.ts';
import { type Snapshot, settingsOf } from './snapshot.ts';

export interface Preview {
  /** Plain text. */
  readonly title: string;
  readonly markdown: string;
}

/** Of the tree at an offset; undefined where there is none. */
export function previewAt(snapshot: Snapshot, file: FileSnapshot, offset: number): Preview | undefined {
  const { fact } = cursorAt(file, offset);
  return fact?.fact.kind === 'tree' ? previewOf(snapshot, file, fact.fact) : undefined;
}

export function previewOf(snapshot: Snapshot, file: FileSnapshot, tree: Tree): Preview {
  const settings = settingsOf(snapshot, file.path);
  const site = siteOf(snapshot.workspace, file.path);
  const assessment = assess({ tree, site, settings, today: snapshot.today });
  const { strength } = assessment;
  const safety = safetyFactorsOf(tree, strength, site, settings);
  const pictures = [
    elevationPicture(tree, settings),
    ...strength.defects.map(defect => sectionPicture(tree, defect, strength)),
  ].flatMap(picture => (picture ? [image(picture.svg, picture.description)] : []));
  const text = showWeighed(
    [{ tree, file: file.path, site, settings, assessment, safety }],
    (_, unpainted) => unpainted,
  );
  const title = tree.name ? `Tree ${tree.tag.value} ${tree.name.value}` : `Tree ${tree.tag.value}`;
  return { title, markdown: paragraphs(pictures.join(' '), fenced(text)) };
}
