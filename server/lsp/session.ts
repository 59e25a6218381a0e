/** What every handler works with. */

import {
  type CancellationToken,
  type ClientCapabilities,
  type Connection,
  ErrorCodes,
  ResponseError,
} from 'vscode-languageserver';
import { attempt, Fault } from '../assess/not-computed.ts';
import type { DatedWorkspace } from '../facts/workspace.ts';
import { escapeMarkdown } from '../language/markdown.ts';
import type { Counts } from '../rules/check.ts';
import type { FileAccess } from './files.ts';
import type { Located, Root, Store } from './store.ts';

export interface Host {
  readonly files: FileAccess;
  /** Day number of today; the clock is the starter's. */
  readonly today: () => number;
  /** Address of the page on a rule; undefined where there is none. */
  readonly pageOf: (rule: string) => string | undefined;
}

/** Who the client is, for what its capabilities do not say. */
interface ClientIdentity {
  readonly name: string | undefined;
  /** Sends the deprecated `rootPath`. */
  readonly namesRootPath: boolean;
}

export interface Session {
  readonly connection: Connection;
  readonly store: Store;
  readonly host: Host;
  readonly capabilities: ClientCapabilities;
  readonly client: ClientIdentity;
  readonly today: () => number;
  /** Fulfilled when the texts of the folders are there: all that bears on an open document is known. */
  readonly ready: Promise<void>;
  /** Fulfilled when all trees of the folders are known, for what is asked about all files. */
  readonly whole: Promise<void>;
  /** The editor has said goodbye: nothing more is answered. */
  readonly isOver: () => boolean;
  /** Files of which not all findings are sent, by their URI, and how many there are. */
  readonly cut: Map<string, Counts>;
  /** Whether the client is told of these numbers. */
  readonly wantsCounts: boolean;
}

export const snapshotOf = ({ today }: Pick<Session, 'today'>, { workspace }: Root): DatedWorkspace => ({
  workspace,
  today: today(),
});

/** A file as it is now. */
interface CurrentFile extends Located {
  readonly snapshot: DatedWorkspace;
}

/** A handler of requests about one file: it gets the file as it is now, and is not called without one. */
export type FileHandler<P, R> = (params: P, located: CurrentFile, token: CancellationToken) => R | Promise<R>;

/** Notifications: nobody waits for an answer, so that a failure is a line of the log. */
export const heeding =
  <P>(
    { connection }: Pick<Session, 'connection'>,
    name: string,
    handler: (params: P) => void | Promise<void>,
  ) =>
  async (params: P): Promise<void> => {
    try {
      await handler(params);
    } catch (error) {
      connection.console.error(`${name} failed: ${reasonOf(error)}`);
    }
  };

/** Each of a list that an editor sends, by itself: one that is wrong costs no other. */
export async function forEach<T>(
  session: Pick<Session, 'connection'>,
  name: string,
  list: readonly T[] | undefined,
  handler: (one: T) => void | Promise<void>,
): Promise<void> {
  const heed = heeding(session, name, handler);
  for (const one of list ?? []) await heed(one);
}

/** Plain requests: waits for the folders, and turns a failure into a line of the log and no answer. */
export function answering<P, R>(
  session: Session,
  name: string,
  handler: (params: P, token: CancellationToken) => R | Promise<R>,
  known: 'ready' | 'whole' = 'ready',
): (params: P, token: CancellationToken) => Promise<R | null> {
  return async (params, token) => {
    if (session.isOver()) throw outOfOrder('The server is shutting down.');
    await session[known];
    if (token.isCancellationRequested) throw cancelled();
    try {
      return await handler(params, token);
    } catch (error) {
      // Answers to the client, such as a name that can't be taken, go through.
      if (error instanceof ResponseError) throw error;
      session.connection.console.error(`${name} failed: ${reasonOf(error)}`);
      return null;
    }
  };
}

/** The same for requests about one file. */
export function aboutFile<P extends { readonly textDocument: { readonly uri: string } }, R>(
  session: Session,
  name: string,
  handler: FileHandler<P, R>,
  known?: 'ready' | 'whole',
): (params: P, token: CancellationToken) => Promise<R | null> {
  const answer = (params: P, token: CancellationToken) => {
    const located = session.store.find(params.textDocument.uri);
    if (!located) return null;
    return handler(params, { ...located, snapshot: snapshotOf(session, located.root) }, token);
  };
  return answering(session, name, answer, known) as (
    params: P,
    token: CancellationToken,
  ) => Promise<R | null>;
}

/**
 * The same for what may take long: the steps towards the answer, between which other requests get their turn. Where
 * something changed meanwhile, it begins again with what is there now; what did not change is not computed again.
 */
export function aboutFileInTurns<P extends { readonly textDocument: { readonly uri: string } }, R>(
  session: Session,
  name: string,
  steps: (params: P, located: CurrentFile) => Generator<unknown, R>,
): (params: P, token: CancellationToken) => Promise<R | null> {
  const { store } = session;
  return answering(session, name, (params, token) =>
    Pace.inFront(async pace => {
      for (;;) {
        const located = store.find(params.textDocument.uri);
        if (!located) return null;
        const { workspace } = located.root;
        const work = steps(params, { ...located, snapshot: snapshotOf(session, located.root) });
        for (let isSame = true; isSame; ) {
          const step = work.next();
          if (step.done) return step.value;
          if (!pace.isDue) continue;
          await pace.pause();
          if (token.isCancellationRequested) throw cancelled();
          isSame = store.find(params.textDocument.uri)?.root.workspace === workspace;
        }
      }
    }),
  );
}

/**
 * What is told of one tree; where it can't be computed, that it was not, in Markdown. Nothing at all would look as if
 * there were nothing to say.
 */
export function toldOf<T>(
  { connection }: Session,
  name: string,
  compute: () => T,
  instead: (markdown: string) => T,
): T {
  const result = attempt(compute);
  if (!(result instanceof Fault)) return result;
  connection.console.error(`${name} failed: ${reasonOf(result.error)}`);
  const reason = escapeMarkdown(result.reason);
  return instead(`**Not computed**: ${reason}. This is a mistake in the program, not in the record.`);
}

export const reasonOf = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);

/** A request at a time at which the protocol has none of its kind. */
export const outOfOrder = (message: string) => new ResponseError<void>(ErrorCodes.InvalidRequest, message);

/** LSP 3.17, error codes: the request was right, and can't be granted. */
const REQUEST_FAILED = -32803;
const REQUEST_CANCELLED = -32800;

/** An answer with a message for the person. */
export const refusal = (message: string) => new ResponseError<void>(REQUEST_FAILED, message);
export const cancelled = () => new ResponseError<void>(REQUEST_CANCELLED, 'The request was cancelled.');

/** Longest stretch of work, in ms, that a waiting message has to bear. */
const LONGEST_STRETCH = 15;

/** Lets waiting messages in from time to time, such as one that cancels the work at hand. */
export class Pace {
  /** Work on something that a person waits for. */
  private static inFrontNow = 0;

  /** The first pause is one. */
  private since = 0;

  protected constructor(private readonly waits: boolean) {}

  /** For work that nobody waits for: it rests while there is other work. */
  static behind(): Pace {
    return new Pace(true);
  }

  /** Does what a person waits for. */
  static async inFront<T>(work: (pace: Pace) => Promise<T>): Promise<T> {
    Pace.inFrontNow++;
    try {
      return await work(new Pace(false));
    } finally {
      Pace.inFrontNow--;
    }
  }

  get isDue(): boolean {
    return Date.now() - this.since >= LONGEST_STRETCH;
  }

  async pause(): Promise<void> {
    if (!this.isDue) return;
    do await new Promise(resolve => setTimeout(resolve, 0));
    while (this.waits && Pace.inFrontNow > 0);
    this.since = Date.now();
  }
}
