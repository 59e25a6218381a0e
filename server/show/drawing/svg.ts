/** What the pictures share: escaping, numbers, styles. */

import { sanitizeForPage } from '../sanitize.ts';

/** Escapes text for SVG and HTML. Characters that XML forbids become U+FFFD. */
export const escapeText = (text: string): string =>
  sanitizeForPage(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');

/** A coordinate, short. */
export const n = (value: number): string => String(Number(value.toFixed(1)));

export const pathOf = (points: readonly (readonly [number, number])[]): string =>
  points.length === 0 ? '' : `M${points.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}Z`;

/**
 * Colors for light and dark. Nothing depends on telling colors apart: wood is hatched, voids are blank with a heavy
 * edge, and parts are labeled.
 */
const LOOK = `
.paper{fill:#fbf8f1}.ink{stroke:#2b2620;fill:none}.solid{fill:#2b2620}.wood{fill:#d9b98a}.ring{stroke:#a9814a;fill:none}
.void{fill:#fbf8f1;stroke:#2b2620}.bark{fill:#6d5a44}.mark{stroke:#a3231f;fill:none}.marktext{fill:#8a1b18}.text{fill:#2b2620}
.leaf{fill:#c9d8b0;stroke:#4c6130}.bare{fill:#e2dbcd;stroke:#6d5a44}.cut{fill:#fbf8f1;stroke:#6d5a44}.after{fill:none;stroke:#2b2620}.soil{stroke:#6d5a44}
text{font-family:ui-sans-serif,system-ui,sans-serif}.apart{paint-order:stroke;stroke:#fbf8f1;stroke-width:4px;stroke-linejoin:round}
@media(prefers-color-scheme:dark){.paper{fill:#1f1d1a}.apart{stroke:#1f1d1a}.ink{stroke:#ece5d8}.solid{fill:#ece5d8}.wood{fill:#7d5f36}.ring{stroke:#b98f55}
.void{fill:#1f1d1a;stroke:#ece5d8}.bark{fill:#a08a6c}.mark{stroke:#ff9a8f}.marktext{fill:#ffb3aa}.text{fill:#ece5d8}
.leaf{fill:#4a5a36;stroke:#b7cc97}.bare{fill:#3a352e;stroke:#a08a6c}.cut{fill:#1f1d1a;stroke:#a08a6c}.after{stroke:#ece5d8}.soil{stroke:#a08a6c}}`;

export interface PictureFrame {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
}

/** A complete SVG with title and description for screen readers. */
export function picture(
  { width, height, title, description }: PictureFrame,
  content: readonly string[],
): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}">`,
    `<title>${escapeText(title)}</title><desc>${escapeText(description)}</desc><style>${LOOK}</style>`,
    `<rect class="paper" width="${width}" height="${height}" rx="6"/>`,
    ...content,
    '</svg>',
  ].join('');
}

/** The first and last y of what is drawn, without the title above and the captions below. */
export type Drawn = readonly [number, number];

/**
 * A picture without its title and captions, for a place that gives both in words.
 * @param svg from `picture`
 * @param high px
 */
export const drawnAlone = (svg: string, [top, bottom]: Drawn, high: number): string =>
  svg.replace(
    / viewBox="0 0 ([\d.]+) [\d.]+" width="[\d.]+" height="[\d.]+">/,
    (_, width) =>
      ` viewBox="0 ${top} ${width} ${bottom - top}" width="${n((Number(width) * high) / (bottom - top))}" height="${high}">`,
  );

/** A rectangle of a picture, in its units. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const label = (
  x: number,
  y: number,
  text: string,
  options: {
    anchor?: 'start' | 'middle' | 'end';
    mark?: boolean;
    size?: number;
    /** With a halo, for text on top of lines. */
    apart?: boolean;
  } = {},
): string =>
  `<text x="${n(x)}" y="${n(y)}" class="${options.mark ? 'marktext' : 'text'}${options.apart ? ' apart' : ''}" font-size="${options.size ?? 12}" text-anchor="${options.anchor ?? 'start'}">${escapeText(text)}</text>`;
