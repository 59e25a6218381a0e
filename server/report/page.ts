/** The complete report: one file without external resources. */

import { sanitizeForPage } from '../show/sanitize.ts';
import { clientPart } from './client.ts';
import { commonSpeech, crewPart } from './crew.ts';
import type { Reader, ReportData } from './data.ts';
import { constant, html, type Markup, render } from './html.ts';
import { speechIn } from './languages/language.ts';
import { officePart } from './office.ts';
import { groupBySite, notRead, regionOf } from './parts.ts';
import { SCRIPT } from './script.ts';
import { STYLE } from './style.ts';
import { hasYears, YEARS, yearsPart } from './years.ts';

const PARTS: Readonly<
  Record<Reader, { readonly title: string; readonly show: (data: ReportData) => Markup }>
> = {
  client: { title: 'For the client', show: clientPart },
  crew: { title: 'For the crew', show: crewPart },
  office: { title: 'For the office', show: officePart },
};

/** The hash source of an inline style sheet or script (CSP Level 3). */
export async function hashOf(content: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(content));
  return `'sha256-${btoa(String.fromCharCode(...new Uint8Array(digest)))}'`;
}

/** A string of CSS; every character that could end it is escaped. */
const cssText = (text: string): string =>
  `"${text.replaceAll(/[^ ,.\p{L}\p{N}]/gu, mark => `\\${mark.codePointAt(0)!.toString(16)} `)}"`;

/** The style sheet with the paper of the place. */
const paperOf = ({ trees: [first] }: ReportData): string =>
  /^(US|CA|MX)\b/.test(first?.settings.region.code ?? '')
    ? STYLE.replaceAll('size:A4', 'size:letter')
    : STYLE;

const PAGE_OF = '"Page " counter(page) " of " counter(pages)';

/** The complete HTML page. */
export async function showReport(data: ReportData): Promise<string> {
  const places = groupBySite(data.trees);
  const names = places.map(({ name }) => name).join(', ');
  // A page for the crew alone is all in its language.
  const isForCrew = data.readers.every(reader => reader === 'crew');
  const speech = isForCrew ? commonSpeech(data) : speechIn('en', regionOf(data));
  const { say } = speech;
  const day = speech.date(data.on);
  const pageOf = `"${say('page')} " counter(page) " ${say('of pages')} " counter(pages)`;
  const style = `${paperOf(data).replace(PAGE_OF, pageOf)}:root{--running:${cssText(sanitizeForPage(`${names === '' ? 'Trees' : names}, ${day}`))}}`;
  const parts = data.readers.map(reader => ({ id: reader as string, ...PARTS[reader] }));
  // Behind the chapters of the client, or behind what the office has.
  if (hasYears(data) && data.readers.some(reader => reader !== 'crew'))
    parts.splice(1, 0, {
      id: YEARS,
      title: 'Over the years',
      show: yearsPart,
    });
  const [styleHash, scriptHash] = await Promise.all([hashOf(style), hashOf(SCRIPT)]);
  const policy = `default-src 'none'; style-src ${styleHash}; script-src ${scriptHash}; img-src data:; base-uri 'none'; form-action 'none'`;
  const clients = [...new Set(places.flatMap(({ site }) => site?.client?.value ?? []))];
  const head = say('as', { date: day });
  const page = html`<html lang=${speech.code}>
    <head>
      <meta charset="utf-8" />
      <meta http-equiv="Content-Security-Policy" content=${policy} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="referrer" content="no-referrer" />
      <title>${names === '' ? head : `${names}: ${head}`}</title>
      ${constant('style', style)}
    </head>
    <body>
      <a class="skip" href="#content">${say('skip')}</a>
      <header>
        <h1>${names === '' ? 'Trees' : names}</h1>
        <p class="lead">${[head, ...(clients.length > 0 ? [say('for clients', { clients: speech.listed(clients) })] : [])].join(', ')}</p>
        ${data.index !== undefined && html`<nav aria-label="Areas"><ul><li><a href=${data.index}>All areas</a></li></ul></nav>`}
        ${
          parts.length > 1 &&
          html`<nav aria-label="Parts"><ul>${parts.map(({ id, title }) => html`<li><a href=${`#${id}`}>${title}</a></li>`)}</ul></nav>`
        }
      </header>
      <main id="content">
        ${notRead(data.unread)}
        ${parts.map(({ show }) => show(data))}
      </main>
      <footer><p>${say('foot')}</p></footer>
      ${constant('script', SCRIPT)}
    </body>
  </html>`;
  return `<!DOCTYPE html>\n${render(page)}\n`;
}
