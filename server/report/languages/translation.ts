/** What a language of the part for the crew consists of. */

import type { Ask } from '../../assess/asks.ts';
import type { ClosureKind } from '../../assess/clear-days.ts';
import type { SignKind } from '../../assess/sign-kinds.ts';
import type { Crew } from '../../facts/types.ts';
import type { MessageKey } from './en.ts';
import type { CrewWord } from './words.ts';

export type LanguageCode = NonNullable<Crew['language']>['value'];

export interface Language {
  /** Its name in itself. */
  readonly name: string;
  readonly messages: Readonly<Record<MessageKey, string>>;
  /** By rule: what a finding means for the crew, and what to do. */
  readonly findings: Readonly<Record<string, string>>;
  /** English, where it is left out, has the words of the notation. */
  readonly translation?: {
    readonly words: Readonly<Record<CrewWord, string>>;
    readonly points: Readonly<Record<string, string>>;
    readonly original: OfOriginal;
  };
}

/**
 * What to make of the sentences that rules and assessments write in English: each is said by its kind, and the original
 * stands below it.
 */
export interface OfOriginal {
  /** At the foot of a sheet: who checked the translation, and what to do where it differs from the English. */
  readonly note: string;
  /** A finding of a rule without a sentence. */
  readonly otherFinding: string;
  readonly closures: Readonly<Record<ClosureKind, string>>;
  readonly asks: Readonly<Record<Ask['kind'], string>>;
  /** Signs other than defects, for which the words of the notation are not enough. */
  readonly signs: Readonly<Partial<Record<SignKind, string>>>;
  /** What a figure of rigging lacks, by its English. */
  readonly missing: Readonly<Record<string, string>>;
}
