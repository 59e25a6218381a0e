/** The regions whose law, guidance and custom are on record, by subject. */

import { ownRows } from '../practice/law/laws-of.ts';
import { REGION_NAMES } from '../practice/law/region-names.ts';
import { coverage } from '../show/law-text.ts';
import type { Io } from './io.ts';
import { wrap } from './prose.ts';

/** `lines, felling zones: law, read; bats: custom, from memory`. */
function coveredText(code: string): string {
  const subjects = new Map<string, string[]>();
  for (const { subject, text } of coverage(ownRows(code)))
    subjects.set(text, [...(subjects.get(text) ?? []), subject]);
  return [...subjects].map(([text, of]) => `${of.join(', ')}: ${text}`).join('; ');
}

export const regionsText = (io: Io): string =>
  [
    ...Object.entries(REGION_NAMES).map(
      ([code, name]) => `${io.paint('bold', code)} ${name}\n${wrap(coveredText(code), 2)}\n`,
    ),
    `${wrap('Each subject shows the force and certainty of its best-supported row. States and provinces also have the rows of their country, and member states those of the European Union. soundwood explain --here PATH shows the rows for a site.', 0)}\n`,
  ].join('');
