/** What the pictures share: escaping, numbers, styles. */

import { readRanges } from '../in-region.ts';
import { sanitizeForPage } from '../sanitize.ts';

/** Escapes text for SVG and HTML. Characters that XML forbids become U+FFFD. */
const escapeText = (text: string): string =>
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

/** Widths of letters as shares of the text size, rather too wide than too narrow: fonts differ. */
const NARROW = 0.38;
const WIDE = 0.96;
const CAPITAL = 0.71;
const USUAL = 0.62;

/** Width of a text, px, for laying out; the font is the reader's own. */
export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const letter of text)
    width += /[iljtfrI.,:;'|()!\- ]/.test(letter)
      ? NARROW
      : /[mwMW%@—…]/.test(letter) || letter > '\u2e80'
        ? WIDE
        : /[A-Z]/.test(letter)
          ? CAPITAL
          : USUAL;
  return width * size;
}

/** Sizes of text in a picture 320 wide: at least 9 px where a phone shows it 270 px wide. */
export const TEXT = { title: 14, name: 12, small: 11 } as const;

/** Text cut with an ellipsis where it does not fit; the description has the whole of it. */
export function fitted(text: string, width: number, size: number): string {
  if (textWidth(text, size) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && textWidth(`${letters.join('').trimEnd()}…`, size) > width) letters.pop();
  return `${letters.join('').trimEnd()}…`;
}

/** Lines of a text that fit a width; a word that does not is cut. */
export function wrapped(text: string, width: number, size: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line].map(one => fitted(one, width, size));
}

/**
 * Colors for light, dark and print. Nothing depends on telling colors apart: what differs is hatched, outlined or broken
 * in another way, and named.
 */
const LOOK = `
.paper{fill:#fbf8f1}.ink{stroke:#2b2620;fill:none}.solid{fill:#2b2620}.wood{fill:#d9b98a}.ring{stroke:#a9814a;fill:none}
.void{fill:#fbf8f1;stroke:#2b2620}.bark{fill:#6d5a44}.mark{stroke:#a3231f;fill:none}.marktext{fill:#8a1b18}.text{fill:#2b2620}
.leaf{fill:#c9d8b0;stroke:#4c6130}.bare{fill:#e2dbcd;stroke:#6d5a44}.cut{fill:#fbf8f1;stroke:#6d5a44}.after{fill:none;stroke:#2b2620}.soil{stroke:#6d5a44;fill:none}
text{font-family:ui-sans-serif,system-ui,sans-serif}.apart{paint-order:stroke;stroke:#fbf8f1;stroke-width:4px;stroke-linejoin:round}
@media(prefers-color-scheme:dark){.paper{fill:#1f1d1a}.apart{stroke:#1f1d1a}.ink{stroke:#ece5d8}.solid{fill:#ece5d8}.wood{fill:#7d5f36}.ring{stroke:#b98f55}
.void{fill:#1f1d1a;stroke:#ece5d8}.bark{fill:#a08a6c}.mark{stroke:#ff9a8f}.marktext{fill:#ffb3aa}.text{fill:#ece5d8}
.leaf{fill:#4a5a36;stroke:#b7cc97}.bare{fill:#3a352e;stroke:#a08a6c}.cut{fill:#1f1d1a;stroke:#a08a6c}.after{stroke:#ece5d8}.soil{stroke:#a08a6c}}`;

/** Hatches: of wood in doubt, of what was not measured, and of what comes down. */
const HATCHES = {
  doubt: '<path class="ink" stroke-width="1" d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5"/>',
  unmeasured: '<path class="ink" stroke-width="0.7" d="M0 0L6 6M0 6L6 0"/>',
  down: '<path class="ink" stroke-width="1.3" d="M-1 -1L7 7M-1 5L1 7M5 -1L7 1"/>',
} as const;
export type Hatch = keyof typeof HATCHES;

/** Definitions of the hatches that a picture uses. */
export const hatches = (...names: readonly Hatch[]): string =>
  names.length === 0
    ? ''
    : `<defs>${names
        .map(
          name =>
            `<pattern id="${name}" width="6" height="6" patternUnits="userSpaceOnUse">${HATCHES[name]}</pattern>`,
        )
        .join('')}</defs>`;

export const hatched = (name: Hatch): string => `fill="url(#${name})"`;

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
  `<text x="${n(x)}" y="${n(y)}" class="${options.mark ? 'marktext' : 'text'}${options.apart ? ' apart' : ''}" font-size="${options.size ?? 12}" text-anchor="${options.anchor ?? 'start'}">${escapeText(readRanges(text))}</text>`;
