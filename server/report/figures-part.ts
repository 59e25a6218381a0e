/** For the office: the figures behind what the client reads, tree by tree. */

import { showLimit } from '../assess/judge.ts';
import { treeLikelihood } from '../assess/likelihood.ts';
import { isRing, weakestAlong } from '../assess/section-words.ts';
import { lossAt } from '../assess/strength.ts';
import { lossText, ratioText, shareText } from '../base/figures.ts';
import { capital } from '../base/words.ts';
import type { Tree } from '../facts/types.ts';
import { anchoragePart } from '../show/anchorage.ts';
import { seasonsText } from '../show/figures.ts';
import { easedOf } from '../show/weigh.ts';
import { evidenceTables } from '../show/weigh-evidence.ts';
import { limbSections } from '../show/weigh-limbs.ts';
import { ratedLines } from '../show/weigh-parts.ts';
import type { WeighSection } from '../show/weighed.ts';
import type { ReportData, ReportTree } from './data.ts';
import { html, type Markup } from './html.ts';
import { hasChapter, list, table } from './parts.ts';
import { treeTitle } from './words.ts';

const NOTHING = '–';

export function figuresPart({ trees }: ReportData): Markup | false {
  const own = trees.filter(hasChapter).flatMap(entry => {
    const parts = figuresOf(entry);
    return parts.length > 0 ? [html`<section><h4>${treeTitle(entry.tree)}</h4>${parts}</section>`] : [];
  });
  return own.length > 0 && html`<div><h3>Figures</h3>${own}</div>`;
}

function figuresOf(entry: ReportTree): readonly Markup[] {
  const { tree, site, settings, assessment } = entry;
  const context = { tree, site, settings };
  const roots = anchoragePart(context);
  const rated = ratedLines(context);
  return [
    ...parts(entry),
    ...losses(entry),
    ...[...evidenceTables(context), ...(roots ? [roots] : []), ...limbSections(context)].flatMap(section =>
      partTable(section, tree),
    ),
    ...choices(entry),
    ...easedOf({ assessment }).flatMap(section => partTable(section, tree)),
    ...(rated.length > 0 ? [list(rated)] : []),
  ];
}

function losses({ tree, settings, assessment: { strength } }: ReportTree): readonly Markup[] {
  const rows = strength.defects.map(defect => [
    defect.hollow.defect.id.value,
    lossText(lossAt(defect, strength)),
    isRing(defect.hollow) ? NOTHING : weakestAlong(defect),
  ]);
  if (rows.length === 0) return [];
  return [
    html`<p>Loss of bending strength at each hollow, compared with ${showLimit({ setting: settings.limit('section-loss') })}:</p>`,
    table(
      `Loss of strength of tree ${tree.tag.value}`,
      ['Hollow', 'Strength lost', 'Weakest when bent along'],
      rows,
    ),
  ];
}

/** What each part was judged by. */
function parts({ tree, site, settings }: ReportTree): readonly Markup[] {
  const rows = (treeLikelihood({ tree, site, settings })?.parts ?? [])
    .filter(({ isRecorded }) => isRecorded)
    .map(({ part, name, sign, because }) => [capital(part), name, sign?.why ?? because]);
  return rows.length > 0
    ? [
        table(
          `What the parts of tree ${tree.tag.value} were judged by`,
          ['Part', 'What was found', 'Why'],
          rows,
        ),
      ]
    : [];
}

function choices({ tree, assessment: { options } }: ReportTree): readonly Markup[] {
  const rows = options
    .filter(({ support }) => support !== 'not called for')
    .map(({ option, support, stressRatio, dose, seasons, because }) => [
      capital(option),
      support,
      stressRatio ? ratioText(stressRatio) : NOTHING,
      dose ? shareText(dose) : NOTHING,
      seasons ? seasonsText(seasons) : NOTHING,
      because.join(' '),
    ]);
  return rows.length > 0
    ? [
        table(
          `Figures of the options for tree ${tree.tag.value}`,
          ['Option', 'By the figures', 'Stress against the intact stem', 'Foliage taken', 'Seasons', 'Why'],
          rows,
        ),
      ]
    : [];
}

/** A table of `weigh`, in which the column of the parts has no name; nothing if the section has no table. */
const partTable = (
  { heading, head = [], rows, lines = [] }: WeighSection,
  { tag }: Tree,
): readonly Markup[] =>
  rows
    ? [
        html`<div>${table(`${heading}: tree ${tag.value}`, ['Part', ...head.slice(1).map(capital)], rows)}${list(lines)}</div>`,
      ]
    : [];
