/** Adapts pictures and pages to the editor's theme; by themselves they follow the system. */

import * as vscode from 'vscode';
import type { HoverMiddleware } from 'vscode-languageclient';

const isDark = (): boolean =>
  [vscode.ColorThemeKind.Dark, vscode.ColorThemeKind.HighContrast].includes(
    vscode.window.activeColorTheme.kind,
  );

/** SVG data URIs in Markdown; text of the inventory cannot match, because its brackets are escaped. */
const PICTURE = /(?<=(?<!\\)\]\(data:image\/svg\+xml;base64,)[\w+/=]+/g;

const inTheme = (markdown: string): string =>
  markdown.replace(PICTURE, data =>
    btoa(
      atob(data).replaceAll('@media(prefers-color-scheme:dark)', isDark() ? '@media all' : '@media not all'),
    ),
  );

/** Photographs, which are far larger than a hover; the text after the address is the editor's own notation. */
const PHOTOGRAPH = /(?<=(?<!\\)!\[Photograph\]\((?:file|vscode-\w+):[^\s()|]+)(?=\))/g;
const inSize = (markdown: string): string => markdown.replace(PHOTOGRAPH, '|width=240');

export const provideHover: NonNullable<HoverMiddleware['provideHover']> = async (
  document,
  position,
  token,
  next,
) => {
  const hover = await next(document, position, token);
  for (const content of hover?.contents ?? [])
    if (content instanceof vscode.MarkdownString) content.value = inSize(inTheme(content.value));
  return hover;
};

/** The page in the editor's theme, for display only; the saved page follows the system. */
export const pageInTheme = (page: string): string =>
  page.replace('<html ', `<html data-paper="${isDark() ? 'dark' : 'light'}" `);
