/** The findings of a file of an inventory, block by block. */

import { setImmediate as nextTurn } from 'node:timers/promises';
import { ownText } from '../../../grammar/text.ts';
import { attempt, Fault } from '../../assess/not-computed.ts';
import { type SignTally, tallyOf } from '../../assess/signs.ts';
import { urgencyOf } from '../../assess/urgency.ts';
import { fileOf, type PlacedNode } from '../../facts/file.ts';
import { photoPaths } from '../../facts/photos.ts';
import { treeOn } from '../../facts/state.ts';
import type { DatedWorkspace } from '../../facts/workspace.ts';
import { readPhotos } from '../../host/photos.ts';
import { crossFileFindings, environmentOf, type Finding, findingsAbout } from '../../rules/check.ts';
import type { RuleEnvironment } from '../../rules/context.ts';
import { contextFor } from '../../rules/lint-tree.ts';
import type { FoundTree, PlacedFinding, ShownFix } from '../../show/check-result.ts';
import type { Inventory, InventoryFile } from '../inventory.ts';

/** A block, and what is found in it. */
interface JudgedBlock {
  readonly placed: PlacedNode;
  readonly findings: readonly Finding[];
}

/** The blocks of a file with their findings, some hundred at a time, in order. */
export async function* judgedIn(
  { workspace, root, isKept }: Inventory,
  { path, blocks }: InventoryFile,
  today: number,
  withSyntax = false,
): AsyncGenerator<{ readonly judged: readonly JudgedBlock[]; readonly environment: RuleEnvironment }, void> {
  const crossFile = crossFileFindings(workspace, path, today);
  let next = 0;
  for (const some of blocks(withSyntax)) {
    // Lets signals and writes through.
    await nextTurn();
    const photos = await readPhotos(root, photoPaths({ path, nodes: some.map(({ node }) => node) }));
    const environment = environmentOf(workspace, path, today, photos);
    const judged = some.map(placed => {
      const first = next;
      const end = placed.start + placed.node.length;
      while (next < crossFile.length && crossFile[next]!.start < end) next++;
      return {
        placed,
        findings: findingsAbout(placed, environment, crossFile.slice(first, next), isKept),
      };
    });
    yield { judged, environment: environment.withPhotos };
  }
}

/**
 * Findings of a file some hundred blocks at a time, in order, and how the signs of their trees are judged.
 * @param wantsFixes whether the fixes of a finding are wanted
 */
export async function* findingsIn(
  inventory: Inventory,
  file: InventoryFile,
  today: number,
  wantsFixes: (finding: Finding) => boolean = () => false,
): AsyncGenerator<{ readonly found: readonly PlacedFinding[]; readonly signs: SignTally }, void> {
  const { workspace } = inventory;
  for await (const { judged, environment } of judgedIn(inventory, file, today)) {
    const found: PlacedFinding[] = [];
    for (const { placed, findings } of judged) {
      const tree = findings.length > 0 ? foundTree(placed, environment) : undefined;
      for (const finding of findings)
        found.push({
          finding,
          tree,
          line: lineOf(finding, placed),
          fixes: wantsFixes(finding) ? await fixesOf(finding, placed, { workspace, today }) : undefined,
        });
    }
    yield {
      found,
      signs: tallyIn(
        judged.map(({ placed }) => placed),
        environment,
      ),
    };
  }
}

function foundTree(
  { firstLine, node: { fact, isDamaged } }: PlacedNode,
  environment: RuleEnvironment,
): FoundTree | undefined {
  if (fact?.kind !== 'tree') return undefined;
  const urgency = attempt(() => urgencyOf(contextFor(fact, environment)));
  return {
    line: firstLine + 1,
    name: fact.name?.value,
    species: fact.species?.value.name,
    // What could not be judged, or what a line with a mistake says, is not taken for harmless.
    urgency: urgency instanceof Fault ? 'now' : isDamaged && urgency === 'watch' ? 'this season' : urgency,
  };
}

/** Those within its block. */
async function fixesOf(
  finding: Finding,
  { path, start, firstLine, node }: PlacedNode,
  snapshot: DatedWorkspace,
): Promise<readonly ShownFix[] | undefined> {
  // Loaded lazily: most checks show none.
  const { fixesFor } = await import('../../language/fixes.ts');
  const alone = fileOf(path, [node]);
  const placeOf = (offset: number) => {
    const { line, start: begin } = node.lineAt(offset);
    return { line: firstLine + line + 1, column: offset - begin + 1 };
  };
  const own = { ...finding, start: finding.start - start, end: finding.end - start };
  const fixes = fixesFor(snapshot, alone, own)
    .filter(({ path: other = path, edits }) => other === path && edits.every(({ end }) => end <= node.length))
    .map(({ title, edits }) => ({
      title,
      edits: edits.map(({ start: from, end, text }) => {
        const last = placeOf(end);
        return { ...placeOf(from), endLine: last.line, endColumn: last.column, text };
      }),
    }));
  return fixes.length > 0 ? fixes : undefined;
}

const LINE = /[^\r\n]*/y;

/** The line on which a finding begins. It stays in memory with its finding, the text around it does not. */
function lineOf({ start, column }: Finding, placed: PlacedNode): string {
  LINE.lastIndex = start - placed.start - (column - 1);
  return ownText(LINE.exec(placed.node.text)![0]);
}

const tallyIn = (
  blocks: readonly PlacedNode[],
  { site, settings, today }: Pick<RuleEnvironment, 'site' | 'settings' | 'today'>,
): SignTally =>
  tallyOf(
    blocks.flatMap(({ fact }) =>
      fact?.kind === 'tree' ? [{ tree: treeOn(fact, today), site, settings }] : [],
    ),
  );
