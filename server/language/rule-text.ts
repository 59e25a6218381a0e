/** A rule as Markdown. */

import type { Rule } from '../rules/rule.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';

export const ruleText = (rule: Rule): string =>
  paragraphs(
    `**${escapeMarkdown(rule.name)}**: ${escapeMarkdown(rule.summary)}`,
    ...rule.explanation.split('\n\n').map(escapeMarkdown),
    `_When not:_ ${escapeMarkdown(rule.limitations)}`,
    rule.acceptable ? undefined : "It can't be accepted by a record.",
    rule.caution && escapeMarkdown(rule.caution),
    `Sources: ${rule.sources.map(({ full, confidence }) => escapeMarkdown(`${full} (${confidence})`)).join('; ')}`,
  );
