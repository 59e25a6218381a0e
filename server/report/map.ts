/** The map beside the inventory: each tree with a position, linked with its row. */

import { unitOf } from '../base/quantity.ts';
import { scaleBarAt } from '../show/drawing/sheet.ts';
import { n } from '../show/drawing/svg.ts';
import type { ReportData, ReportTree } from './data.ts';
import { drawn, html, type Markup } from './html.ts';
import { groupBySite } from './parts.ts';
import { isImperial, LEGEND, type Marked, markedAs, markOf, type PlanTree, planTrees } from './plan.ts';

/** Units of the drawing; a phone shows it three quarters as large. */
const WIDTH = 400;
const MARGIN = 16;
const HEIGHT = { least: 120, most: 400 };
/** Of what can be tapped. */
const REACH = 9;

/** A map of each site, in the order of the table. @param rowOf identifier of the row of a tree */
export function mapsOf(data: ReportData, rowOf: (entry: ReportTree) => string): Markup | false {
  const sites = groupBySite(data.trees)
    .map(({ name, trees }) => ({ name, trees, spots: planTrees(trees) }))
    .filter(({ spots }) => spots.length > 0);
  if (sites.length === 0) return false;
  const shown = new Set(sites.flatMap(({ spots }) => spots.map(markedAs)));
  const legend = (Object.entries(LEGEND) as [Marked, string][]).filter(([what]) => shown.has(what));
  const without = data.trees.filter(({ tree }) => !tree.position).map(({ tree }) => tree.tag.value);
  return html`<div>
    <div class="maps">${sites.map(({ name, trees, spots }) => mapOf(name, trees, spots, rowOf))}</div>
    <p class="key">${legend.map(
      ([what, words]) =>
        html`<span><svg class="map" aria-hidden="true" viewBox="0 0 16 16" width="16" height="16">${drawn(markOf(what, 8, 8))}</svg> ${words}</span>`,
    )}</p>
    ${without.length > 0 && html`<p class="quiet">Without a position: ${without.join(', ')}.</p>`}
  </div>`;
}

const endsOf = (values: readonly number[]) =>
  values.reduce((ends, value) => ({ least: Math.min(ends.least, value), most: Math.max(ends.most, value) }), {
    least: Number.POSITIVE_INFINITY,
    most: Number.NEGATIVE_INFINITY,
  });

function mapOf(
  name: string,
  trees: readonly ReportTree[],
  spots: readonly PlanTree[],
  rowOf: (entry: ReportTree) => string,
): Markup {
  const across = endsOf(spots.map(({ east }) => east));
  const along = endsOf(spots.map(({ north }) => north));
  const scale = Math.min(
    (WIDTH - 2 * MARGIN) / Math.max(10, across.most - across.least),
    (HEIGHT.most - 4 * MARGIN) / Math.max(10, along.most - along.least),
  );
  const height = Math.max(HEIGHT.least, (along.most - along.least) * scale + 4 * MARGIN);
  const spot = (one: PlanTree) => {
    const { of, tag, east, north } = one;
    const x = WIDTH / 2 + (east - (across.least + across.most) / 2) * scale;
    const y = (height - 2 * MARGIN) / 2 + MARGIN / 2 - (north - (along.least + along.most) / 2) * scale;
    const what = markedAs(one);
    const words = `${[tag, of.tree.name?.value].filter(Boolean).join(', ')}: ${LEGEND[what]}`;
    return html`<a class="spot" href=${`#${rowOf(of)}`} aria-label=${words}>
      <title>${words}</title>
      <circle class="reach" cx=${n(x)} cy=${n(y)} r=${REACH} />
      ${drawn(markOf(what, x, y))}
    </a>`;
  };
  const unit = unitOf(isImperial(trees) ? 'ft' : 'm')!;
  return html`<figure>
    <figcaption>${name}, north up</figcaption>
    <svg class="map" role="group" aria-label=${`Map of ${name}`} viewBox=${`0 0 ${WIDTH} ${n(height)}`}>
      ${drawn(scaleBarAt(MARGIN, height - MARGIN / 2, scale, unit, WIDTH / 3))}
      ${spots.map(spot)}
    </svg>
  </figure>`;
}
