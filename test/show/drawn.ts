/** What can be read back from a picture: its texts with their boxes, and which of them overlap. */

import { textWidth } from '../../server/show/drawing/svg.ts';

export interface TextBox {
  readonly text: string;
  readonly size: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const TEXT =
  /<text x="([-\d.]+)" y="([-\d.]+)" class="[^"]*" font-size="([\d.]+)" text-anchor="(\w+)">([^<]*)<\/text>/g;

const plain = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&');

export const textsOf = (svg: string): readonly TextBox[] =>
  [...svg.matchAll(TEXT)].map(([, x, y, size, anchor, escaped]) => {
    const text = plain(escaped!);
    const wide = textWidth(text, Number(size));
    const left = Number(x) - (anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0);
    // From the height of capitals to the baseline.
    return {
      text,
      size: Number(size),
      left,
      right: left + wide,
      top: Number(y) - 0.72 * Number(size),
      bottom: Number(y),
    };
  });

const overlap = (a: TextBox, b: TextBox): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** What a reader could not read: texts upon each other, out of the picture, or too small. */
export function illegible(svg: string): readonly string[] {
  const [, width, height] = / viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!;
  const texts = textsOf(svg);
  // The narrowest phone shows a picture 270 px wide.
  const shrunk = Math.min(1, 270 / Number(width));
  return [
    ...texts.flatMap((one, i) =>
      texts.slice(i + 1).flatMap(other => (overlap(one, other) ? [`"${one.text}" on "${other.text}"`] : [])),
    ),
    ...texts
      .filter(
        ({ left, right, top, bottom }) =>
          left < 0 || top < 0 || right > Number(width) || bottom > Number(height),
      )
      .map(({ text }) => `"${text}" out of the picture`),
    ...(Number(width) <= 320
      ? texts.filter(({ size }) => size * shrunk < 9).map(({ text }) => `"${text}" too small`)
      : []),
    ...(/NaN|undefined|Infinity/.test(svg) ? ['a number that is none'] : []),
  ];
}
