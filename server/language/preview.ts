/** The tree at the cursor beside its text: elevation, sections, prescriptions, and what is open to it. */

import { assess } from '../assess/assessment.ts';
import { openPrescriptions } from '../assess/jobs.ts';
import type { Option } from '../assess/options.ts';
import { type FileSnapshot, siteOf } from '../facts/workspace.ts';
import { numberText, ratioText, shareText } from '../show/figures.ts';
import { cursorAt } from './cursor.ts';
import { bullets, defectText, prescriptionText, treeText } from './figures.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';
import { type Snapshot, settingsOf } from './snapshot.ts';

export interface Preview {
  /** For the tab: plain text. */
  readonly title: string;
  readonly markdown: string;
}

export function preview(snapshot: Snapshot, file: FileSnapshot, offset: number): Preview | undefined {
  const { fact } = cursorAt(file, offset);
  if (fact?.fact.kind !== 'tree') return undefined;
  const tree = fact.fact;
  const { today, workspace } = snapshot;
  const settings = settingsOf(snapshot, file.path);
  const site = siteOf(workspace, file.path);
  const { strength, options } = assess({ tree, site, settings, today });
  return {
    title: `Tree ${tree.tag.value}`,
    markdown: paragraphs(
      treeText(tree, settings),
      ...strength.defects.map(({ hollow }) => defectText(tree, hollow.defect, settings)),
      ...openPrescriptions(tree).map(prescription => prescriptionText(tree, prescription, site, settings)),
      optionsText(options),
    ),
  };
}

const NOTHING = '–';

function optionsText(options: readonly Option[]): string | undefined {
  if (options.length === 0) return undefined;
  const rows = options.map(({ option, support, stressRatio, dose, seasons }) => [
    option,
    support,
    stressRatio ? ratioText(stressRatio) : NOTHING,
    dose ? shareText(dose) : NOTHING,
    seasons && Number.isFinite(seasons.low) ? numberText(seasons, 0) : NOTHING,
  ]);
  const head = ['open to it', 'the figures say', 'stress ratio', 'foliage taken', 'seasons'];
  const line = (cells: readonly string[]) => `| ${cells.map(escapeMarkdown).join(' | ')} |`;
  return paragraphs(
    [line(head), `|${' --- |'.repeat(head.length)}`, ...rows.map(line)].join('\n'),
    bullets(options.map(({ option, because }) => escapeMarkdown(`${option}: ${because.join(' ')}`))),
  );
}
