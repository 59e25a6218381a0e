/** The words of a picture stand out from what they lie on, in light and in dark (WCAG 2.2, 1.4.3). */

import { expect, test } from 'vitest';
import { picture } from '../../server/show/drawing/svg.ts';

const svg = picture({ width: 1, height: 1, title: '', description: '' }, []);
const [light, dark] = /<style>([\s\S]*?)@media\(prefers-color-scheme:dark\)\{([\s\S]*)\}<\/style>/
  .exec(svg)!
  .slice(1) as [string, string];
const fillOf = (name: string, rules: string): string =>
  new RegExp(`\\.${name}\\{fill:(#[0-9a-f]{6})`).exec(rules)![1]!;

function luminance(color: string): number {
  const [red, green, blue] = [1, 3, 5].map(at => {
    const share = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}
const contrast = (one: string, other: string): number => {
  const [bright, dim] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (bright + 0.05) / (dim + 0.05);
};

test.each([
  ['light', light],
  ['dark', dark],
])('%s', (_, rules) => {
  for (const under of ['paper', 'leaf', 'wood', 'void']) {
    expect(contrast(fillOf('text', rules), fillOf(under, rules)), under).toBeGreaterThan(4.5);
    expect(contrast(fillOf('solid', rules), fillOf(under, rules)), under).toBeGreaterThan(3);
  }
  expect(contrast(fillOf('marktext', rules), fillOf('paper', rules))).toBeGreaterThan(4.5);
});
