/** The language server: its life cycle and handlers, independent of transport and file access. */

import {
  type ClientCapabilities,
  CodeActionKind,
  type Connection,
  DidChangeWatchedFilesNotification,
  ErrorCodes,
  type InitializeParams,
  ResponseError,
  type ServerCapabilities,
  TextDocumentSyncKind,
  type WorkspaceFoldersChangeEvent,
} from 'vscode-languageserver';
import { version } from '../../package.json';
import { formatDate, parseDate } from '../base/dates.ts';
import { PHOTO_GLOB } from '../facts/photos.ts';
import { ruleNamed } from '../rules/registry.ts';
import { sanitizeLine } from '../show/sanitize.ts';
import { registerCompletion } from './completion.ts';
import { onPull, type Publisher, pusher, refresher } from './diagnostics.ts';
import { onChanges, readFolder, readTrees } from './documents.ts';
import { FIX_ALL, registerEditFeatures, registerReadFeatures, WEIGH } from './features.ts';
import { registerMeasure } from './measure.ts';
import { registerNameFeatures } from './names.ts';
import { registerPapers } from './papers.ts';
import { lookUpPhotos, withPhotosRead } from './photos.ts';
import { registerReport } from './report.ts';
import { DAY, type DayParams } from './requests.ts';
import { LEGEND, registerSemanticTokens } from './semantic-tokens.ts';
import { forEach, type Host, heeding, outOfOrder, reasonOf, type Session } from './session.ts';
import { Store } from './store.ts';
import { registerVisit } from './visit.ts';
import { registerWeigh } from './weigh.ts';

/** Completion trigger characters. */
const TRIGGERS = [' ', '"'];

/** The server's capabilities, given those of the client. */
function capabilitiesFor(client: ClientCapabilities): ServerCapabilities {
  return {
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    hoverProvider: true,
    completionProvider: { triggerCharacters: TRIGGERS, resolveProvider: true },
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, FIX_ALL] },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: { prepareProvider: true },
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    semanticTokensProvider: { legend: LEGEND, full: { delta: true }, range: true },
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' },
    inlayHintProvider: true,
    codeLensProvider: { resolveProvider: true },
    documentLinkProvider: {},
    executeCommandProvider: { commands: [WEIGH] },
    ...(pulls(client)
      ? { diagnosticProvider: { interFileDependencies: true, workspaceDiagnostics: true } }
      : {}),
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: { filters: [{ pattern: { glob: '**/*' } }] } },
    },
  };
}

const pulls = ({ textDocument }: ClientCapabilities): boolean => textDocument?.diagnostic !== undefined;

/** One of the options or settings sent by a client. */
const amongOptions = (options: unknown, name: string): unknown =>
  typeof options === 'object' && options !== null
    ? (options as Readonly<Record<string, unknown>>)[name]
    : undefined;

function textAmong(options: unknown, name: string): string | undefined {
  const value = amongOptions(options, name);
  return typeof value === 'string' ? value : undefined;
}

interface StatedDay {
  /** Day number; undefined if none is stated, or one that does not exist. */
  readonly day?: number | undefined;
  readonly mistake?: string;
}

/** The day to check for, from the settings `today` or `on` (as on the command line). */
function statedDay(options: unknown): StatedDay {
  const stated = (textAmong(options, 'today') ?? textAmong(options, 'on') ?? '').trim();
  const day = parseDate(stated);
  if (stated === '' || day !== undefined) return { day };
  return {
    mistake: `The day to check for is set to ${sanitizeLine(stated)}, which is not a date. Write it like 2026-06-01, or leave it empty. Until then, inventories are checked as of today.`,
  };
}

/** Pages on rules that the client can open itself: `pages` is the prefix of their URIs. */
function statedPages(options: unknown): Host['pageOf'] | undefined {
  const pages = textAmong(options, 'pages');
  return pages === undefined ? undefined : rule => (ruleNamed(rule) ? `${pages}${rule}.md` : undefined);
}

/** The open folders; older clients send only rootUri. */
const foldersOf = ({ workspaceFolders, rootUri }: InitializeParams): readonly string[] =>
  workspaceFolders?.map(({ uri }) => uri) ?? (rootUri ? [rootUri] : []);

/** Stage of the server life cycle (LSP 3.17, Server lifecycle). */
type Stage = 'before' | 'open' | 'over';

/** The error for requests without a handler or at the wrong stage. */
function unanswered(stage: Stage, method: string): ResponseError<void> {
  switch (stage) {
    case 'before':
      return new ResponseError(ErrorCodes.ServerNotInitialized, 'The first request must be initialize.');
    case 'open':
      return new ResponseError(ErrorCodes.MethodNotFound, `Unknown method ${method}.`);
    case 'over':
      return outOfOrder('The server is shutting down.');
  }
}

/** Something that others wait for. */
function stepOf(): { readonly done: Promise<void>; readonly finish: () => void } {
  let finish = (): void => {};
  const done = new Promise<void>(resolve => {
    finish = resolve;
  });
  return { done, finish };
}

/** Serves a client until shutdown. */
export function serve(connection: Connection, host: Host): void {
  let stage: Stage = 'before';
  connection.onRequest(method => {
    throw unanswered(stage, method);
  });
  connection.onShutdown(() => {
    if (stage !== 'open') throw unanswered(stage, 'shutdown');
    stage = 'over';
  });
  connection.onInitialize(params => {
    if (stage !== 'before') throw outOfOrder('The server is already initialized.');
    const { initializationOptions } = params;
    const capabilities: ClientCapabilities = params.capabilities ?? {};
    const answer = {
      capabilities: capabilitiesFor(capabilities),
      serverInfo: { name: 'soundwood', version },
    };
    // Set only now: a failed initialize may be repeated.
    stage = 'open';
    const folders = stepOf();
    const trees = stepOf();
    let whole = trees.done;
    let stated = statedDay(initializationOptions);
    let told: DayParams | undefined;
    const tellDay = (number: number) => {
      const { mistake } = stated;
      const day: DayParams = {
        day: formatDate(number),
        isToday: stated.day === undefined,
        ...(mistake === undefined ? {} : { mistake }),
      };
      if (told?.day === day.day && told.isToday === day.isToday && told.mistake === mistake) return;
      if (mistake !== undefined && mistake !== told?.mistake) connection.window.showWarningMessage(mistake);
      told = day;
      void connection.sendNotification(DAY, day);
    };
    const session: Session = {
      connection,
      store: new Store(() => host.today()),
      host: { ...host, pageOf: statedPages(initializationOptions) ?? host.pageOf },
      capabilities,
      client: { name: params.clientInfo?.name, namesRootPath: params.rootPath !== undefined },
      today() {
        const day = stated.day ?? host.today();
        tellDay(day);
        return day;
      },
      ready: folders.done,
      get whole() {
        return whole;
      },
      isOver: () => stage === 'over',
      cut: new Map(),
      wantsCounts: amongOptions(initializationOptions, 'counts') === true,
    };
    const publisher = attach(session);
    connection.onDidChangeConfiguration(({ settings }) => {
      // Clients without such settings send none.
      if (settings?.soundwood === undefined) return;
      const before = session.today();
      stated = statedDay(settings.soundwood);
      if (session.today() !== before) publisher.changed(undefined);
    });
    let isInitialized = false;
    connection.onInitialized(
      heeding(session, 'initialized', async () => {
        // Sent once; reading the folders anew would forget the trees that requests wait for.
        if (isInitialized) return;
        isInitialized = true;
        // Every other request waits for the folders.
        const read = async () =>
          forEach(session, 'initialize', foldersOf(params), uri => readFolder(session, uri));
        await heeding(session, 'initialize', read)(undefined);
        // So that the first findings include photographs.
        const lookUp = () =>
          lookUpPhotos(session).catch(error => connection.console.error(`photographs: ${reasonOf(error)}`));
        await lookUp();
        folders.finish();
        session.today();
        watch(session);
        followFolders(session, publisher, reading => (whole = reading));
        await heeding(session, 'initialize', () => readTrees(session))(undefined);
        await lookUp();
        trees.finish();
        publisher.changed(undefined);
      }),
    );
    return answer;
  });
  connection.listen();
}

function attach(session: Session): Publisher {
  const inner = pulls(session.capabilities) ? refresher(session) : pusher(session);
  const publisher = withPhotosRead(session, inner);
  onChanges(session, publisher);
  onPull(session);
  registerReadFeatures(session, publisher);
  registerEditFeatures(session);
  registerCompletion(session);
  registerNameFeatures(session);
  registerSemanticTokens(session);
  registerWeigh(session);
  registerMeasure(session);
  registerVisit(session);
  registerReport(session);
  registerPapers(session);
  return publisher;
}

/** Inventories, and the photographs that they may name. */
const WATCHED = ['**/*.wood', PHOTO_GLOB];

/** Registers for changes on disk, if the client supports it. */
function watch({ connection, capabilities }: Session): void {
  if (!capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration) return;
  connection.client
    .register(DidChangeWatchedFilesNotification.type, {
      watchers: WATCHED.map(globPattern => ({ globPattern })),
    })
    .catch(error => connection.console.warn(`The editor watches no files: ${reasonOf(error)}`));
}

/** @param waitFor hears of the reading of other folders as soon as it begins */
function followFolders(
  session: Session,
  publisher: Publisher,
  waitFor: (reading: Promise<void>) => void,
): void {
  const { connection, store, capabilities } = session;
  if (!capabilities.workspace?.workspaceFolders) return;
  const name = 'workspace/didChangeWorkspaceFolders';
  const follow = heeding(session, name, async ({ added, removed }: WorkspaceFoldersChangeEvent) => {
    await forEach(session, name, removed, ({ uri }) => store.removeFolder(uri));
    await forEach(session, name, added, ({ uri }) => readFolder(session, uri));
    await readTrees(session);
    publisher.changed(undefined);
  });
  connection.workspace.onDidChangeWorkspaceFolders(change => waitFor(follow(change)));
}
