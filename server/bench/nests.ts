/** What the nests of all trees cost a check: their lookup from every tree, beside the whole. */

import { contextIn } from '../assess/assessment.ts';
import { meetsNests, nestsNear } from '../assess/near-nests.ts';
import { type NestTreesNear, noNestTrees } from '../facts/nest-index.ts';
import { buildWorkspace, nestTreesAround, readFile, settingsFor } from '../facts/workspace.ts';
import { checkWorkspace } from '../rules/check.ts';
import { generateTrees, printTrees } from './inventory.ts';
import { cpu, median } from './measure.ts';

/** 2026-06-01. */
const TODAY = 20605;
const PATH = 'trees.wood';

/** One tree in twenty has a nest in use, and work. */
function withNests(count: number, firstTag: number): string {
  let found = 0;
  return printTrees(generateTrees(count, firstTag)).replace(/found {5}none/g, none =>
    found++ % 4 === 0 ? 'found     active Turdus migratorius' : none,
  );
}

/** CPU, ms: medians over the rounds, each with other trees. */
export function measureNests(
  count: number,
  rounds: number,
): { readonly lookup: number; readonly check: number } {
  const lookups: number[] = [];
  const checks: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const text = withNests(count, 1 + round * count);
    checks.push(cpu(() => void checkWorkspace(buildWorkspace([readFile(PATH, text)]), TODAY)));
    const workspace = buildWorkspace([readFile(PATH, text)]);
    const settings = settingsFor(workspace, PATH, TODAY);
    const near: NestTreesNear = nestTreesAround(workspace, PATH);
    if (near === noNestTrees) throw new Error('no nests to look up');
    lookups.push(
      cpu(() => {
        for (const { fact } of workspace.files.get(PATH)!.trees)
          if (meetsNests(fact, { settings, today: TODAY }, near))
            nestsNear(contextIn({ workspace, today: TODAY }, PATH, fact));
      }),
    );
  }
  return { lookup: median(lookups), check: median(checks) };
}
