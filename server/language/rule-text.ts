/** A rule as Markdown. */

import type { Rule } from '../rules/rule.ts';
import { escapeMarkdown, paragraphs } from './markdown.ts';

export const ruleText = (rule: Rule): string =>
  paragraphs(
    `**${escapeMarkdown(rule.name)}**: ${escapeMarkdown(rule.summary)}`,
    ...rule.explanation.split('\n\n').map(escapeMarkdown),
    `_Limitations:_ ${escapeMarkdown(rule.limitations)}`,
    rule.acceptable ? undefined : 'No exceptions are possible.',
    rule.caution && escapeMarkdown(rule.caution),
    `Sources: ${rule.sources.map(({ full, confidence }) => escapeMarkdown(`${full} (${confidence})`)).join('; ')}`,
  );
