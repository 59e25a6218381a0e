/** What the commands that run the program share. */

import * as vscode from 'vscode';

export interface Ran {
  /** It could not do it, or not with all trees; `err` says why. */
  readonly failed: boolean;
  readonly out: string;
  readonly err: string;
}

export interface Program {
  /** Undefined if cancelled. */
  readonly run: (
    args: readonly string[],
    folder: vscode.Uri,
    token: vscode.CancellationToken,
  ) => Promise<Ran | undefined>;
}

/** A command that runs the program; the browser has none, and the command says so. */
export const registerWithProgram = (
  command: string,
  program: Program | undefined,
  run: (program: Program) => Promise<void>,
): vscode.Disposable =>
  vscode.commands.registerCommand(command, async () => {
    if (program) return run(program);
    await vscode.window.showWarningMessage(
      'This command runs the program soundwood, which a browser cannot start. Open the folder in an editor on a computer, or run soundwood in a terminal.',
    );
  });

/** Runs the program with a notification that can cancel it. */
export const runShown = (
  program: Program,
  title: string,
  args: readonly string[],
  folder: vscode.Uri,
): Thenable<Ran | undefined> =>
  vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title, cancellable: true },
    (_, token) => program.run(args, folder, token),
  );

/** What the program says, in the words of a message. */
export const remarksOf = ({ err }: Ran): string => err.replace(/^soundwood: /gm, '').trim();

/** Shows what went wrong; false if it went well. */
export function showFailure(ran: Ran): boolean {
  if (ran.failed) void vscode.window.showErrorMessage(remarksOf(ran));
  return ran.failed;
}
