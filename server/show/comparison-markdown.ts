/** A comparison as Markdown, for a review comment. */

import type { Comparison, TreeChange } from '../compare/compare.ts';
import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import { changeWords, figureWords, showCounts, treeTitle } from './comparison-text.ts';
import { escapeReview } from './escape-markdown.ts';

export function showComparisonMarkdown({ trees, others, came, went }: Comparison, title: string): string {
  const beside = [
    ...came.filter(({ tree }) => tree === undefined).map(cameItem),
    ...went.filter(({ tree }) => tree === undefined).map(wentItem),
  ];
  return [
    `### ${escapeReview(title)}\n\n${showCounts(trees, came, went)}`,
    ...trees.map(tree => section(treeTitle(tree), treeItems(tree))),
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

const treeItems = ({ summary, changes, figures, came, went }: TreeChange): readonly string[] => [
  ...(summary ? [escapeReview(summary)] : []),
  ...changes.map(change => escapeReview(changeWords(change))),
  ...figures.map(figure => escapeReview(figureWords(figure))),
  ...came.map(cameItem),
  ...went.map(wentItem),
];

const cameItem = (finding: Finding) => `**came:** ${words(finding)}`;
const wentItem = (finding: Finding) => `went: ${words(finding)}`;

function words({ level, message, rule, accepted }: Finding): string {
  const by = accepted ? ` ${acceptedWords(accepted)}` : '';
  return `${accepted ? 'accepted' : level}: ${escapeReview(`${message}${by} [${rule}]`)}`;
}
