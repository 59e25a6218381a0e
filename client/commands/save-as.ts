/** The calendar and the exports: the program writes them to a file that the person chooses. */

import * as vscode from 'vscode';
import { dayArguments } from '../day.ts';
import { chooseOnDisk, type OnDisk } from '../inventories.ts';
import { type Program, registerWithProgram, remarksOf, runShown } from './program.ts';

const FORMS = [
  { label: 'CSV', description: 'spreadsheets', format: 'csv', extension: 'csv' },
  { label: 'GeoJSON', description: 'maps', format: 'geojson', extension: 'geojson' },
  { label: 'GeoPackage', description: 'maps', format: 'geopackage', extension: 'gpkg' },
  { label: 'JSON Lines', description: 'all facts, for programs', format: 'jsonl', extension: 'jsonl' },
  { label: 'Parquet', description: 'queries', format: 'parquet', extension: 'parquet' },
] as const;

export const registerSaveAs = (program: Program | undefined): vscode.Disposable =>
  vscode.Disposable.from(
    registerWithProgram('soundwood.calendar', program, async program => {
      const inventory = await chooseOnDisk();
      if (!inventory) return;
      const args = ['calendar', ...dayArguments(inventory.folder)];
      await writeTo(program, inventory, args, {
        title: 'Save Calendar',
        name: 'calendar.ics',
        kind: 'Calendar (iCalendar)',
      });
    }),
    registerWithProgram('soundwood.export', program, async program => {
      const inventory = await chooseOnDisk();
      if (!inventory) return;
      const form = await vscode.window.showQuickPick(FORMS, {
        title: 'Export',
        placeHolder: 'In which form?',
        matchOnDescription: true,
      });
      if (!form) return;
      const { label, format, extension } = form;
      const target = { title: `Export as ${label}`, name: `trees.${extension}`, kind: label };
      await writeTo(program, inventory, ['export', '--format', format], target);
    }),
  );

/** The dialog asks before a file is overwritten. */
async function writeTo(
  program: Program,
  { folder, path }: OnDisk,
  args: readonly string[],
  { title, name, kind }: { readonly title: string; readonly name: string; readonly kind: string },
): Promise<void> {
  const target = await vscode.window.showSaveDialog({
    title,
    filters: { [kind]: [name.slice(name.lastIndexOf('.') + 1)] },
    defaultUri: vscode.Uri.joinPath(folder, name),
  });
  if (!target) return;
  const ran = await runShown(
    program,
    `Writing ${name}`,
    [...args, '--output', target.fsPath, '--', path],
    folder,
  );
  if (!ran) return;
  // What could be written is there even if something else failed.
  const open = 'Open';
  const answer = ran.failed
    ? await vscode.window.showErrorMessage(remarksOf(ran))
    : await vscode.window.showInformationMessage(
        ran.out.trim(),
        ...(/\.(?:parquet|gpkg)$/.test(name) ? [] : [open]),
      );
  if (answer === open) await vscode.window.showTextDocument(target);
}
