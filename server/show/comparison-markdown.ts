/** A comparison as Markdown, for a review comment. */

import type { Comparison, TreeChange } from '../compare/compare.ts';
import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import { changeWords, figureWords, type RegionOf, showCounts, treeTitle } from './comparison-text.ts';
import { escapeReview } from './escape-markdown.ts';
import { readInRegion } from './in-region.ts';

export function showComparisonMarkdown(
  { trees, others, came, went }: Comparison,
  title: string,
  regionOf: RegionOf,
): string {
  const cameItem = (finding: Finding) => `**new:** ${words(finding, regionOf)}`;
  const wentItem = (finding: Finding) => `no longer reported: ${words(finding, regionOf)}`;
  const beside = [
    ...came.filter(({ tree }) => tree === undefined).map(cameItem),
    ...went.filter(({ tree }) => tree === undefined).map(wentItem),
  ];
  return [
    `### ${escapeReview(title)}\n\n${showCounts(trees, came, went)}`,
    ...trees.map(tree =>
      section(treeTitle(tree), [...treeItems(tree), ...tree.came.map(cameItem), ...tree.went.map(wentItem)]),
    ),
    ...others.map(({ name, changes }) =>
      section(
        name,
        changes.map(change => escapeReview(changeWords(change))),
      ),
    ),
    ...(beside.length > 0 ? [section('Beside the trees', beside)] : []),
  ].join('\n');
}

/** @param items Markdown */
const section = (title: string, items: readonly string[]): string =>
  `**${escapeReview(title)}**\n\n${items.map(item => `- ${item}\n`).join('')}`;

const treeItems = ({ summary, changes, figures }: TreeChange): readonly string[] => [
  ...(summary ? [escapeReview(summary)] : []),
  ...changes.map(change => escapeReview(changeWords(change))),
  ...figures.map(figure => escapeReview(figureWords(figure))),
];

function words({ file, level, message, rule, accepted }: Finding, regionOf: RegionOf): string {
  const region = regionOf(file);
  const by = accepted ? ` ${acceptedWords(accepted, region)}` : '';
  return `${accepted ? 'accepted' : level}: ${escapeReview(`${readInRegion(message, region)}${by} [${rule}]`)}`;
}
