/** What stands beside the text: findings, the tree at the cursor, papers to hand over. */

import type { EditorView } from '@codemirror/view';
import type { RefObject } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { CodeAction } from 'vscode-languageserver-protocol';
import {
  PAPER,
  type Paper,
  type PaperKind,
  type PaperParams,
  PREVIEW,
  REPORT,
  type TreePreview,
} from '../../server/lsp/requests.ts';
import { isMistakeCode } from '../../server/rules/mistake-codes.ts';
import type { Checked, Counts, ToldCounts } from './counts.ts';
import { fixAll, fixesFor } from './findings.ts';
import { html } from './html.ts';
import type { Language } from './language.ts';
import { htmlOf } from './markdown.ts';
import { FOLDER, uriOf } from './opened.ts';

type GoTo = (path: string, line: number) => void;

/** A longer list helps nobody, and slows every key. */
const ROWS = 100;

const GRAVITY = ['', 'Error', 'Warning', 'Note', 'Note'] as const;

export function FindingsPanel({
  found,
  told,
  total,
  paths,
  goTo,
  offer,
  view,
  current,
  hidden,
  apply,
  explain,
}: {
  found: Checked;
  told: ToldCounts;
  total: Counts | undefined;
  paths: readonly string[];
  goTo: GoTo;
  offer: (fixes: readonly CodeAction[]) => void;
  view: RefObject<EditorView | undefined>;
  current: string | undefined;
  hidden: boolean;
  apply: (action: CodeAction) => void;
  /** Shows the page on a rule. */
  explain: (rule: string) => void;
}) {
  const waiting = paths.filter(path => !found.has(path));
  const failed = paths.filter(path => found.has(path) && !found.get(path));
  const rows = paths
    .flatMap(path => (found.get(path) ?? []).map(finding => ({ path, finding })))
    .sort((a, b) => (a.finding.severity ?? 1) - (b.finding.severity ?? 1));
  const [most, setMost] = useState(ROWS);
  const isCut = rows.length > most || paths.some(path => told.has(path));
  return html`<section class="findings" hidden=${hidden} aria-label="Findings">
    <h2>Findings</h2>
    ${
      rows.some(({ finding }) => isMistakeCode(String(finding.code)))
        ? html`<p>
            <button
              onClick=${async () => {
                const all = view.current && (await fixAll(view.current));
                if (all) apply(all);
              }}
            >
              Fix what has one meaning
            </button>
          </p>`
        : null
    }
    ${
      failed.length > 0
        ? html`<p class="notice" role="alert">
            Not checked, by a mistake in the program: ${failed.join(', ')}. Load the page again; until then nothing
            here speaks for ${failed.length === 1 ? 'this file' : 'these files'}.
          </p>`
        : null
    }
    ${
      isCut && total
        ? html`<p role="status">
            There are ${total.errors.toLocaleString('en-US')} errors and ${total.warnings.toLocaleString('en-US')} warnings;
            some of them are shown, the gravest first.
          </p>`
        : null
    }
    ${waiting.length > 0 ? html`<p role="status">Not checked yet: ${waiting.join(', ')}.</p>` : null}
    ${
      rows.length === 0 && waiting.length + failed.length === 0 && paths.length > 0
        ? html`<p>No findings in the open files. This is not an all-clear: it only means that what is written breaks no rule.</p>`
        : null
    }
    <ul>
      ${rows.slice(0, most).map(
        ({
          path,
          finding,
        }) => html`<li key=${`${path} ${finding.code} ${finding.message}`} class=${`level-${finding.severity ?? 1}`}>
          <p class="place">
            <strong>${GRAVITY[finding.severity ?? 1]}</strong>
            <button class="link" onClick=${() => goTo(path, finding.range.start.line)}>
              ${path}, line ${finding.range.start.line + 1}
            </button>
          </p>
          ${finding.message.split('\n').map((words, i) => html`<p class=${i === 0 ? 'what' : 'remedy'}>${words}</p>`)}
          <p class="choices">
            ${
              path === current
                ? html`<button
                    onClick=${async () => {
                      if (view.current) offer(await fixesFor(view.current, finding));
                    }}
                  >Quick fixes</button>`
                : null
            }
            ${
              isMistakeCode(String(finding.code))
                ? null
                : html`<button class="link" onClick=${() => explain(String(finding.code))}>
                    Why: ${String(finding.code)}
                  </button>`
            }
          </p>
        </li>`,
      )}
    </ul>
    ${rows.length > most ? html`<button onClick=${() => setMost(most + ROWS)}>Show more</button>` : null}
  </section>`;
}

export function TreePanel({
  language,
  path,
  line,
  found,
  goTo,
  isShown,
  seen,
}: {
  language: Language | undefined;
  path: string | undefined;
  line: number;
  found: unknown;
  goTo: GoTo;
  isShown: boolean;
  seen: () => void;
}) {
  /** Null where no tree is. */
  const [preview, setPreview] = useState<TreePreview | null>();
  useEffect(() => {
    if (!language || path === undefined || !isShown) return;
    let isWanted = true;
    const timer = setTimeout(async () => {
      await language.client.initializing;
      language.client.sync();
      const shown = await language.client
        .request<object, TreePreview | null>(PREVIEW, {
          textDocument: { uri: uriOf(path) },
          position: { line, character: 0 },
        })
        .catch(() => null);
      if (!isWanted) return;
      // Elsewhere the tree of before stays.
      setPreview(before => shown ?? before ?? null);
      if (shown) seen();
    }, 200);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [language, path, line, found, isShown]);
  return html`<section class="tree" hidden=${!isShown} aria-label="Tree">
    <h2>${preview?.title ?? 'Tree'}</h2>
    ${preview === undefined ? html`<p role="status">Drawing…</p>` : null}
    ${preview === null ? html`<p>Put the cursor in the record of a tree to see it drawn.</p>` : null}
    <div class="pictures">
      ${preview?.pictures.map(
        ({ source, description, places }) => html`<figure>
          <img src=${source} alt=${description} />
          ${places.map(({ name, area: [left, top, width, height], first, last }) => {
            const isHere = line >= first && line <= last;
            return html`<button
              class="part"
              aria-label=${name}
              title=${name}
              aria-current=${isHere ? 'true' : undefined}
              style=${{ left: `${left}%`, top: `${top}%`, width: `${width}%`, height: `${height}%` }}
              onClick=${() => path !== undefined && goTo(path, first)}
            ></button>`;
          })}
        </figure>`,
      )}
    </div>
    ${preview ? html`<div class="words" dangerouslySetInnerHTML=${{ __html: htmlOf(preview.words) }}></div>` : null}
  </section>`;
}

const PAPERS: readonly (readonly [PaperKind, string])[] = [
  ['weigh', 'Options, weighed'],
  ['history', 'Life of the trees'],
  ['calendar', 'Calendar'],
  ['csv', 'Table (CSV)'],
  ['geojson', 'Map (GeoJSON)'],
  ['jsonl', 'All facts (JSON Lines)'],
];

/** The report and the other papers, written when somebody asks for one: they are of the text as it then is. */
export function OutputPanel({
  language,
  isShown,
  written,
}: {
  language: Language | undefined;
  isShown: boolean;
  written: (name: string) => void;
}) {
  const [paper, setPaper] = useState<Paper>();
  const [busy, setBusy] = useState<string>();
  const write = async (name: string, ask: (client: Language['client']) => Promise<Paper | null>) => {
    if (!language) return;
    setBusy(name);
    language.client.sync();
    const answer = await ask(language.client).catch(
      (error: unknown): Paper => ({ ...NO_PAPER, problems: [String(error)] }),
    );
    if (answer?.text) written(name);
    setPaper(answer ?? { ...NO_PAPER, problems: ['Nothing could be written: see the findings.'] });
    setBusy(undefined);
  };
  const report = () =>
    write('report', async client => {
      const text = await client.request<object, string | null>(REPORT, { uri: FOLDER });
      return text === null ? null : { name: 'report.html', mediaType: 'text/html', text, problems: [] };
    });
  const other = (kind: PaperKind) =>
    write(kind, client => client.request<PaperParams, Paper | null>(PAPER, { uri: FOLDER, kind }));
  return html`<section class="papers" hidden=${!isShown} aria-label="Papers" aria-busy=${busy !== undefined}>
    <h2>Papers</h2>
    <p>Each is made from the text as it is now. The person on site decides, not a document.</p>
    <p class="choices">
      <button disabled=${busy !== undefined} onClick=${() => void report()}>Report</button>
      ${PAPERS.map(
        ([kind, name]) =>
          html`<button disabled=${busy !== undefined} onClick=${() => void other(kind)}>${name}</button>`,
      )}
    </p>
    ${busy === undefined ? null : html`<p role="status">Writing…</p>`}
    ${paper?.problems.map(problem => html`<p class="notice" role="alert">${problem}</p>`)}
    ${
      paper?.text
        ? html`<p>
            <button onClick=${() => save(paper.name, paper.text, paper.mediaType)}>Save ${paper.name}</button>
          </p>
          ${
            paper.mediaType === 'text/html'
              ? html`<iframe title="Report" sandbox="" srcdoc=${paper.text}></iframe>`
              : html`<pre tabindex="0">${paper.text.slice(0, MOST_SHOWN)}</pre>
                ${paper.text.length > MOST_SHOWN ? html`<p>The rest is in the file.</p>` : null}`
          }`
        : paper && paper.problems.length === 0
          ? html`<p>Nothing to write: no tree here has anything that belongs in this document.</p>`
          : null
    }
  </section>`;
}

/** Longer texts are cut on the page, and whole in the file. */
const MOST_SHOWN = 100_000;
const NO_PAPER: Paper = { name: '', mediaType: 'text/plain', text: '', problems: [] };

/** Hands a file to the person, as browsers do. */
export function save(name: string, content: BlobPart, type: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([content], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
