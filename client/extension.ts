/** The part common to both hosts: starts the server, answers its requests for files, registers commands and views. */

import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import {
  FILES,
  type FilesParams,
  NAMED_GLOB,
  NAMED_PATHS,
  type NamedPathsParams,
  PHOTOS,
  type PhotoHead,
  type PhotosParams,
  type SourceText,
} from '../server/lsp/requests.ts';
import { registerBegin } from './commands/begin.ts';
import { registerCompare } from './commands/compare.ts';
import { registerExplain } from './commands/explain.ts';
import { registerImport } from './commands/import.ts';
import type { Program } from './commands/program.ts';
import { registerSaveAs } from './commands/save-as.ts';
import { registerDay } from './day.ts';
import { registerMeasure } from './measure.ts';
import { PAGES, registerPages } from './pages.ts';
import { previewLenses, registerPreview } from './preview.ts';
import { registerReport } from './report.ts';
import { registerServerState, replaceOldFindings, whenStopped } from './server-state.ts';
import { registerStatus } from './status.ts';
import { provideHover } from './theme.ts';

/**
 * Files, unsaved texts, and the schemes of the open folders. Other schemes show old versions of files, for example in
 * diffs, and are not part of the inventory.
 */
const schemes = (): readonly string[] => [
  ...new Set(['file', 'untitled', ...(vscode.workspace.workspaceFolders ?? []).map(({ uri }) => uri.scheme)]),
];

export const clientOptions = (): LanguageClientOptions => ({
  documentSelector: schemes().map(scheme => ({ language: 'soundwood', scheme })),
  synchronize: {
    fileEvents: vscode.workspace.createFileSystemWatcher('**/*.wood'),
    configurationSection: 'soundwood',
  },
  initializationOptions: {
    on: vscode.workspace.getConfiguration('soundwood').get<string>('on') || undefined,
    pages: PAGES,
    counts: true,
  },
  // Pictures in hovers are data URIs; commands and HTML are not trusted.
  markdown: { isTrusted: false, supportHtml: false },
  middleware: { provideHover, provideCodeLenses: previewLenses, ...replaceOldFindings },
  ...whenStopped,
});

/**
 * Registers everything, then starts the client, which tells of a failure itself.
 * @param program undefined in a browser
 */
export function attach(
  context: vscode.ExtensionContext,
  client: BaseLanguageClient & vscode.Disposable,
  program: Program | undefined,
): void {
  const pages = registerPages(client);
  context.subscriptions.push(
    client,
    client.onRequest(FILES, inventoryFiles),
    client.onRequest(PHOTOS, readPhotoHeads),
    client.onRequest(NAMED_PATHS, namedPaths),
    registerPreview(client),
    registerMeasure(client),
    vscode.commands.registerCommand('soundwood.sample', () => openSample(context.extensionUri)),
    registerReport(client, context.workspaceState),
    pages,
    registerBegin(program),
    registerImport(program),
    registerCompare(program, pages),
    registerSaveAs(program),
    registerExplain(client),
    registerDay(client),
    registerStatus(client),
    registerServerState(client),
  );
  client.start().catch(() => {});
}

/** The inventories of a folder in any file system provider. */
async function inventoryFiles({ folder, file }: FilesParams): Promise<readonly SourceText[]> {
  const parse = (address: string) => vscode.Uri.parse(address, true);
  const uris = file
    ? [parse(file)]
    : await vscode.workspace.findFiles(
        new vscode.RelativePattern(parse(folder), '**/*.wood'),
        '**/node_modules/**',
      );
  const texts = await Promise.all(uris.map(uri => textOf(uri).catch(() => undefined)));
  return uris.flatMap((uri, i) => (texts[i] === undefined ? [] : [{ uri: uri.toString(), text: texts[i] }]));
}

/** Larger files are reported without content: providers only read whole files, possibly over a network. */
const MOST_BYTES = 16_000_000;

/** The first bytes of photographs of a folder; unreadable ones are left out. */
async function readPhotoHeads({ folder, paths, bytes }: PhotosParams): Promise<readonly PhotoHead[]> {
  const root = vscode.Uri.parse(folder, true);
  const headOf = async (path: string): Promise<PhotoHead | undefined> => {
    const uri = vscode.Uri.joinPath(root, path);
    try {
      const { type, size } = await vscode.workspace.fs.stat(uri);
      // Excludes links, which may lead out of the folder.
      if (type !== vscode.FileType.File) return undefined;
      if (size > MOST_BYTES) return { path, missing: false };
      const content = await vscode.workspace.fs.readFile(uri);
      return { path, missing: false, head: content.slice(0, bytes) };
    } catch (error) {
      const isMissing = error instanceof vscode.FileSystemError && error.code === 'FileNotFound';
      return isMissing ? { path, missing: true } : undefined;
    }
  };
  const heads: PhotoHead[] = [];
  for (const path of paths) {
    const head = await headOf(path);
    if (head) heads.push(head);
  }
  return heads;
}

/** The photographs and measured files of a folder in any file system provider. */
async function namedPaths({ folder, most }: NamedPathsParams): Promise<readonly string[]> {
  const root = vscode.Uri.parse(folder, true);
  const uris = await vscode.workspace.findFiles(
    new vscode.RelativePattern(root, NAMED_GLOB),
    '**/node_modules/**',
    most,
  );
  return uris.map(({ path }) => path.slice(root.path.replace(/\/$/, '').length + 1));
}

const textOf = async (uri: vscode.Uri): Promise<string> =>
  new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));

/** Opens the sample as an unsaved text, so that nothing is written to disk. */
async function openSample(extension: vscode.Uri): Promise<void> {
  const content = await textOf(vscode.Uri.joinPath(extension, 'media', 'sample.wood'));
  await vscode.window.showTextDocument(
    await vscode.workspace.openTextDocument({ language: 'soundwood', content }),
  );
}
