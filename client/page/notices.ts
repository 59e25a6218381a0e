/** What a person has to know of the inventory that is open, above all else. */

import type { ComponentChildren } from 'preact';
import type { DayParams } from '../../server/lsp/requests.ts';
import { html } from './html.ts';
import type { Opened } from './opened.ts';
import { save } from './panels.ts';

export function Notices({
  opened,
  day,
  complaint,
  dismiss,
  newer,
  children,
}: {
  opened: Opened;
  day: DayParams | undefined;
  complaint: string | undefined;
  dismiss: () => void;
  newer: (() => void) | undefined;
  children: ComponentChildren;
}) {
  const { trouble, isElsewhere, conflicts, refused, removed } = opened.state;
  const load = async () => {
    await opened.save();
    newer?.();
  };
  return html`<div class="notices">
    ${
      complaint
        ? html`<p class="notice" role="alert">${complaint} <button onClick=${dismiss}>Close</button></p>`
        : null
    }
    ${
      opened.place.keeps
        ? null
        : html`<p class="notice" role="alert">This browser does not store anything, as in some private windows: download
          the inventory as a ZIP before you close the page.</p>`
    }
    ${
      isElsewhere
        ? html`<p class="notice" role="alert">This inventory is being edited in another tab.
          <button onClick=${() => void opened.own(true)}>Edit here instead</button></p>`
        : null
    }
    ${trouble ? html`<p class="notice" role="alert">Not saved: ${trouble}</p>` : null}
    ${
      isElsewhere
        ? null
        : conflicts.map(
            path => html`<p class="notice" role="alert">
              ${path} was changed both here and by another program. Neither version is lost until you choose.
              <button onClick=${() => void opened.keepMine(path)}>Keep this version</button>
              <button onClick=${() => opened.takeTheirs(path)}>Use the other version</button>
              <button onClick=${() => save(path.replace(/^.*\//, ''), opened.raw(path), 'text/plain')}>
                Save this version as a file
              </button>
            </p>`,
          )
    }
    ${refused.map(
      why => html`<p class="notice" role="alert">Not shown, not checked and left unchanged: ${why}</p>`,
    )}
    ${removed.map(
      path => html`<p class="notice" role="status">
        ${path} was deleted. <button onClick=${() => opened.bringBack(path)}>Restore it</button>
      </p>`,
    )}
    ${day?.mistake ? html`<p class="notice">${day.mistake}</p>` : null}
    ${
      newer
        ? html`<p class="notice" role="status">A newer version of this page is available.
          <button onClick=${() => void load()}>Load it</button></p>`
        : null
    }
    ${children}
  </div>`;
}
