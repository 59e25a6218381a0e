/** Inlay hints: the combined diameter of several stems, the other unit, the effect of a prescription. */

import { type BlockLine, type PlacedBlock, placedLine } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import { openPrescriptions } from '../assess/jobs.ts';
import { loadUnder } from '../assess/load.ts';
import { attempt, Fault } from '../assess/not-computed.ts';
import { strengthOf } from '../assess/strength.ts';
import { ratioText } from '../base/figures.ts';
import { hull } from '../base/interval.ts';
import { inUnit } from '../base/quantity.ts';
import { blocksWithin } from '../facts/file.ts';
import { valuesOf } from '../facts/interval.ts';
import { treeOn } from '../facts/state.ts';
import type { WrittenTree } from '../facts/types.ts';
import { type DatedWorkspace, type FileSnapshot, type PlacedFact, siteOf } from '../facts/workspace.ts';
import { equivalentDiameter } from '../mechanics/stem.ts';
import { convertedUnit } from './converted-unit.ts';
import { contentOf } from './cursor.ts';
import { settingsOf } from './snapshot.ts';

export interface Hint {
  /** Offset in the file, at the end of a line's words. */
  readonly at: number;
  readonly text: string;
  /** Explanation. */
  readonly tooltip: string;
}

/** Those of each block in turn, in order. */
export function* hints(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  within: Span,
): Iterable<readonly Hint[]> {
  for (const block of blocksWithin(file, within)) {
    const found = block.fact?.kind === 'tree' ? hintsOf(snapshot, block as PlacedFact<WrittenTree>) : [];
    yield found.filter(({ at }) => within.start <= at && at <= within.end).sort((a, b) => a.at - b.at);
  }
}

function hintsOf(snapshot: DatedWorkspace, placed: PlacedFact<WrittenTree>): Hint[] {
  const own = attempt(() => [...sizeHints(snapshot, placed), ...stressHints(snapshot, placed)]);
  if (!(own instanceof Fault)) return own;
  return [
    {
      at: placed.start + placed.fact.at.end,
      text: 'not computed',
      tooltip: `${own.reason}: a mistake in the program, not in the record`,
    },
  ];
}

const CONVERTED_FIELDS: ReadonlySet<string> = new Set(['dbh', 'girth', 'height']);

function sizeHints(snapshot: DatedWorkspace, placed: PlacedFact<WrittenTree>): readonly Hint[] {
  const fields = placed.block.sections[0]!.fields.map(index => placedLine(placed.block, index));
  return fields.flatMap(line =>
    CONVERTED_FIELDS.has(line.word ?? '') ? sizeHint(snapshot, placed, line) : [],
  );
}

function sizeHint(
  snapshot: DatedWorkspace,
  placed: PlacedBlock & PlacedFact<WrittenTree>,
  line: BlockLine,
): readonly Hint[] {
  const at = contentOf(placed, line).end;
  const quantities = line.values.flatMap(value =>
    value.type === 'quantity' && value.name !== 'measuredAt' ? [value.quantity] : [],
  );
  const first = quantities[0];
  if (!first) return [];
  if (quantities.length === 1) {
    const other = convertedUnit(first);
    return other ? [{ at, text: other, tooltip: `${line.word} in the other unit` }] : [];
  }
  const settings = settingsOf(snapshot, placed.path);
  const all = quantities.map(quantity => valuesOf(quantity, settings));
  if (!first.unit || all.some(({ low, high }) => !(low > 0) || !Number.isFinite(high))) return [];
  const { low, high } = equivalentDiameter(all);
  const unit = first.unit;
  const text = low === high ? inUnit(low, unit) : `${inUnit(low, unit)} to ${inUnit(high, unit)}`;
  const what = line.word === 'girth' ? 'girth' : 'diameter';
  return [
    { at, text: `together ${text}`, tooltip: `${what} of one stem with the same cross-sectional area` },
  ];
}

/** The worst stress ratio over all sections, for each open prescription with dimensions. */
function stressHints(snapshot: DatedWorkspace, placed: PlacedFact<WrittenTree>): readonly Hint[] {
  const { path } = placed;
  const tree = treeOn(placed.fact, snapshot.today);
  const open = openPrescriptions(tree);
  if (open.length === 0) return [];
  const settings = settingsOf(snapshot, path);
  const strength = strengthOf(tree, settings);
  if (strength.defects.length === 0) return [];
  return open.flatMap(prescription => {
    const load = loadUnder(tree, prescription, strength, siteOf(snapshot.workspace, path), settings);
    if (!load || load.sections.length === 0) return [];
    const ratios = load.sections.map(({ stressRatio }) => stressRatio);
    const worst = hull(...ratios);
    const most = { low: Math.max(...ratios.map(({ low }) => low)), high: worst.high };
    return [
      {
        at: placed.start + prescription.at.end,
        text: `stress ${ratioText(most)}`,
        tooltip:
          'stress at the weakest section after the work, relative to the intact stem under the present crown; a comparative estimate',
      },
    ];
  });
}
