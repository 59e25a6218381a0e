/** Numbers of findings by file: of the diagnostics, or the server's, where it does not send all of them. */

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { COUNTS, type CountsParams } from '../server/lsp/requests.ts';

export interface Counts {
  readonly errors: number;
  readonly warnings: number;
}

export class FindingCounts implements vscode.Disposable {
  /** By URI. */
  private readonly told = new Map<string, Counts>();
  private readonly changed = new vscode.EventEmitter<void>();
  private readonly subscription: vscode.Disposable;
  readonly onDidChange = this.changed.event;

  constructor(client: BaseLanguageClient) {
    this.subscription = vscode.Disposable.from(
      this.changed,
      vscode.languages.onDidChangeDiagnostics(() => this.changed.fire()),
      client.onNotification(COUNTS, ({ uri, counts }: CountsParams) => {
        // The editor has its own way to write a URI.
        const key = vscode.Uri.parse(uri).toString();
        if (counts) this.told.set(key, counts);
        else this.told.delete(key);
        this.changed.fire();
      }),
    );
  }

  get all(): Counts {
    let [errors, warnings] = [0, 0];
    for (const [uri, diagnostics] of vscode.languages.getDiagnostics()) {
      const own = diagnostics.filter(({ source }) => source === 'soundwood');
      const told = own.length > 0 ? this.told.get(uri.toString()) : undefined;
      const count = (severity: vscode.DiagnosticSeverity) =>
        own.filter(diagnostic => diagnostic.severity === severity).length;
      errors += told?.errors ?? count(vscode.DiagnosticSeverity.Error);
      warnings += told?.warnings ?? count(vscode.DiagnosticSeverity.Warning);
    }
    return { errors, warnings };
  }

  dispose(): void {
    this.subscription.dispose();
  }
}
