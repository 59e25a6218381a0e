/** The task `soundwood check`, whose findings appear in the Problems view. */

import * as vscode from 'vscode';

function checkTask(folder: vscode.WorkspaceFolder, definition: vscode.TaskDefinition): vscode.Task {
  const task = new vscode.Task(
    definition,
    folder,
    'check',
    'soundwood',
    new vscode.ShellExecution('soundwood', ['check', '.']),
    '$soundwood',
  );
  task.group = vscode.TaskGroup.Test;
  return task;
}

export const checkTasks: vscode.TaskProvider = {
  provideTasks: () =>
    (vscode.workspace.workspaceFolders ?? []).map(folder => checkTask(folder, { type: 'soundwood' })),
  resolveTask: ({ scope, definition }) =>
    typeof scope === 'object' ? checkTask(scope, definition) : undefined,
};
