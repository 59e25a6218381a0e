/** The cautions of many findings, each once, with what it applies to. */

import { counted, listed } from '../base/words.ts';
import type { Finding } from '../rules/check.ts';
import { sanitizeLine } from './sanitize.ts';

interface Applied {
  count: number;
  readonly rules: Set<string>;
}

export class Cautions {
  private readonly byText = new Map<string, Applied>();

  /** @param say the caution as it is to be read */
  add({ caution: canonical, accepted, rule }: Finding, say = (text: string) => text): void {
    if (canonical === undefined || accepted) return;
    const caution = say(canonical);
    const applied = this.byText.get(caution) ?? { count: 0, rules: new Set() };
    applied.count++;
    applied.rules.add(rule);
    this.byText.set(caution, applied);
  }

  /** In the order in which they came up first. */
  get all(): readonly {
    readonly text: string;
    /** `3 findings (season-dose and topping)`. */
    readonly about: string;
  }[] {
    return [...this.byText].map(([text, { count, rules }]) => ({
      text: sanitizeLine(text),
      about: `${counted(count, 'finding')} (${sanitizeLine(listed([...rules].sort()))})`,
    }));
  }
}
