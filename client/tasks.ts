/** The task `soundwood check`; the server reports its findings in the Problems view already, as those of the folder. */

import * as vscode from 'vscode';
import { dayArguments } from './day.ts';
import { programExecution } from './program.ts';

export function checkTasks(extension: vscode.Uri): vscode.TaskProvider {
  const checkTask = (folder: vscode.WorkspaceFolder, definition: vscode.TaskDefinition): vscode.Task => {
    const task = new vscode.Task(
      definition,
      folder,
      'check',
      'soundwood',
      programExecution(extension, ['check', '--format', 'lines', ...dayArguments(folder.uri), '.']),
      [],
    );
    task.group = vscode.TaskGroup.Test;
    return task;
  };
  return {
    provideTasks: () =>
      (vscode.workspace.workspaceFolders ?? []).map(folder => checkTask(folder, { type: 'soundwood' })),
    resolveTask: ({ scope, definition }) =>
      typeof scope === 'object' ? checkTask(scope, definition) : undefined,
  };
}
