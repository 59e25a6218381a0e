/** For the office: the figures behind what the client reads, tree by tree. */

import { showLimit } from '../assess/judge.ts';
import { treeLikelihood } from '../assess/likelihood.ts';
import { isRing, weakestAlong } from '../assess/section-words.ts';
import { lossAt } from '../assess/strength.ts';
import { lossText, ratioText, shareText } from '../base/figures.ts';
import { capital } from '../base/words.ts';
import { anchoragePart } from '../show/anchorage.ts';
import { seasonsText } from '../show/figures.ts';
import { readInRegion } from '../show/in-region.ts';
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
      partTable(section, entry),
    ),
    ...choices(entry),
    ...easedOf({ assessment }).flatMap(section => partTable(section, entry)),
    ...(rated.length > 0 ? [list(readIn(entry, rated))] : []),
  ];
}

/** In the words of the region. */
const readIn = ({ settings }: ReportTree, texts: readonly string[]): readonly string[] =>
  texts.map(text => readInRegion(text, settings.region));

/** The same for the cells of a row; names stand in the first one and stay as they are. */
const readRow = (entry: ReportTree, [name, ...cells]: readonly string[]): readonly string[] => [
  name ?? '',
  ...readIn(entry, cells),
];

function losses(entry: ReportTree): readonly Markup[] {
  const {
    tree,
    settings,
    assessment: { strength },
  } = entry;
  const rows = strength.defects.map(defect =>
    readRow(entry, [
      defect.hollow.defect.id.value,
      lossText(lossAt(defect, strength)),
      isRing(defect.hollow) ? NOTHING : weakestAlong(defect),
    ]),
  );
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
function parts(entry: ReportTree): readonly Markup[] {
  const { tree, site, settings } = entry;
  const rows = (treeLikelihood({ tree, site, settings })?.parts ?? [])
    .filter(({ isRecorded }) => isRecorded)
    .map(({ part, name, sign, because }) => [capital(part), name, ...readIn(entry, [sign?.why ?? because])]);
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

function choices(entry: ReportTree): readonly Markup[] {
  const {
    tree,
    assessment: { options },
  } = entry;
  const rows = options
    .filter(({ support }) => support !== 'not called for')
    .map(({ option, support, stressRatio, dose, seasons, because }) =>
      readIn(entry, [
        capital(option),
        support,
        stressRatio ? ratioText(stressRatio) : NOTHING,
        dose ? shareText(dose) : NOTHING,
        seasons ? seasonsText(seasons) : NOTHING,
        because.join(' '),
      ]),
    );
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
  entry: ReportTree,
): readonly Markup[] =>
  rows
    ? [
        html`<div>${table(
          `${heading}: tree ${entry.tree.tag.value}`,
          ['Part', ...head.slice(1).map(capital)],
          rows.map(row => readRow(entry, row)),
        )}${list(readIn(entry, lines))}</div>`,
      ]
    : [];
