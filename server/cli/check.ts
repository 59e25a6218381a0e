/** `soundwood check`: reads inventories, lints them block by block, writes what is found. */

import { counted } from '../base/words.ts';
import { settingsFor } from '../facts/workspace.ts';
import { shown } from '../host/paths.ts';
import { siteNameOf } from '../rules/identity.ts';
import type { PlacedFinding } from '../show/check-result.ts';
import { sanitizeLine } from '../show/sanitize.ts';
import { findingsIn } from './checking/find.ts';
import { type OutputOptions, showsLines, showsText, writeFindings } from './checking/output.ts';
import type { Share } from './checking/part.ts';
import { type Inventory, loadInventory } from './inventory.ts';
import type { Io } from './io.ts';
import { progressOf } from './progress.ts';

export interface CheckOptions extends OutputOptions {
  /** Day number. */
  readonly date?: number;
  /** A commit: only what is new against it counts. */
  readonly since?: string;
  /** Only this part of the inventory, to be gathered with the others. */
  readonly shard?: Share;
}

export async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const today = options.date ?? io.today;
  if (options.shard) {
    const { checkPart } = await import('./checking/part.ts');
    return checkPart(
      await loadInventory(paths, { digest: true }, io),
      options.shard,
      options.output,
      today,
      io,
    );
  }
  // To pair the trees of two states takes all of both.
  const keep = options.since === undefined ? {} : { keep: true };
  const inventory = await loadInventory(paths, keep, io);
  const { files, workspace, nameOf } = inventory;
  const about = {
    on: today,
    trees: files.reduce((sum, { tags }) => sum + tags.length, 0),
    files: files.length,
    unread: inventory.problems,
    listFiles: () => files.map(({ path, tags }) => ({ file: path, trees: tags })),
    since: options.since,
    siteOf: (file: string) => siteNameOf(workspace, file),
    regionOf: (file: string) => settingsFor(workspace, file, today).region.code,
    shown: nameOf,
  };
  // Lines show by themselves how far the check is.
  const steps = showsLines(options) ? 0 : files.length;
  const code = await writeFindings(about, options, io, async formatter => {
    const { since } = options;
    const progress = await progressOf(io, steps, 'checking');
    const all: PlacedFinding[] = [];
    for (const file of files) {
      for await (const { found, signs } of findingsIn(inventory, file, today, formatter.wantsFixes)) {
        formatter.add(since === undefined ? found : [], signs);
        if (since !== undefined) all.push(...found);
      }
      progress.step();
    }
    progress.end();
    if (since === undefined) return;
    const { newSince } = await import('./since.ts');
    const findings = all.map(({ finding }) => finding);
    const news = await newSince(since, paths, inventory, findings, today, io);
    formatter.add(all.filter(({ finding }) => news.has(finding)));
  });
  if (showsText(options)) showUnbounded(inventory, io);
  // Hints are for people; programs read the findings.
  if (io.interactive && showsText(options)) {
    showUnplaced(inventory, io);
    await showWithoutSetup(inventory, io);
  }
  return code;
}

/** Says where nobody stated the country: work is then held against common seasons and laws, not those of the place. */
function showUnplaced({ files, workspace, nameOf }: Inventory, io: Io): void {
  const unplaced = files.filter(
    ({ path, tags }) =>
      tags.length > 0 && settingsFor(workspace, path, io.today).regionApplied === 'unstated',
  );
  const [first] = unplaced;
  if (!first) return;
  const others = unplaced.length > 1 ? ` and ${counted(unplaced.length - 1, 'more file')}` : '';
  io.err(
    `soundwood: no region is set for ${sanitizeLine(nameOf(first.path))}${others}, so only general seasons and laws apply. Add a site with its region: site "name", and below it region US-OR\n`,
  );
}

/** Says that a clone merges inventories by lines, although its repository asks for more. */
async function showWithoutSetup({ root }: Inventory, io: Io): Promise<void> {
  const { lacksSetup } = await import('./git-setup.ts');
  if (!(await lacksSetup(root))) return;
  io.err(
    'soundwood: this repository merges inventories fact by fact, but this clone is not set up for it, because git does not copy settings. Run soundwood git-setup here.\n',
  );
}

/** Says which files far above apply too: outside of a repository one may be there that nobody thinks of. */
function showUnbounded({ unbounded }: Inventory, io: Io): void {
  const [first, ...others] = unbounded;
  if (first === undefined) return;
  const more = others.length > 0 ? ` and ${counted(others.length, 'more file')}` : '';
  io.err(
    `soundwood: sites, persons, practice and nests in the folders above also apply, but no other trees: ${sanitizeLine(shown(io.cwd, first))}${more}. soundwood explain --here PATH shows what is set where. To exclude them, run git init in the folder of the inventory.\n`,
  );
}
