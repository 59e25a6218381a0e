/** Words of the notation and limits, told to people. */

import type { FieldSpec } from '../../grammar/fields.ts';
import { authority } from '../assess/judge.ts';
import { inUnit, unitOf } from '../base/quantity.ts';
import type { Settings } from '../facts/settings.ts';
import { code, escapeMarkdown, paragraphs } from './markdown.ts';

/** A limit as it applies here, with its origin. */
export function limitText(name: string, summary: string, direction: string, settings: Settings): string {
  const setting = settings.limit(name);
  const unit = unitOf(setting.unit);
  const value = unit ? inUnit(setting.value, unit, 2) : String(setting.value);
  const { origin, citation } = setting;
  const from =
    origin.from === 'practice'
      ? `Set by practice ${escapeMarkdown(origin.name ?? '')} in ${escapeMarkdown(origin.file ?? '')}${origin.because ? `: ${escapeMarkdown(origin.because)}` : ''}.`
      : `From ${escapeMarkdown(authority(setting))}.`;
  return paragraphs(
    `**${escapeMarkdown(name)}**: ${escapeMarkdown(direction)} ${escapeMarkdown(value)} here`,
    escapeMarkdown(summary),
    from,
    `Source: ${escapeMarkdown(citation.full)} (${citation.confidence}).`,
  );
}

export const entryText = ({ word, shown, summary, example }: FieldSpec): string =>
  paragraphs(
    `**${escapeMarkdown(word)}** ${code(shown)}`,
    escapeMarkdown(summary),
    `For example ${code(example)}`,
  );
