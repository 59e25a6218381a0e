/** The findings last published per document, so that only those that changed are sent again. */

import type { Finding, Shown } from '../rules/check.ts';

interface Published {
  readonly found: Shown;
  readonly id: string;
  /** Of the open document; undefined for a file on disk. */
  readonly version: number | undefined;
}

export class PublishedDiagnostics {
  private readonly last = new Map<string, Published>();
  private count = 0;

  /** Names a list of findings: the same list gets the same name. */
  idOf(uri: string, found: Shown, version?: number): string {
    const before = this.last.get(uri);
    const isSame = before?.found.all === found.all && same(before.found.findings, found.findings);
    const id = isSame ? before.id : String(++this.count);
    this.last.set(uri, { found, id, version });
    return id;
  }

  /** Whether they have to be sent: each version of an open document gets its own, a file without findings none. */
  changed(uri: string, found: Shown, version: number | undefined): boolean {
    const before = this.last.get(uri);
    const id = this.idOf(uri, found, version);
    return before ? before.id !== id || before.version !== version : found.all > 0 || version !== undefined;
  }

  /** Forgets all documents but these; returns the forgotten ones. */
  keepOnly(uris: ReadonlySet<string>): readonly string[] {
    const gone = [...this.last.keys()].filter(uri => !uris.has(uri));
    for (const uri of gone) this.last.delete(uri);
    return gone;
  }
}

/** What an editor shows of a finding. */
const SHOWN = ['line', 'column', 'endLine', 'endColumn', 'rule', 'level', 'message', 'remedy'] as const;

/** Findings of trees that did not change share their strings, so that comparing them is cheap. */
const same = (a: readonly Finding[], b: readonly Finding[]): boolean =>
  a === b || (a.length === b.length && a.every((one, i) => sameFinding(one, b[i]!)));

const sameFinding = (a: Finding, b: Finding): boolean =>
  SHOWN.every(member => a[member] === b[member]) && details(a) === details(b);

const details = ({ accepted, related }: Finding): string | undefined =>
  accepted || related ? JSON.stringify([accepted, related]) : undefined;
