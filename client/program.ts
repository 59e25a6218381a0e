/** The program that the extension carries, run by the Node of the editor itself. */

import { execFile } from 'node:child_process';
import * as vscode from 'vscode';
import type { Program } from './commands/program.ts';

/** Makes the executable of a desktop editor run as Node; that of a server is Node already. */
const AS_NODE = { ELECTRON_RUN_AS_NODE: '1' };

/** Bytes of output; an export of a hundred thousand trees has fewer. */
const MOST_OUTPUT = 1 << 29;

export const programFile = (extension: vscode.Uri): string =>
  vscode.Uri.joinPath(extension, 'dist', 'soundwood.js').fsPath;

export const programIn = (extension: vscode.Uri): Program => ({
  run: (args, folder, token) =>
    new Promise((resolve, reject) => {
      const cancelled = new AbortController();
      const listener = token.onCancellationRequested(() => cancelled.abort());
      execFile(
        process.execPath,
        [programFile(extension), ...args],
        {
          cwd: folder.fsPath,
          env: { ...process.env, ...AS_NODE },
          maxBuffer: MOST_OUTPUT,
          signal: cancelled.signal,
        },
        (error, out, err) => {
          listener.dispose();
          if (cancelled.signal.aborted) resolve(undefined);
          else if (error && typeof error.code !== 'number') reject(error);
          else resolve({ failed: Number(error?.code ?? 0) > 1, out, err });
        },
      );
    }),
});

/** A command line of the program for a task. */
export const programExecution = (extension: vscode.Uri, args: readonly string[]): vscode.ProcessExecution =>
  new vscode.ProcessExecution(process.execPath, [programFile(extension), ...args], { env: AS_NODE });
