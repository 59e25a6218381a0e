/** A comparison as Markdown, for the comment of a review. */

import type { Comparison, TreeChange } from '../compare/compare.ts';
import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import { changeWords, figureWords, showCounts, treeTitle } from './comparison-text.ts';
import { escapeMarkdown } from './markdown.ts';

export function showComparisonMarkdown({ trees, others, came, went }: Comparison, title: string): string {
  const beside = [
    ...came.filter(({ tree }) => tree === undefined).map(cameItem),
    ...went.filter(({ tree }) => tree === undefined).map(wentItem),
  ];
  return [
    `### ${escapeMarkdown(title)}\n\n${showCounts(trees, came, went)}`,
    ...trees.map(tree => section(treeTitle(tree), treeItems(tree))),
    ...others.map(({ name, changes }) =>
      section(
        name,
        changes.map(change => escapeMarkdown(changeWords(change))),
      ),
    ),
    ...(beside.length > 0 ? [section('Beside the trees', beside)] : []),
  ].join('\n');
}

/** @param items Markdown already */
const section = (title: string, items: readonly string[]): string =>
  `**${escapeMarkdown(title)}**\n\n${items.map(item => `- ${item}\n`).join('')}`;

const treeItems = ({ summary, changes, figures, came, went }: TreeChange): readonly string[] => [
  ...(summary ? [escapeMarkdown(summary)] : []),
  ...changes.map(change => escapeMarkdown(changeWords(change))),
  ...figures.map(figure => escapeMarkdown(figureWords(figure))),
  ...came.map(cameItem),
  ...went.map(wentItem),
];

const cameItem = (finding: Finding) => `**came:** ${words(finding)}`;
const wentItem = (finding: Finding) => `went: ${words(finding)}`;

function words({ level, message, rule, accepted }: Finding): string {
  const by = accepted ? ` ${acceptedWords(accepted)}` : '';
  return `${accepted ? 'accepted' : level}: ${escapeMarkdown(`${message}${by} [${rule}]`)}`;
}
