/**
 * Templates that escape by default: interpolated strings become text or attribute values, never markup, and are
 * sanitized.
 */

import htm from 'htm';
import { type ComponentChild, type ComponentChildren, h, type VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { svgUri } from '../base/data-uri.ts';
import type { Picture } from '../show/drawing/pictures.ts';
import { sanitizeForPage } from '../show/sanitize.ts';

export type Markup = VNode;
export type MarkupContent = ComponentChildren;

const clean = (child: unknown): unknown =>
  typeof child === 'string' ? sanitizeForPage(child) : Array.isArray(child) ? child.map(clean) : child;

/** A date, with the dots after it if it begins a range. */
const DAY = /(\d{4}-\d{2}-\d{2}(?:\.\.)?)/;

/** Lines may break between the two dates of a range, but not within a date. */
const withDays = (child: unknown): unknown => {
  if (Array.isArray(child)) return child.map(withDays);
  if (typeof child !== 'string' || !DAY.test(child)) return child;
  return child
    .split(DAY)
    .map((piece, i) =>
      i % 2 === 0 ? piece : [h('span', { class: 'day' }, piece), piece.endsWith('.') && h('wbr', null)],
    );
};

function make(
  type: unknown,
  props: Readonly<Record<string, unknown>> | null,
  ...children: unknown[]
): Markup {
  const safe =
    props && Object.fromEntries(Object.entries(props).map(([name, value]) => [name, clean(value)]));
  const texts = children.map(clean);
  // A title can contain only text.
  return h(type as string, safe, ...((type === 'title' ? texts : texts.map(withDays)) as ComponentChild[]));
}

/** A template with one root element. */
export const html = htm.bind(make) as (
  strings: TemplateStringsArray,
  ...values: readonly unknown[]
) => Markup;

export const render = (markup: Markup): string => renderToString(markup);

/** A style sheet or script with trusted content. */
export const constant = (type: 'style' | 'script', content: string): Markup =>
  h(type as string, { dangerouslySetInnerHTML: { __html: content } });

/** A part of a drawing within an `svg` of the page, with trusted content. */
export const drawn = (svg: string): Markup => h('g' as string, { dangerouslySetInnerHTML: { __html: svg } });

/** The picture as an image: nothing in it can run, and its identifiers and styles stay its own. */
export const imageOf = ({ svg, description }: Picture): Markup =>
  html`<img alt=${description} src=${svgUri(svg)} />`;
