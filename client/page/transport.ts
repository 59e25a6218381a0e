/** Messages to and from the language server, which runs as a worker; what it asks about files is answered here. */

import type { Transport } from '@codemirror/lsp-client';
import {
  FILES,
  type FilesParams,
  NAMED_PATHS,
  type NamedPathsParams,
  PHOTOS,
  type PhotoHead,
  type PhotosParams,
  type SourceText,
} from '../../server/lsp/requests.ts';

/** What the server asks about the inventory that is open. */
export interface FileAnswers {
  readonly files: (params: FilesParams) => Promise<readonly SourceText[]>;
  readonly photos: (params: PhotosParams) => Promise<readonly PhotoHead[]>;
  readonly namedPaths: (params: NamedPathsParams) => Promise<readonly string[]>;
}

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
}

/** JSON-RPC 2.0, section 5.1. */
const METHOD_NOT_FOUND = -32601;
const INTERNAL_ERROR = -32603;

export function transportOf(worker: Worker, answers: FileAnswers, refreshed: () => void): Transport {
  const heard = new Set<(value: string) => void>();
  const answer = async ({ method, params }: Message): Promise<unknown> => {
    switch (method) {
      case FILES:
        return answers.files(params as FilesParams);
      case PHOTOS:
        return answers.photos(params as PhotosParams);
      case NAMED_PATHS:
        return answers.namedPaths(params as NamedPathsParams);
      case 'workspace/diagnostic/refresh':
        refreshed();
        return null;
      case 'client/registerCapability':
      case 'client/unregisterCapability':
      case 'window/workDoneProgress/create':
      case 'window/showMessageRequest':
        return null;
      case 'workspace/configuration':
        return [];
      default:
        return undefined;
    }
  };
  const respond = async (message: Message) => {
    const { id } = message;
    const answered = await answer(message).then(
      result =>
        result === undefined
          ? { error: { code: METHOD_NOT_FOUND, message: `There is no method ${message.method} here.` } }
          : { result },
      (error: unknown) => ({ error: { code: INTERNAL_ERROR, message: String(error) } }),
    );
    worker.postMessage({ jsonrpc: '2.0', id, ...answered });
  };
  worker.addEventListener('message', ({ data }: MessageEvent<Message>) => {
    if (data.method !== undefined && data.id !== undefined) void respond(data);
    else {
      const text = JSON.stringify(data);
      for (const handler of heard) handler(text);
    }
  });
  return {
    send: message => worker.postMessage(JSON.parse(message)),
    subscribe: handler => void heard.add(handler),
    unsubscribe: handler => void heard.delete(handler),
  };
}
