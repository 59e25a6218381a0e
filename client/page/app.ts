/** The page: the files, the text, and what is found in it. */

import { LSPPlugin } from '@codemirror/lsp-client';
import type { EditorView } from '@codemirror/view';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { CodeAction, WorkspaceDiagnosticReport } from 'vscode-languageserver-protocol';
import { type DayParams, PAGE } from '../../server/lsp/requests.ts';
import { later } from './ask.ts';
import { type Checked, type ToldCounts, totalOf } from './counts.ts';
import { Dialog } from './dialog.ts';
import { editorOf } from './editor.ts';
import type { FileFindings } from './findings.ts';
import { html } from './html.ts';
import { type Language, startLanguage } from './language.ts';
import { LEARN_CLOSED, Learn, type LearnStep, SAMPLE, useLearned } from './learn.ts';
import { htmlOf } from './markdown.ts';
import { NextWords } from './next-words.ts';
import { Notices } from './notices.ts';
import type { Opened } from './opened.ts';
import { pathOf, uriOf } from './opened.ts';
import { FindingsPanel, OutputPanel, TreePanel } from './panels.ts';
import { reasonOf } from './place.ts';
import { PlacesMenu } from './places-menu.ts';
import { SymbolList } from './symbol-list.ts';

/** One column: the text and the panels take turns (page.css). */
const NARROW = '(max-width: 60em)';

/** How long after a change the files are asked about that are not shown, in ms. */
const OTHERS_AFTER = 1_000;

const PANELS = ['text', 'findings', 'tree', 'papers'] as const;
type Panel = (typeof PANELS)[number];

/** Where each step is done. */
const PANEL_OF: Record<LearnStep, Panel> = {
  findings: 'findings',
  fix: 'findings',
  preview: 'tree',
  report: 'papers',
};

const PANEL_NAMES: Record<Panel, string> = {
  text: 'Text',
  findings: 'Findings',
  tree: 'Tree',
  papers: 'Papers',
};

export function App({
  opened,
  choose,
  complaint,
  dismiss,
  newer,
}: {
  opened: Opened;
  choose: (next: Promise<Opened>) => void;
  /** What went wrong with what was asked for last. */
  complaint: string | undefined;
  dismiss: () => void;
  /** Loads the newer version of the page that waits. */
  newer: (() => void) | undefined;
}) {
  const [, redraw] = useState(0);
  const [wanted, setPath] = useState(opened.paths[0]);
  const path = wanted !== undefined && opened.text(wanted) !== undefined ? wanted : opened.paths[0];
  const [panel, setPanel] = useState<Panel>('text');
  const [line, setLine] = useState(0);
  const [found, setFound] = useState<Checked>(new Map());
  const [told, setTold] = useState<ToldCounts>(new Map());
  const [day, setDay] = useState<DayParams>();
  const [offered, setOffered] = useState<readonly CodeAction[]>();
  const [language, setLanguage] = useState<Language>();
  const [epoch, setEpoch] = useState(0);
  const [rulePage, setRulePage] = useState<{ readonly rule: string; readonly words: string }>();
  const [isListing, setListing] = useState(false);
  const [learned, did] = useLearned();
  const [lost, setLost] = useState<string>();
  const holder = useRef<HTMLDivElement>(null);
  const view = useRef<EditorView>(undefined);
  const shower = useRef<(path: string) => Promise<EditorView | null>>(async () => null);

  useEffect(() => {
    const started = startLanguage(opened, {
      day: setDay,
      counted: ({ uri, counts }) =>
        setTold(before => {
          const after = new Map(before);
          if (counts) after.set(pathOf(uri), counts);
          else after.delete(pathOf(uri));
          return after;
        }),
      show: to => shower.current(to),
    });
    setLanguage(started);
    let wasElsewhere = opened.state.isElsewhere;
    const end = opened.heed(() => {
      const { isElsewhere } = opened.state;
      // The tab that writes from now on shows what is there.
      if (isElsewhere !== wasElsewhere) setEpoch(number => number + 1);
      wasElsewhere = isElsewhere;
      redraw(number => number + 1);
    });
    return () => {
      end();
      started.end();
    };
  }, [opened]);

  useEffect(() => {
    if (!language || path === undefined || !holder.current) return;
    const editor = editorOf(
      holder.current,
      language,
      { path, text: opened.text(path) ?? '', readOnly: !opened.mayWrite },
      {
        changed: text => opened.change(path, text),
        moved: setLine,
        found: ({ uri, findings }: FileFindings) =>
          setFound(before => new Map(before).set(pathOf(uri), findings)),
        offered: setOffered,
        hovered: () => did('findings'),
      },
    );
    view.current = editor;
    if (!matchMedia(NARROW).matches) editor.focus();
    return () => {
      editor.destroy();
      view.current = undefined;
    };
  }, [language, path, epoch]);

  // The other files of the inventory, whenever something changed that bears on them.
  useEffect(() => {
    if (!language) return;
    const ask = async () => {
      await language.client.initializing;
      const report = await language.client
        .request<object, WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds: [] })
        .catch(() => undefined);
      const shown = view.current && LSPPlugin.get(view.current)?.uri;
      setFound(before => {
        const after = new Map(before);
        // Where there is no answer, nothing is known of the files that are not shown.
        if (!report) for (const path of opened.paths) if (uriOf(path) !== shown) after.set(path, undefined);
        for (const one of report?.items ?? [])
          if (one.kind === 'full' && one.uri !== shown) after.set(pathOf(one.uri), one.items);
        return after;
      });
    };
    const asking = later(() => void ask(), OTHERS_AFTER);
    asking.soon();
    const end = language.onRefresh(asking.soon);
    return () => {
      asking.end();
      end();
    };
  }, [language]);

  useEffect(() => {
    const warn = (event: BeforeUnloadEvent) => {
      void opened.save();
      if (!opened.isSafe) event.preventDefault();
    };
    // Other programs write while the page is out of sight.
    const turn = () => {
      if (document.hidden) void opened.save();
      else opened.lookAgain().catch(error => setLost(reasonOf(error)));
    };
    addEventListener('beforeunload', warn);
    addEventListener('focus', turn);
    document.addEventListener('visibilitychange', turn);
    return () => {
      removeEventListener('beforeunload', warn);
      removeEventListener('focus', turn);
      document.removeEventListener('visibilitychange', turn);
    };
  }, [opened]);

  /** Shows a file; resolves when its editor is there. */
  const show = (to: string): Promise<EditorView | null> => {
    setPath(to);
    if (matchMedia(NARROW).matches) setPanel('text');
    return new Promise(resolve => setTimeout(() => resolve(view.current ?? null)));
  };
  shower.current = show;
  const goTo = async (to: string, at: number) => {
    const editor = await show(to);
    if (!editor) return;
    did('findings');
    const { from } = editor.state.doc.line(Math.min(at + 1, editor.state.doc.lines));
    editor.dispatch({ selection: { anchor: from }, scrollIntoView: true });
    editor.focus();
  };

  const apply = (action: CodeAction) => {
    setOffered(undefined);
    if (action.edit) {
      language?.workspace.applyEdit(action.edit);
      did('fix');
    }
    // Behind the dialog, which is gone a moment later. On a phone it would open the keyboard.
    if (!matchMedia(NARROW).matches) setTimeout(() => view.current?.focus());
  };

  const explain = async (rule: string) => {
    const words = await language?.client
      .request<object, string | null>(PAGE, { name: rule })
      .catch(() => null);
    if (words) setRulePage({ rule, words });
  };

  const { trouble, isElsewhere, unsaved } = opened.state;
  const { paths } = opened;
  const total = totalOf(paths, found, told);
  const isBeside = panel === 'tree' || panel === 'papers';
  // Long lists are not looked through again with every key.
  const findings = useMemo(
    () => html`<${FindingsPanel}
      found=${found}
      told=${told}
      total=${total}
      paths=${paths}
      goTo=${goTo}
      offer=${setOffered}
      view=${view}
      current=${path}
      apply=${apply}
      explain=${explain}
      hidden=${isBeside}
    />`,
    [found, told, paths.join('\n'), path, language, isBeside],
  );
  return html`
    <header>
      <h1>Soundwood</h1>
      <${PlacesMenu} opened=${opened} choose=${choose} path=${path} setPath=${setPath} />
      <p class="saved" role="status">
        ${trouble ?? (isElsewhere ? 'Shown only' : unsaved.length > 0 ? 'Keeping…' : opened.place.keeps ? 'Kept on this device' : 'Not kept')}
        ${day ? ` · checked as of ${day.day}` : ''}
      </p>
    </header>
    <${Notices} opened=${opened} day=${day} complaint=${complaint ?? lost} dismiss=${complaint ? dismiss : () => setLost(undefined)} newer=${newer}>
      ${
        opened.place.name === SAMPLE
          ? html`<${Learn}
              done=${learned}
              go=${(step: LearnStep) => setPanel(PANEL_OF[step])}
              close=${() => did(LEARN_CLOSED)}
            />`
          : null
      }
    <//>
    <main data-panel=${panel}>
      <section class="text" aria-label="Text">
        ${
          path === undefined
            ? html`<p class="nothing">There is no file in this inventory. Add one, or open another inventory, in the menu at the top.</p>`
            : null
        }
        <div class="editor" ref=${holder}></div>
        ${
          language && path !== undefined
            ? html`<${NextWords} view=${view} language=${language} line=${line} opened=${opened} path=${path} openList=${() => setListing(true)} />`
            : null
        }
      </section>
      <nav aria-label="Parts of the page">
        ${PANELS.map(
          one => html`<button data-panel=${one} aria-pressed=${panel === one} onClick=${() => setPanel(one)}>
            ${PANEL_NAMES[one]}${one === 'findings' ? html` <span class="count">${total ? total.errors + total.warnings : '…'}</span>` : null}
          </button>`,
        )}
      </nav>
      <section class="side">
        ${findings}
        <${TreePanel}
          language=${language}
          path=${path}
          line=${line}
          found=${found}
          goTo=${goTo}
          isShown=${panel === 'tree'}
          seen=${() => did('preview')}
        />
        <${OutputPanel}
          language=${language}
          isShown=${panel === 'papers'}
          written=${(name: string) => name === 'report' && did('report')}
        />
      </section>
    </main>
    ${
      offered
        ? html`<${Dialog} title="Quick fixes" close=${() => setOffered(undefined)}>
          ${
            offered.length === 0
              ? html`<p>No automatic fix: the finding says what to check.</p>`
              : offered.map(one => html`<button onClick=${() => apply(one)}>${one.title}</button>`)
          }
        <//>`
        : null
    }
    ${
      isListing && language
        ? html`<${SymbolList} language=${language} goTo=${goTo} close=${() => setListing(false)} />`
        : null
    }
    ${
      rulePage
        ? html`<${Dialog} title=${`Rule ${rulePage.rule}`} close=${() => setRulePage(undefined)}>
          <div class="words" dangerouslySetInnerHTML=${{ __html: htmlOf(rulePage.words) }}></div>
        <//>`
        : null
    }
  `;
}
